"""Where supports stand under a window's load points."""

from collections.abc import Sequence
from dataclasses import dataclass

from revealbook.setting_out.limits import Limits, require_whole_mm
from revealbook.setting_out.positions import nearest, span
from revealbook.setting_out.refusal import NotPossible, Reason, not_possible


@dataclass(frozen=True, slots=True)
class Support:
    """One support, measured from the left end of the bottom piece above it.

    Attributes:
        load_point_mm: the load point that it carries.
        start_mm: its left end.
        end_mm: its right end.
        holes_mm: its hole centres, from the same end of the bottom piece.
    """

    load_point_mm: int
    start_mm: int
    end_mm: int
    holes_mm: tuple[int, ...]


def quarter_points(width_mm: int, start_mm: int = 0) -> tuple[int, int]:
    """Give the points at one and three quarters of a width, where glass is usually set.

    The quarter points are published (secondary source) for setting blocks; for a window's own supports the
    drawing's load points come first.

    Args:
        width_mm: the glass's or the window's width, at least 1; halves of a millimetre are laid inwards.
        start_mm: where that width starts along the bottom piece (the overlap and the joint, say).
    """
    require_whole_mm("width_mm", width_mm, least=1)
    quarter = -(-width_mm // 4)
    return start_mm + quarter, start_mm + width_mm - quarter


def support_positions(
    length_mm: int, load_points_mm: Sequence[int], limits: Limits, joints_mm: Sequence[int] = ()
) -> tuple[Support, ...] | NotPossible:
    """Put one support under each load point, centred where there is room.

    A support stays under the bottom piece and clear of its lengthwise joints. It is moved aside for that only
    as far as the load point still lies between its outer holes (own assumption: a load beyond them would tip
    it). Indicative: whether a support carries its load is for the supplier's instructions and the engineer.

    Args:
        length_mm: the bottom piece's length.
        load_points_mm: load points from the piece's left end, as the window's drawing states them.
        limits: the limits in force.
        joints_mm: lengthwise joints of the bottom piece.

    Returns:
        The supports from left to right, or the reason why one of them cannot stand.

    Raises:
        ValueError: for a length that is no whole number above 0.
    """
    require_whole_mm("length_mm", length_mm, least=1)
    placed: list[Support] = []
    for load_point_mm in sorted(load_points_mm):
        support = _placed(length_mm, load_point_mm, limits, joints_mm, placed[-1].end_mm if placed else 0)
        if isinstance(support, NotPossible):
            return support
        placed.append(support)
    return tuple(placed)


def _placed(
    length_mm: int, load_point_mm: int, limits: Limits, joints_mm: Sequence[int], taken_to_mm: int
) -> Support | NotPossible:
    long, edge = limits.support_length_mm, limits.support_hole_edge_mm
    starts = span(load_point_mm - long + edge, load_point_mm - edge) & span(0, length_mm - long)
    if not starts:
        return not_possible(
            Reason.LOAD_POINT_OFF_PIECE, load_point_mm=load_point_mm, length_mm=length_mm, support_mm=long
        )
    clear = limits.support_joint_clear_mm
    for joint_mm in joints_mm:
        starts &= ~span(joint_mm - long - clear + 1, joint_mm + clear - 1)
        if not starts:
            return not_possible(Reason.JOINT_AT_SUPPORT, load_point_mm=load_point_mm, joint_mm=joint_mm)
    starts &= span(taken_to_mm, length_mm)
    if not starts:
        return not_possible(
            Reason.SUPPORTS_OVERLAP, load_point_mm=load_point_mm, taken_to_mm=taken_to_mm, support_mm=long
        )
    start_mm = nearest(starts, load_point_mm - long // 2)
    return Support(load_point_mm, start_mm, start_mm + long, _holes(start_mm, limits))


def _holes(start_mm: int, limits: Limits) -> tuple[int, ...]:
    edge, count = limits.support_hole_edge_mm, limits.support_holes
    if count == 1:
        return (start_mm + limits.support_length_mm // 2,)
    between = limits.support_length_mm - 2 * edge
    return tuple(start_mm + edge + between * k // (count - 1) for k in range(count))
