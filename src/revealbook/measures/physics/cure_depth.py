"""How deep a moisture-curing bead has set, where the product states a depth after 24 hours.

d = d24 sqrt(t / 24 h): a moisture front first advances with the square root of time (textbook diffusion,
published in general; no measured cure depth of a sealant was found, so for a bead this is a model). d24
is a data-sheet-type value, 2 to 4 mm in a named climate. "So many millimetres a day" taken as a straight
line is too short by d / d24.
"""

import math

from revealbook.measures.physics.dew_point import vapour_pressure_pa

_DAY_H = 24.0


def _require_positive(value: float, what: str) -> None:
    if not (math.isfinite(value) and value > 0):
        raise ValueError(f"{what} must be more than zero, not {value}.")


def cure_depth_mm(hours: float, depth_24h_mm: float) -> float:
    """Depth in mm that has set after some hours, in the climate for which the depth after 24 hours is stated.

    d24 sqrt(t / 24). Hours from 0. Raises ValueError for negative hours or a depth that is not positive.
    """
    _require_positive(depth_24h_mm, "The depth set after 24 hours")
    if not (math.isfinite(hours) and hours >= 0):
        raise ValueError(f"Hours must be zero or more, not {hours}.")
    return depth_24h_mm * math.sqrt(hours / _DAY_H)


def hours_to_depth(depth_mm: float, depth_24h_mm: float) -> float:
    """Hours until a depth has set: 24 (d / d24)^2, the inverse of `cure_depth_mm`.

    Raises ValueError for a depth that is not positive.
    """
    _require_positive(depth_mm, "The depth to set")
    _require_positive(depth_24h_mm, "The depth set after 24 hours")
    return _DAY_H * (depth_mm / depth_24h_mm) ** 2


def cure_path_mm(width_mm: float, open_edges: int) -> float:
    """Depth in mm to set in a bead pressed between two parts that let no moisture through.

    Moisture enters by the bead's open edges only: half the width with two, the whole width with one
    (geometry). Raises ValueError for another number of edges - with none the bead does not set by
    moisture - or a width not positive.
    """
    _require_positive(width_mm, "The width of the bead")
    if open_edges not in (1, 2):
        raise ValueError(f"A bead between two parts has one or two open edges, not {open_edges}.")
    return width_mm / open_edges


def pressed_widths_mm(width_mm: float, height_mm: float, thickness_mm: float) -> tuple[float, float]:
    """Least and greatest width in mm of a bead laid so wide and so high, once it is pressed to a thickness.

    Equal areas: a triangle (V-notched nozzle) at least, half an ellipse (round nozzle) at most. Pressing
    never makes a bead narrower than it was laid. Geometry. Raises ValueError for a length not positive.
    """
    lengths = (width_mm, height_mm, thickness_mm)
    for length, what in zip(lengths, ("width", "height", "thickness"), strict=True):
        _require_positive(length, f"The {what} of the bead")
    box = width_mm * height_mm / thickness_mm
    return max(width_mm, box / 2), max(width_mm, box * math.pi / 4)


def vapour_speed_factor(
    air_c: float, rh_pct: float, *, reference_air_c: float, reference_rh_pct: float
) -> float:
    """How fast a bead sets against its reference climate when only the vapour pressure counts: pv / pv,ref.

    A model, not a standard: the hours of the reference climate are divided by it. It leaves the slower
    chemistry and diffusion in the cold aside, so in a colder climate the hours found are the least that
    must pass; a factor above 1 is no ground for waiting less than the supplier says. Name the reference
    climate of the very product: data sheets differ (23 degC / 50 %, 20 / 50, 18 / 60). Temperatures -50
    to 80 degC, humidity above 0 to 100 %. Raises ValueError outside the ranges.
    """
    return vapour_pressure_pa(air_c, rh_pct) / vapour_pressure_pa(reference_air_c, reference_rh_pct)
