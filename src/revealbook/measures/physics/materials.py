"""Quantities of adhesive, foam and tape, and what a recorded consumption can have been enough for.

Volumes: geometry. 1 mm2 of section over 1 m is 1 ml. Waste is an allowance on top of what stays in the work:
a waste of 10 % buys 1.1 times that. Contents and yields are data-sheet-type values of the product.
"""

from collections.abc import Sequence

from revealbook.measures.physics.plausibility import require_not_negative, require_positive
from revealbook.measures.physics.whole_pieces import fewest_whole


def rectangular_section_mm2(width_mm: float, height_mm: float) -> float:
    """Return the section of a flat bead, sides above zero."""
    require_positive(width_mm=width_mm, height_mm=height_mm)
    return width_mm * height_mm


def triangular_section_mm2(width_mm: float, height_mm: float) -> float:
    """Return the section of a bead from a V-notched nozzle, foot and height above zero."""
    return rectangular_section_mm2(width_mm, height_mm) / 2


def _with_waste(quantity: float, waste_pct: float) -> float:
    require_not_negative(waste_pct=waste_pct)
    return quantity * (1 + waste_pct / 100)


def bead_volume_ml(section_mm2: float, length_m: float, waste_pct: float = 0.0) -> float:
    """Return the adhesive to buy for a bead.

    Args:
        section_mm2: of the bead as laid, above zero.
        length_m: of all beads together, not below zero.
        waste_pct: allowance on top, not below zero.
    """
    require_positive(section_mm2=section_mm2)
    require_not_negative(length_m=length_m)
    return _with_waste(section_mm2 * length_m, waste_pct)


def containers_needed(volume_ml: float, content_ml: float) -> int:
    """Return how many whole cartridges or sausages hold a volume.

    Args:
        volume_ml: needed, waste included, not below zero.
        content_ml: of one container, above zero.
    """
    require_not_negative(volume_ml=volume_ml)
    require_positive(content_ml=content_ml)
    return fewest_whole(volume_ml / content_ml)


def tape_length_m(runs_mm: Sequence[float], lap_mm: float, waste_pct: float = 0.0) -> float:
    """Return the tape to buy for separate runs, each of which laps over its neighbour once.

    Args:
        runs_mm: lengths to be covered, each above zero; a window's four sides make four runs and four laps.
        lap_mm: extra length of each run at its corner or splice, not below zero.
        waste_pct: allowance on top, not below zero.
    """
    require_not_negative(lap_mm=lap_mm)
    for run_mm in runs_mm:
        require_positive(run_mm=run_mm)
    return _with_waste(sum(runs_mm) + lap_mm * len(runs_mm), waste_pct) / 1000


def foam_volume_l(width_mm: float, depth_mm: float, length_m: float, waste_pct: float = 0.0) -> float:
    """Return the set foam, in litres, that fills a joint.

    Args:
        width_mm: of the joint between mounting frame and window, above zero.
        depth_mm: of the filling, above zero.
        length_m: of the joint, not below zero.
        waste_pct: what is trimmed off and lost, on top, not below zero.
    """
    require_positive(width_mm=width_mm, depth_mm=depth_mm)
    return bead_volume_ml(width_mm * depth_mm, length_m, waste_pct) / 1000
