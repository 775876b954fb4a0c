"""Squareness, plumb, bow: what a tape and a level say about a rectangle of sides.

Geometry: textbook. Plumb and level of an installed element: common practice, published as such by a test
institute (for internal doors; the same figures as a trade rule for windows are from memory).
"""

import math

from revealbook.measures.physics.plausibility import require_finite, require_not_negative, require_positive

PLUMB_MM_PER_M = 1.5
PLUMB_GREATEST_MM = 3.0
PLUMB_GREATEST_LENGTH_MM = 3000.0
"""Common practice: 1.5 mm per metre, at most 3 mm, for elements up to 3 m long."""


def diagonal_mm(width_mm: float, height_mm: float) -> float:
    """Return the diagonal of a rectangle with sides above zero."""
    require_positive(width_mm=width_mm, height_mm=height_mm)
    return math.hypot(width_mm, height_mm)


def diagonal_difference_mm(lateral_rack_mm: float, width_mm: float, height_mm: float) -> float:
    """Return by how much the diagonals differ when the head of a rectangle is pushed sideways.

    Close to 2 w s / diagonal, but exact.

    Args:
        lateral_rack_mm: s, sideways shift of the head against the sill; the sign passes through.
        width_mm: w, above zero.
        height_mm: clear height from sill to head, above zero.
    """
    require_finite(lateral_rack_mm=lateral_rack_mm)
    require_positive(width_mm=width_mm, height_mm=height_mm)
    longer = math.hypot(width_mm + lateral_rack_mm, height_mm)
    return longer - math.hypot(width_mm - lateral_rack_mm, height_mm)


def lateral_rack_mm(diagonal_mm: float, other_diagonal_mm: float, width_mm: float) -> float:
    """Return the sideways shift of the head against the sill that two diagonals betray.

    s = (d1^2 - d2^2) / (4 w), exact for a parallelogram. Positive where the first diagonal is the longer.

    Args:
        diagonal_mm: from the sill's first corner up to the opposite one, above zero.
        other_diagonal_mm: the other one, above zero.
        width_mm: of sill and head, above zero.

    Raises:
        ValueError: no parallelogram of that width has these diagonals.
    """
    require_positive(diagonal_mm=diagonal_mm, other_diagonal_mm=other_diagonal_mm, width_mm=width_mm)
    # Half the diagonals and the sill form a triangle.
    half_sum, half_gap = (
        (diagonal_mm + other_diagonal_mm) / 2,
        abs(diagonal_mm - other_diagonal_mm) / 2,
    )
    if not half_gap < width_mm < half_sum:
        raise ValueError(
            f"diagonals of {diagonal_mm} and {other_diagonal_mm} mm do not fit a width of {width_mm} mm"
        )
    return (diagonal_mm + other_diagonal_mm) * (diagonal_mm - other_diagonal_mm) / (4 * width_mm)


def corner_offset_mm(side_mm: float, other_side_mm: float, diagonal_mm: float) -> float:
    """Return how far the end of a side stands off the square line at a corner (DIN 18202 calls it Stichmass).

    The diagonal faces the corner. Positive where the corner is wider than a right angle.

    Args:
        side_mm: the side taken as the base line, above zero.
        other_side_mm: the side whose end is looked at, above zero.
        diagonal_mm: between the far ends of both sides, above zero.

    Raises:
        ValueError: the three do not form a triangle.
    """
    require_positive(side_mm=side_mm, other_side_mm=other_side_mm, diagonal_mm=diagonal_mm)
    if not abs(side_mm - other_side_mm) < diagonal_mm < side_mm + other_side_mm:
        raise ValueError(f"sides of {side_mm} and {other_side_mm} mm have no diagonal of {diagonal_mm} mm")
    # Law of cosines, as differences of squares about the true diagonal to keep the small number's digits.
    true_mm = math.hypot(side_mm, other_side_mm)
    return (diagonal_mm - true_mm) * (diagonal_mm + true_mm) / (2 * side_mm)


def bow_mm(first_end_mm: float, middle_mm: float, other_end_mm: float) -> float:
    """Return the middle size less the mean of those at both ends; positive where the middle is wider."""
    require_finite(first_end_mm=first_end_mm, middle_mm=middle_mm, other_end_mm=other_end_mm)
    return middle_mm - (first_end_mm + other_end_mm) / 2


def deviation_mm_per_m(deviation_mm: float, length_mm: float) -> float:
    """Return a deviation from plumb, level or square per metre of the length it was read over, above zero."""
    require_finite(deviation_mm=deviation_mm)
    require_positive(length_mm=length_mm)
    return deviation_mm / (length_mm / 1000)


def plumb_tolerance_mm(length_mm: float) -> float | None:
    """Return what an installed element may be out of plumb or level: 1.5 mm per m, at most 3 mm.

    None beyond 3 m, for which no figure is known.

    Args:
        length_mm: height of a jamb or length of a sill or head, not below zero.
    """
    require_not_negative(length_mm=length_mm)
    if length_mm > PLUMB_GREATEST_LENGTH_MM:
        return None
    return min(PLUMB_MM_PER_M * length_mm / 1000, PLUMB_GREATEST_MM)
