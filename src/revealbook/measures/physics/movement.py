"""Thermal movement of frames and the joint width that a sealant needs to follow it.

dL = alpha L dT: textbook. Sealant rule W = M / c: published (secondary source), with movement capability
c after ISO 11600. Conventions for M are in use that give widths differing by a factor of two; the one taken
here is the worst one-way movement from the temperature of installation to either extreme (the idea of ASTM
C1472).

Indicative only: joints defer to the sealant's data sheet, the supplier's written instructions and local
codes.
"""

from typing import NamedTuple

from revealbook.measures.physics.plausibility import (
    require_between,
    require_finite,
    require_not_negative,
    require_positive,
)
from revealbook.measures.physics.published_table import row


class Expansion(NamedTuple):
    """Coefficient of linear expansion per K, its published range, its source and how sure that is."""

    material: str
    per_k: float
    lowest_per_k: float
    highest_per_k: float
    source: str
    tag: str


def expansion(material: str) -> Expansion:
    """Return the coefficient of linear expansion of a material of the table.

    Raises:
        ValueError: the table does not hold the material; the sentence lists those it holds.
    """
    found = row("thermal_expansion", "material", material)
    value, lowest, highest = (float(found[name]) / 1e6 for name in ("alpha_1e6_per_k", "lowest", "highest"))
    return Expansion(material, value, lowest, highest, found["source"], found["tag"])


def thermal_movement_mm(expansion_per_k: float, length_mm: float, change_k: float) -> float:
    """Return dL = alpha L dT in mm; negative where the part cools.

    Args:
        expansion_per_k: alpha, not below zero.
        length_mm: L that moves freely, above zero.
        change_k: dT of the part itself, not of the air.
    """
    require_not_negative(expansion_per_k=expansion_per_k)
    require_positive(length_mm=length_mm)
    require_finite(change_k=change_k)
    return expansion_per_k * length_mm * change_k


def worst_one_way_movement_mm(
    expansion_per_k: float, moving_length_mm: float, installed_c: float, coldest_c: float, warmest_c: float
) -> float:
    """Return the larger of the movements from installation to the coldest and the warmest, in mm.

    Args:
        expansion_per_k: alpha, not below zero.
        moving_length_mm: that moves towards the joint, above zero; half the frame where both ends are free.
        installed_c: of the part when the joint is filled.
        coldest_c: of the part in use, not above `installed_c`.
        warmest_c: of the part in use, not below `installed_c`; dark frames far exceed the air.

    Raises:
        ValueError: the temperature of installation lies outside the extremes.
    """
    require_finite(coldest_c=coldest_c, warmest_c=warmest_c)
    require_between(coldest_c, warmest_c, installed_c=installed_c)
    larger_k = max(warmest_c - installed_c, installed_c - coldest_c)
    return thermal_movement_mm(expansion_per_k, moving_length_mm, larger_k)


def joint_width_mm(movement_mm: float, capability_pct: float) -> float:
    """Return W = M / c in mm, with the worst one-way movement as M.

    Args:
        movement_mm: M, not below zero.
        capability_pct: c, the sealant's movement capability to either side, above 0 to 100.
    """
    require_not_negative(movement_mm=movement_mm)
    require_positive(capability_pct=capability_pct)
    require_between(0, 100, capability_pct=capability_pct)
    return movement_mm / (capability_pct / 100)
