"""Lengths of the four frame pieces, and where a piece longer than the stock is joined."""

from collections.abc import Sequence
from itertools import pairwise
from typing import NamedTuple

from revealbook.setting_out.limits import Limits, require_whole_mm
from revealbook.setting_out.refusal import NotPossible, Reason, not_possible
from revealbook.setting_out.spread import Interval, Spacing, Spread, spread


class FrameLengths(NamedTuple):
    """Cut lengths of the mounting frame's pieces."""

    bottom_mm: int
    left_mm: int
    right_mm: int
    top_mm: int


class Parts(NamedTuple):
    """A piece made of parts: their lengths from the left or lower end, and the joints between them."""

    lengths_mm: tuple[int, ...]
    joints_mm: tuple[int, ...]


def frame_lengths(
    width_mm: int,
    height_left_mm: int,
    limits: Limits,
    *,
    height_right_mm: int | None = None,
    side_face_mm: int | None = None,
) -> FrameLengths:
    """Give the cut lengths of a mounting frame around an opening.

    The bottom piece lies below the opening and runs ``limits.overlap_mm`` past it on each side. The side
    pieces stand on it, beside the opening, and are as long as the opening is high. The top piece lies on
    them and spans their outer edges.

    Args:
        width_mm: width of the opening, at least 1.
        height_left_mm: height of the opening at its left side, at least 1.
        limits: the limits in force.
        height_right_mm: height at the right side where it differs from the left one.
        side_face_mm: how wide the side pieces' face is, seen from outside; the overlap where not given, so
            that their outer edges stand flush with the bottom piece's ends.

    Raises:
        ValueError: for a size that is no whole number above 0, or a side piece wider than the overlap that
            carries it.
    """
    right_mm = height_left_mm if height_right_mm is None else height_right_mm
    face_mm = limits.overlap_mm if side_face_mm is None else side_face_mm
    sizes = {"width_mm": width_mm, "height_left_mm": height_left_mm, "height_right_mm": right_mm}
    for name, value in sizes.items():
        require_whole_mm(name, value, least=1)
    require_whole_mm("side_face_mm", face_mm)
    if face_mm > limits.overlap_mm:
        raise ValueError(
            f"A side piece of {face_mm} mm would stand out past the bottom piece, "
            f"which overlaps by {limits.overlap_mm} mm."
        )
    return FrameLengths(width_mm + 2 * limits.overlap_mm, height_left_mm, right_mm, width_mm + 2 * face_mm)


def split(
    length_mm: int, stock_mm: int, limits: Limits, clear_of: Sequence[Interval] = ()
) -> Parts | NotPossible:
    """Divide a piece into parts no longer than the stock, with the fewest joints, as equal as can be.

    Every part is at least ``limits.part_min_mm`` long, so that it holds its own fixings: no joint comes near
    an end or another joint.

    Args:
        length_mm: the whole piece's length.
        stock_mm: length of the longest stock to cut from.
        limits: the limits in force.
        clear_of: stretches without a joint, such as the supports, clearance included.

    Returns:
        The parts (one and no joint where the stock is long enough), or the reason why there are none.

    Raises:
        ValueError: for a length that is no whole number above 0.
    """
    require_whole_mm("length_mm", length_mm, least=1)
    require_whole_mm("stock_mm", stock_mm, least=1)
    if length_mm <= stock_mm:
        return Parts((length_mm,), ())
    if stock_mm < limits.part_min_mm:
        return not_possible(Reason.PIECE_TOO_SHORT, length_mm=stock_mm, shortest_mm=limits.part_min_mm)
    # Both ends and the joints are posts, the parts are the gaps between them.
    posts = spread(length_mm, _part_spacing(stock_mm, limits), blocked=_between_ends(length_mm, clear_of))
    if not isinstance(posts, Spread):
        return posts
    lengths_mm = tuple(right - left for left, right in pairwise(posts.positions_mm))
    return Parts(lengths_mm, posts.positions_mm[1:-1])


def _part_spacing(stock_mm: int, limits: Limits) -> Spacing:
    return Spacing(
        end_min_mm=0,
        end_max_mm=0,
        centres_min_mm=limits.part_min_mm,
        centres_max_mm=stock_mm,
        joint_min_mm=0,
        joint_max_mm=0,
        per_part_min=2,
    )


def _between_ends(length_mm: int, stretches: Sequence[Interval]) -> list[Interval]:
    """Cut the stretches off at the piece's ends, which are no joints."""
    cut = [Interval(max(start, 1), min(end, length_mm - 1)) for start, end in stretches]
    return [stretch for stretch in cut if stretch.start_mm <= stretch.end_mm]
