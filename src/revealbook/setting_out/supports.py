"""Where supports stand under a window's load points."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import NamedTuple

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

    @property
    def centre_mm(self) -> float:
        """Its middle."""
        return (self.start_mm + self.end_mm) / 2


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
    as far as the rule in force lets its middle stand from the load point, and as the load point still lies
    between its outer holes (own assumption: a load beyond them would tip it). Indicative: whether a support
    carries its load is for the supplier's instructions and the engineer.

    Args:
        length_mm: the bottom piece's length.
        load_points_mm: load points from the piece's left end, as the window's drawing states them.
        limits: the limits in force.
        joints_mm: lengthwise joints of the bottom piece.

    Returns:
        The supports from left to right, or the reason why one of them cannot stand.

    Raises:
        ValueError: for a length that is no whole number above 0, or limits that say nothing of supports.
    """
    require_whole_mm("length_mm", length_mm, least=1)
    form = _form(limits)
    placed: list[Support] = []
    for load_point_mm in sorted(load_points_mm):
        support = _placed(length_mm, load_point_mm, form, joints_mm, placed[-1].end_mm if placed else 0)
        if isinstance(support, NotPossible):
            return support
        placed.append(support)
    return tuple(placed)


class _Form(NamedTuple):
    """What a support is like."""

    long_mm: int
    holes: int
    edge_mm: int
    clear_mm: int
    aside_mm: int


def _form(limits: Limits) -> _Form:
    long, edge = limits.support_length_mm, limits.support_hole_edge_mm
    if long is None or limits.support_holes is None:
        raise ValueError("These limits say nothing of supports.")
    aside = long // 2 - edge
    if limits.support_offset_max_mm is not None:
        aside = min(aside, limits.support_offset_max_mm - long % 2)
    return _Form(long, limits.support_holes, edge, limits.support_joint_clear_mm, max(aside, 0))


def _placed(
    length_mm: int, load_point_mm: int, form: _Form, joints_mm: Sequence[int], taken_to_mm: int
) -> Support | NotPossible:
    long, best = form.long_mm, load_point_mm - form.long_mm // 2
    starts = span(best - form.aside_mm, best + form.aside_mm) & span(0, length_mm - long)
    if not starts:
        return not_possible(
            Reason.LOAD_POINT_OFF_PIECE, load_point_mm=load_point_mm, length_mm=length_mm, support_mm=long
        )
    for joint_mm in joints_mm:
        starts &= ~span(joint_mm - long - form.clear_mm + 1, joint_mm + form.clear_mm - 1)
        if not starts:
            return not_possible(Reason.JOINT_AT_SUPPORT, load_point_mm=load_point_mm, joint_mm=joint_mm)
    starts &= span(taken_to_mm, length_mm)
    if not starts:
        return not_possible(
            Reason.SUPPORTS_OVERLAP, load_point_mm=load_point_mm, taken_to_mm=taken_to_mm, support_mm=long
        )
    start_mm = nearest(starts, best)
    return Support(load_point_mm, start_mm, start_mm + long, _holes(start_mm, form))


def _holes(start_mm: int, form: _Form) -> tuple[int, ...]:
    if form.holes == 1:
        return (start_mm + form.long_mm // 2,)
    between = form.long_mm - 2 * form.edge_mm
    return tuple(start_mm + form.edge_mm + between * k // (form.holes - 1) for k in range(form.holes))
