"""Dead load of a window, what each support and fixing gets of it, and of the wind.

Statics: textbook (from memory where a formula names no other source). Mass of glass 2500 kg/m3, EN 572-1:
published (secondary source). The other published route, 25 kN/m3 of EN 1991-1-1 table A.5, gives 2 % more;
the two must not be mixed. Everything here is a characteristic load, without partial factors.

Indicative only: loads defer to local codes, the supplier's written instructions and a licensed engineer.
"""

from collections.abc import Sequence
from itertools import pairwise

from revealbook.measures.physics.plausibility import (
    require_finite,
    require_not_negative,
    require_positions_mm,
    require_positive,
)

STANDARD_GRAVITY_M_S2 = 9.80665
"""By definition (ISO 80000-3)."""
GLASS_DENSITY_KG_M3 = 2500.0
"""EN 572-1: published (secondary source)."""


def glass_mass_kg(pane_thicknesses_mm: Sequence[float], area_m2: float) -> float:
    """Return the mass of an insulating glass unit: 2.5 kg per m2 and mm of glass, spacers left out.

    Args:
        pane_thicknesses_mm: of every pane, without the gaps; each above zero.
        area_m2: of the glass, above zero.

    Raises:
        ValueError: there is no pane, or a size is not above zero.
    """
    require_positive(area_m2=area_m2)
    if not pane_thicknesses_mm:
        raise ValueError("pane_thicknesses_mm must name at least one pane")
    for thickness_mm in pane_thicknesses_mm:
        require_positive(pane_thickness_mm=thickness_mm)
    return GLASS_DENSITY_KG_M3 * sum(pane_thicknesses_mm) / 1000 * area_m2


def dead_load_n(mass_kg: float) -> float:
    """Return the weight in N of a mass not below zero."""
    require_not_negative(mass_kg=mass_kg)
    return mass_kg * STANDARD_GRAVITY_M_S2


def eccentric_moment_nm(load_n: float, eccentricity_mm: float) -> float:
    """Return M = G e in Nm, the moment of a load that stands out from the fixings' plane.

    Args:
        load_n: G, not below zero.
        eccentricity_mm: e, from the wall's surface to the window's centre of gravity, not below zero.
    """
    require_not_negative(load_n=load_n, eccentricity_mm=eccentricity_mm)
    return load_n * eccentricity_mm / 1000


def moment_tension_n(moment_nm: float, lever_arm_mm: float, fixings: int) -> float:
    """Return T = M / (n z) in N: each of n equal fixings in tension takes its share of a couple.

    Args:
        moment_nm: M, not below zero.
        lever_arm_mm: z, from the fixings to the edge that presses on the wall, above zero.
        fixings: n, at least 1.
    """
    require_not_negative(moment_nm=moment_nm)
    require_positive(lever_arm_mm=lever_arm_mm, fixings=fixings)
    return moment_nm / (fixings * lever_arm_mm / 1000)


def shear_per_fixing_n(load_n: float, fixings: int) -> float:
    """Return V = G / n in N, the load shared alike by n fixings, n at least 1."""
    require_not_negative(load_n=load_n)
    require_positive(fixings=fixings)
    return load_n / fixings


def tributary_lengths_mm(length_mm: float, positions_mm: Sequence[float]) -> tuple[float, ...]:
    """Return the length of a piece that each fixing holds: half way to its neighbours, and the free ends.

    Args:
        length_mm: of the piece, above zero.
        positions_mm: of the fixings from one end, rising, inside the piece.
    """
    positions = tuple(positions_mm)
    require_positions_mm(length_mm, positions)
    middles = [(before + after) / 2 for before, after in pairwise(positions)]
    borders = [0.0, *middles, length_mm]
    return tuple(end - start for start, end in pairwise(borders))


def wind_tensions_n(
    pressure_pa: float, carried_width_mm: float, length_mm: float, positions_mm: Sequence[float]
) -> tuple[float, ...]:
    """Return the force in N on each fixing of a piece that carries a strip of window against the wind.

    A tributary model: pressure x width x tributary length. Stiffness of the frame is not considered.

    Args:
        pressure_pa: net pressure or suction; the sign passes through to the forces.
        carried_width_mm: width of the strip, usually half the window's width for a jamb; above zero.
        length_mm: of the piece, above zero.
        positions_mm: of the fixings from one end, rising, inside the piece.
    """
    require_finite(pressure_pa=pressure_pa)
    require_positive(carried_width_mm=carried_width_mm)
    lengths = tributary_lengths_mm(length_mm, positions_mm)
    return tuple(pressure_pa * carried_width_mm / 1000 * share_mm / 1000 for share_mm in lengths)


def hinge_pull_n(sash_kg: float, sash_width_mm: float, hinge_distance_mm: float) -> float:
    """Return the pull in N on the upper hinge of a sash opened square to the frame: G (b / 2) / a.

    Args:
        sash_kg: mass of the sash with its glass, not below zero.
        sash_width_mm: b, its centre of gravity taken in the middle, above zero.
        hinge_distance_mm: a, between upper and lower hinge, above zero.
    """
    require_positive(sash_width_mm=sash_width_mm, hinge_distance_mm=hinge_distance_mm)
    return dead_load_n(sash_kg) * sash_width_mm / 2 / hinge_distance_mm
