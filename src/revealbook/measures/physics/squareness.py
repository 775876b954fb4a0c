"""Squareness, plumb, bow: what a tape and a level say about a rectangle of sides.

Geometry: textbook. Plumb and level of an installed element: common practice, published as such by a test
institute (for internal doors; the same figures as a trade rule for windows are from memory).
"""

from revealbook.measures.physics.plausibility import require_positive


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
