"""One opening set out: its pieces with joints and holes, supports, brackets, and the window's fixings."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from math import ceil, floor
from typing import Literal, NamedTuple

from revealbook.measures.left_out import PIECES, standing
from revealbook.measures.work import Work
from revealbook.records.products import Profile
from revealbook.rules.rule_set import RuleSet
from revealbook.setting_out.in_force import InForce, frame_in_force
from revealbook.setting_out.lengths import FrameLengths, Parts, frame_lengths, split
from revealbook.setting_out.limits import Limits
from revealbook.setting_out.pieces import Cut, Piece, drilled
from revealbook.setting_out.plinth import Plinth, plinth
from revealbook.setting_out.refusal import NotPossible, Reason, not_possible
from revealbook.setting_out.sizes import Sizes, WindowSize, frame_profiles, sizes_of, window_of
from revealbook.setting_out.spread import Interval
from revealbook.setting_out.supports import Support, quarter_points, support_positions
from revealbook.setting_out.window_fixings import WindowFixings, window_fixings

LoadPoints = Literal["as recorded", "quarter points", "none"]


@dataclass(frozen=True, slots=True)
class OpeningPlan:
    """An opening as it is to be built.

    A plan is no evidence: nothing of it is entered in a record before it was measured.

    Attributes:
        sizes: the opening's sizes that it follows.
        pieces: bottom, left, right, top, without those that are left out.
        supports: from left to right, measured from the left end of the bottom piece.
        load_points: where the load points come from; `none` if the drawing calls for no supports.
        supports_asked: whether the record says that the drawing calls for supports; None if it says nothing.
        window_size: the window's outer size; None as long as it is not recorded.
        window: the window's fixings; None as long as its size is not recorded.
        plinth: the plinth; None if none is recorded to be used or the window's size is not recorded.
        keeps: the limits that frame and supports keep.
    """

    sizes: Sizes
    pieces: tuple[Piece, ...]
    supports: tuple[Support, ...]
    load_points: LoadPoints
    supports_asked: bool | None
    window_size: WindowSize | None
    window: WindowFixings | NotPossible | None
    plinth: Plinth | NotPossible | None
    keeps: InForce

    def piece(self, name: str) -> Piece:
        """Give a piece by name; ``KeyError`` where there is none of it."""
        return {piece.name: piece for piece in self.pieces}[name]


def set_out(work: Work, rule_set: RuleSet) -> OpeningPlan | NotPossible:
    """Set out an opening from its sizes, the site's products and the rules in force.

    Nothing of the record but sizes, profiles and what the drawing calls for is used, so that the answer is
    the same before and after the work.

    Args:
        work: the opening as far as it is recorded, and its site.
        rule_set: the rules in force there.

    Returns:
        The plan; or a refusal with its reason if a size, product figure or rule is missing, or if no layout
        of frame and supports keeps every limit. Plinth and window that cannot be set out stand as refusals
        inside the plan.
    """
    basis = _basis(work, rule_set)
    if isinstance(basis, NotPossible):
        return basis
    limits, window = basis.keeps.limits, window_of(work)
    points, source = _load_points(work, basis, window)
    bottom = _bottom(basis.lengths.bottom_mm, _stock_mm(basis.profiles["bottom"]), points, limits)
    if isinstance(bottom, NotPossible):
        return bottom
    pieces = _pieces(basis, bottom)
    if isinstance(pieces, NotPossible):
        return pieces
    return OpeningPlan(
        sizes=basis.sizes,
        pieces=pieces,
        supports=bottom.supports,
        load_points=source,
        supports_asked=work.look("supports", "called_for"),
        window_size=window,
        window=window_fixings(work, rule_set, window, pieces) if window else None,
        plinth=plinth(work, rule_set, window, limits) if window and work.look("plinth", "used") else None,
        keeps=basis.keeps,
    )


class _Basis(NamedTuple):
    """What has to be known before anything can be set out."""

    sizes: Sizes
    profiles: Mapping[str, Profile]
    keeps: InForce
    lengths: FrameLengths


def _basis(work: Work, rule_set: RuleSet) -> _Basis | NotPossible:
    if "bottom" not in standing(work):
        return not_possible(Reason.FRAME_LEFT_OUT)
    sizes, profiles = sizes_of(work), frame_profiles(work)
    if isinstance(sizes, NotPossible):
        return sizes
    if isinstance(profiles, NotPossible):
        return profiles
    keeps = frame_in_force(rule_set, work, supports=work.look("supports", "called_for") is not False)
    if isinstance(keeps, NotPossible):
        return keeps
    lengths = _lengths(sizes, profiles, keeps)
    return lengths if isinstance(lengths, NotPossible) else _Basis(sizes, profiles, keeps, lengths)


def _lengths(sizes: Sizes, profiles: Mapping[str, Profile], keeps: InForce) -> FrameLengths | NotPossible:
    """Give the pieces' lengths: whole millimetres, bottom and top rounded up, sides to the nearest."""
    faces = [profiles[side].width_mm or 0 for side in ("left", "right") if side in profiles]
    widest, overlap = ceil(max(faces, default=0)), keeps.limits.overlap_mm
    if widest > overlap:
        return not_possible(Reason.SIDE_WIDER_THAN_OVERLAP, side_mm=widest, overlap_mm=overlap)
    lengths = frame_lengths(
        ceil(sizes.bottom.mm), round(sizes.left.mm), keeps.limits, height_right_mm=round(sizes.right.mm)
    )
    return lengths._replace(top_mm=ceil(sizes.top.mm + sum(faces)) + keeps.top_reach_mm)


def _stock_mm(profile: Profile) -> int:
    return floor(profile.stock_mm or 0)


def _load_points(work: Work, basis: _Basis, window: WindowSize | None) -> tuple[tuple[int, ...], LoadPoints]:
    """Give the load points along the bottom piece: as recorded, else the quarter points of the window.

    As long as the window's size is not recorded, the quarter points of the opening stand in for them: both
    have the same middle, and a joint of 10 mm moves them by 5 mm.
    """
    if work.look("supports", "called_for") is False:
        return (), "none"
    recorded = work.look("supports", "load_points_mm")
    if recorded:
        return tuple(round(point) for point in recorded), "as recorded"
    width_mm = round(window.width_mm if window else basis.sizes.bottom.mm)
    return quarter_points(width_mm, (basis.lengths.bottom_mm - width_mm) // 2), "quarter points"


class _Bottom(NamedTuple):
    parts: Parts
    supports: tuple[Support, ...]


def _bottom(length_mm: int, stock_mm: int, points_mm: Sequence[int], limits: Limits) -> _Bottom | NotPossible:
    """Place the supports and the joints between them; where that fails, the joints first."""
    supports = support_positions(length_mm, points_mm, limits) if points_mm else ()
    if isinstance(supports, NotPossible):
        return replace(supports, about=("supports",))
    clear = limits.support_joint_clear_mm - 1
    stretches = [Interval(support.start_mm - clear, support.end_mm + clear) for support in supports]
    parts = split(length_mm, stock_mm, limits, stretches)
    if isinstance(parts, Parts):
        return _Bottom(parts, supports)
    parts = split(length_mm, stock_mm, limits)
    if isinstance(parts, NotPossible):
        return replace(parts, about=("bottom",))
    supports = support_positions(length_mm, points_mm, limits, parts.joints_mm)
    if isinstance(supports, NotPossible):
        return replace(supports, about=("supports",))
    return _Bottom(parts, supports)


def _pieces(basis: _Basis, bottom: _Bottom) -> tuple[Piece, ...] | NotPossible:
    limits = basis.keeps.limits
    below = [hole for support in bottom.supports for hole in support.holes_mm]
    pieces: list[Piece] = []
    for name, length_mm in zip(PIECES, basis.lengths, strict=True):
        if name not in basis.profiles:
            continue  # left out
        profile = basis.profiles[name]
        parts = bottom.parts if name == "bottom" else split(length_mm, _stock_mm(profile), limits)
        if isinstance(parts, NotPossible):
            return replace(parts, about=(name,))
        cut = Cut(name, profile.id, length_mm, parts.joints_mm)
        of_length = basis.keeps.limits_of(length_mm)
        if isinstance(of_length, NotPossible):
            return of_length
        piece = drilled(cut, of_length, below if name == "bottom" else ())
        if isinstance(piece, NotPossible):
            return piece
        pieces.append(piece)
    return tuple(pieces)
