"""Pressure coefficients of vertical walls and net wind pressure on an opening, EN 1991-1-4:2005 7.2.

Table 7.1 and the interpolation in area (figure 7.2): published (secondary source). Sign: positive presses
onto the surface, negative sucks away from it. National annexes differ (the German wall table does).

Indicative only: a wind load defers to the national annex, local codes and a licensed engineer.
"""

import math
from functools import cache
from typing import NamedTuple

from revealbook.measures.physics.plausibility import (
    require_between,
    require_finite,
    require_not_negative,
    require_positive,
)
from revealbook.measures.physics.published_table import rows
from revealbook.measures.physics.wind_zones import Zone

INTERNAL_OVERPRESSURE = 0.2
"""cpi to be set against suction where the openings of the building cannot be counted (7.2.9 note 2)."""
INTERNAL_UNDERPRESSURE = -0.3
"""cpi to be set against pressure, in the same case."""
SMALL_AREA_M2, LARGE_AREA_M2 = 1.0, 10.0
"""Loaded areas between which the coefficient is interpolated (7.2.1)."""


class WallCoefficients(NamedTuple):
    """cpe,10 and cpe,1 of a wall zone: for 10 m2 and more, and for 1 m2 and less."""

    cpe_10: float
    cpe_1: float


class WorstPressures(NamedTuple):
    """Greatest suction (below zero) and greatest pressure on an opening, in Pa, with their cpe."""

    suction_pa: float
    pressure_pa: float
    suction_cpe: float
    pressure_cpe: float


@cache
def _printed(zone: Zone) -> tuple[tuple[float, WallCoefficients], ...]:
    """Return the table's h/d and coefficients of a zone, in rising h/d."""
    return tuple(
        (float(row["height_to_depth"]), WallCoefficients(float(row["cpe_10"]), float(row["cpe_1"])))
        for row in rows("wall_pressure_coefficients")
        if row["zone"] == zone
    )


def _between(share: float, low: float, high: float) -> float:
    return low + share * (high - low)


def wall_coefficients(zone: Zone, height_to_depth: float) -> WallCoefficients:
    """Return cpe,10 and cpe,1 of a zone, linear in h/d between the rows of table 7.1.

    Args:
        zone: A to E.
        height_to_depth: h/d, d along the wind; above 0, at most 5. Up to 0.25 the table's last row holds.

    Raises:
        ValueError: no such zone, or h/d beyond the table (slender buildings go by clauses 7.6 to 7.8).
    """
    printed = _printed(zone)
    if not printed:
        raise ValueError(f"zone must be A, B, C, D or E, not {zone!r}")
    require_positive(height_to_depth=height_to_depth)
    require_between(0, printed[-1][0], height_to_depth=height_to_depth)
    below = printed[0]
    for above in printed:
        if height_to_depth <= above[0]:
            break
        below = above
    span = above[0] - below[0]
    share = (height_to_depth - below[0]) / span if span else 0.0
    return WallCoefficients(*(_between(share, *pair) for pair in zip(below[1], above[1], strict=True)))


def external_coefficient(zone: Zone, height_to_depth: float, area_m2: float) -> float:
    """Return cpe for a loaded area: cpe,1 - (cpe,1 - cpe,10) log10 A between 1 and 10 m2 (figure 7.2).

    Args:
        zone: A to E.
        height_to_depth: h/d, above 0, at most 5.
        area_m2: loaded area, above zero; up to 1 m2 cpe,1 holds, from 10 m2 on cpe,10.
    """
    require_positive(area_m2=area_m2)
    wall = wall_coefficients(zone, height_to_depth)
    share = math.log10(min(max(area_m2, SMALL_AREA_M2), LARGE_AREA_M2))
    return wall.cpe_1 - (wall.cpe_1 - wall.cpe_10) * share


def net_pressure_pa(peak_pressure_pa: float, cpe: float, cpi: float) -> float:
    """Return qp (cpe - cpi), the pressure on the outer face less that on the inner one, in Pa (5.2).

    Args:
        peak_pressure_pa: qp at the reference height, not below zero; taken alike for both faces, as ze = zi.
        cpe: external coefficient.
        cpi: internal coefficient.
    """
    require_not_negative(peak_pressure_pa=peak_pressure_pa)
    require_finite(cpe=cpe, cpi=cpi)
    return peak_pressure_pa * (cpe - cpi)


def worst_pressures_pa(
    peak_pressure_pa: float,
    side_zone: Zone,
    height_to_depth: float,
    area_m2: float,
    *,
    internal_overpressure: float = INTERNAL_OVERPRESSURE,
    internal_underpressure: float = INTERNAL_UNDERPRESSURE,
) -> WorstPressures:
    """Return the greatest suction and pressure on an opening, the wind coming from any side.

    Suction is the worse of the side wall's zone and of the leeward wall, with overpressure inside;
    pressure is the windward wall's, with underpressure inside.

    Args:
        peak_pressure_pa: qp at the building's height, not below zero.
        side_zone: A, B or C, from `wind_zones.worst_side_zone`.
        height_to_depth: building's height by its depth behind the wall, above 0, at most 5.
        area_m2: loaded area of the window, above zero.
        internal_overpressure: cpi against suction.
        internal_underpressure: cpi against pressure.
    """
    suction_cpe = min(external_coefficient(zone, height_to_depth, area_m2) for zone in (side_zone, "E"))
    pressure_cpe = external_coefficient("D", height_to_depth, area_m2)
    return WorstPressures(
        net_pressure_pa(peak_pressure_pa, suction_cpe, internal_overpressure),
        net_pressure_pa(peak_pressure_pa, pressure_cpe, internal_underpressure),
        suction_cpe,
        pressure_cpe,
    )
