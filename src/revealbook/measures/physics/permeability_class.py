"""Air permeability class of a window by EN 12207, by its area and by the length of its opening joint.

Source: EN 12207 (1999; 2016). Reference values and pressures are published (secondary source); the
exponent 2/3 and the way of combining the two classes are from memory. The class belongs to the test by EN
1026 on a stand; readings taken on a site give an indication of it, and whether all of that test's
pressure steps were read is not looked at.
"""

import math
from collections.abc import Sequence
from functools import cache
from typing import Literal, NamedTuple

from revealbook.measures.physics import published_table

REFERENCE_PRESSURE_PA = 100.0
_EXPONENT = 2 / 3

Basis = Literal["area", "joint"]
"""What the flow is divided by: the window's whole area in m2, or the length of its opening joint in m."""


class PermeabilityClass(NamedTuple):
    """One class: its reference permeability at 100 Pa by area and by joint, and its highest test pressure."""

    number: int
    area_m3_h_m2: float
    joint_m3_h_m: float
    max_pressure_pa: float


@cache
def permeability_classes() -> tuple[PermeabilityClass, ...]:
    """The classes, loosest (1) first, as `tables/air_permeability_classes.csv` states them."""
    return tuple(
        PermeabilityClass(
            int(row["class"]),
            float(row["area_m3_h_m2"]),
            float(row["joint_m3_h_m"]),
            float(row["max_pressure_pa"]),
        )
        for row in published_table.rows("air_permeability_classes")
    )


def _require_positive(value: float, what: str) -> None:
    if not (math.isfinite(value) and value > 0):
        raise ValueError(f"{what} must be more than zero, not {value}.")


def pressure_factor(pressure_pa: float) -> float:
    """By how much the permitted flow at a pressure exceeds that at 100 Pa: (dp / 100)^(2/3) (from memory).

    Raises ValueError for a pressure that is not positive.
    """
    _require_positive(pressure_pa, "Pressure difference in Pa")
    return float((pressure_pa / REFERENCE_PRESSURE_PA) ** _EXPONENT)


def permitted_flow(number: int, pressure_pa: float, basis: Basis) -> float:
    """Largest flow a class permits at a pressure, in m3/(h m2) by area or m3/(h m) by joint.

    Raises ValueError for a class other than 1 to 4, or a pressure that is not positive or beyond the
    class's test.
    """
    chosen = next((row for row in permeability_classes() if row.number == number), None)
    if chosen is None:
        raise ValueError(f"There is no air permeability class {number}.")
    if pressure_pa > chosen.max_pressure_pa:
        raise ValueError(
            f"Class {number} says nothing above {chosen.max_pressure_pa:g} Pa, so not at {pressure_pa:g}."
        )
    return _reference(chosen, basis) * pressure_factor(pressure_pa)


def _reference(chosen: PermeabilityClass, basis: Basis) -> float:
    return chosen.area_m3_h_m2 if basis == "area" else chosen.joint_m3_h_m


def class_by(basis: Basis, readings: Sequence[tuple[float, float]], size: float) -> int | None:
    """Best class, 1 to 4, that (pressure_pa, flow_m3_h) readings show; None when they show none.

    A class is shown when the readings reach its highest test pressure and every reading up to there is
    within it: what was read to 300 Pa shows class 2 at most, however little air passed. `size` is the
    area in m2 or the length of joint in m. Raises ValueError for no reading, a negative flow, or a
    pressure or size that is not positive.
    """
    _require_positive(size, "The area in m2" if basis == "area" else "The length of joint in m")
    if not readings:
        raise ValueError("At least one reading of pressure and flow is needed.")
    for pressure_pa, flow_m3_h in readings:
        _require_positive(pressure_pa, "Pressure difference in Pa")
        if not (math.isfinite(flow_m3_h) and flow_m3_h >= 0):
            raise ValueError(f"Air flow in m3/h must be zero or more, not {flow_m3_h}.")
    specific = [(pressure_pa, flow_m3_h / size) for pressure_pa, flow_m3_h in readings]
    shown = [row.number for row in permeability_classes() if _is_shown(row, basis, specific)]
    return max(shown, default=None)


def _is_shown(row: PermeabilityClass, basis: Basis, readings: Sequence[tuple[float, float]]) -> bool:
    if max(pressure for pressure, _ in readings) < row.max_pressure_pa:
        return False
    limit = _reference(row, basis)
    return all(flow <= limit * pressure_factor(p) for p, flow in readings if p <= row.max_pressure_pa)
