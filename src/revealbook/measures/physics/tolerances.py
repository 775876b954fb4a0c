"""Flatness tolerances of building work after DIN 18202:2019-07 table 3 (limits as in 2013-04).

Published (secondary source). The table stands as CSV beside this module; where it prints no figure, None is
returned. The limits of tables 1 and 2 stand as steps in the rule sets.
"""

from itertools import pairwise

from revealbook.measures.physics.plausibility import require_positive
from revealbook.measures.physics.published_table import rows


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
