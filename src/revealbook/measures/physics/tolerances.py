"""Dimensional tolerances of building work after DIN 18202:2019-07 (limits as in 2013-04).

Tables 1 and 3: published (secondary source). Table 2: from memory, to be held against the standard before
it is relied on. The tables stand as CSV beside this module. Where a table prints no figure, None is
returned.
"""

import math
from collections.abc import Mapping
from itertools import pairwise
from typing import Literal

from revealbook.measures.physics.plausibility import require_positive
from revealbook.measures.physics.published_table import number, rows

SizeRow = Literal[
    "plan size",
    "elevation size",
    "clear plan size",
    "clear elevation size",
    "opening",
    "opening with finished reveals",
]
"""Rows of table 1, by what is measured."""


def _limit_mm(steps: list[Mapping[str, str]], nominal_mm: float) -> float | None:
    """Return the limit of the step whose span, upper end included, holds a size."""
    for step in steps:
        to_mm = number(step["to_mm"])
        if float(step["above_mm"]) < nominal_mm and (to_mm is None or nominal_mm <= to_mm):
            return float(step["limit_mm"])
    return None


def limit_deviation_mm(row: SizeRow, nominal_mm: float) -> float | None:
    """Return the limit deviation, plus or minus, of a size after table 1, or None where it prints none.

    Args:
        row: what is measured; windows and doors go by "opening".
        nominal_mm: nominal size, above zero; a size on a border takes the smaller limit.

    Raises:
        ValueError: there is no such row.
    """
    require_positive(nominal_mm=nominal_mm)
    steps = [step for step in rows("din_18202_limit_deviations") if step["row"] == row]
    if not steps:
        raise ValueError(f"table 1 of DIN 18202 has no row {row!r}")
    return _limit_mm(steps, nominal_mm)


def angular_deviation_mm(nominal_mm: float) -> float | None:
    """Return the limit of an offset from the square or plumb line after table 2 (from memory).

    Args:
        nominal_mm: length of the side the offset is read at, above zero.
    """
    require_positive(nominal_mm=nominal_mm)
    return _limit_mm(list(rows("din_18202_angular_deviations")), nominal_mm)


def interpolated_flatness_mm(row: int, distance_mm: float) -> float | None:
    """Return the unrounded limit of flatness after table 3, straight between its columns.

    Args:
        row: 1 to 7; 5 is unfinished walls, 6 finished walls, 7 finished walls with raised demands.
        distance_mm: between the points the straightedge rests on. Outside 0.1 to 15 m: None.

    Raises:
        ValueError: there is no such row.
    """
    require_positive(distance_mm=distance_mm)
    points = [
        (float(cell["distance_mm"]), float(cell["limit_mm"]))
        for cell in rows("din_18202_flatness")
        if cell["row"] == str(row)
    ]
    if not points:
        raise ValueError(f"table 3 of DIN 18202 has no row {row}")
    for (near_mm, near_limit), (far_mm, far_limit) in pairwise(points):
        if near_mm <= distance_mm <= far_mm:
            return near_limit + (far_limit - near_limit) * (distance_mm - near_mm) / (far_mm - near_mm)
    return None


def flatness_deviation_mm(row: int, distance_mm: float) -> int | None:
    """Return the limit of flatness after table 3 in whole mm (halves up), or None outside the table."""
    limit_mm = interpolated_flatness_mm(row, distance_mm)
    return None if limit_mm is None else math.floor(limit_mm + 0.5)
