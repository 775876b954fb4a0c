"""Setting blocks under a pane of glass: where they stand, how long and how wide they are.

Quarter points, 100 mm and 27.3 mm per m2 of glass (0.1 inch per square foot), glass thickness + 2 mm:
published (secondary source, textbook pages). The rule of the near edge, 100 mm from the corner: common
practice, from memory.

Indicative only: glazing defers to the supplier's written instructions and local codes.
"""

from typing import NamedTuple

from revealbook.measures.physics.plausibility import require_positive

LEAST_BLOCK_MM = 100.0
BLOCK_MM_PER_M2 = 27.3
WIDER_THAN_GLASS_MM = 2.0


class BlockCentres(NamedTuple):
    """Middles of both blocks along the lower edge of the pane, in mm from one corner."""

    first_mm: float
    second_mm: float


def quarter_point_centres_mm(pane_width_mm: float) -> BlockCentres:
    """Return block centres at a quarter of the pane's width from each corner; each carries half the glass."""
    require_positive(pane_width_mm=pane_width_mm)
    return BlockCentres(pane_width_mm / 4, pane_width_mm * 3 / 4)


def corner_rule_centres_mm(
    pane_width_mm: float, block_length_mm: float = LEAST_BLOCK_MM, from_corner_mm: float = 100.0
) -> BlockCentres:
    """Return block centres when the near edge of each block keeps a distance from its corner.

    Args:
        pane_width_mm: above zero.
        block_length_mm: above zero.
        from_corner_mm: from the corner to the block's near edge, above zero.

    Raises:
        ValueError: the two blocks do not both fit under the pane.
    """
    require_positive(
        pane_width_mm=pane_width_mm, block_length_mm=block_length_mm, from_corner_mm=from_corner_mm
    )
    if 2 * (from_corner_mm + block_length_mm) > pane_width_mm:
        raise ValueError(f"two blocks of {block_length_mm} mm do not fit under {pane_width_mm} mm of glass")
    first_mm = from_corner_mm + block_length_mm / 2
    return BlockCentres(first_mm, pane_width_mm - first_mm)


def block_length_mm(area_m2: float) -> float:
    """Return the length of each of two blocks under a pane: 27.3 mm per m2, at least 100 mm."""
    require_positive(area_m2=area_m2)
    return max(BLOCK_MM_PER_M2 * area_m2, LEAST_BLOCK_MM)


def block_width_mm(glass_thickness_mm: float) -> float:
    """Return the width of a block: the whole unit's thickness, above zero, and 2 mm."""
    require_positive(glass_thickness_mm=glass_thickness_mm)
    return glass_thickness_mm + WIDER_THAN_GLASS_MM
