"""Distances of fixings along a piece, and how many a piece needs for distances not to be exceeded.

Geometry only; what distances are asked for, and from which corner they are taken, differs between rule
sets and stands there. State the same reference point (inner or outer corner) for length and positions.
"""

from collections.abc import Sequence
from itertools import pairwise
from typing import NamedTuple

from revealbook.measures.physics.plausibility import (
    require_not_negative,
    require_positions_mm,
    require_positive,
)
from revealbook.measures.physics.whole_pieces import fewest_whole


class FixingDistances(NamedTuple):
    """Distance of first and last fixing from the end next to it, and the centres between, in mm."""

    first_mm: float
    last_mm: float
    centres_mm: tuple[float, ...]


def fixing_distances_mm(length_mm: float, positions_mm: Sequence[float]) -> FixingDistances:
    """Return the distances that positions along a piece leave.

    Args:
        length_mm: of the piece, above zero.
        positions_mm: from one end, rising, inside the piece; at least one.

    Raises:
        ValueError: a position beyond the piece or out of order.
    """
    positions = tuple(positions_mm)
    require_positions_mm(length_mm, positions)
    centres = tuple(after - before for before, after in pairwise(positions))
    return FixingDistances(positions[0], length_mm - positions[-1], centres)


def fewest_fixings(length_mm: float, greatest_end_mm: float, greatest_centres_mm: float) -> int:
    """Return the fewest fixings, at least two, that keep both distances on a piece.

    Args:
        length_mm: of the piece, above zero.
        greatest_end_mm: the first and last may stand this far from the ends, not below zero.
        greatest_centres_mm: neighbours may stand this far apart, above zero.
    """
    require_positive(length_mm=length_mm, greatest_centres_mm=greatest_centres_mm)
    require_not_negative(greatest_end_mm=greatest_end_mm)
    between_mm = max(length_mm - 2 * greatest_end_mm, 0.0)
    return max(fewest_whole(between_mm / greatest_centres_mm), 1) + 1
