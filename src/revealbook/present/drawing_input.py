"""What an elevation shows, as plain values: taken from a record here, from a plan elsewhere."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from typing import NamedTuple

from revealbook.measures.reading import Path
from revealbook.records.fixing import FixingSet
from revealbook.records.frame import FramePiece
from revealbook.records.opening import Opening
from revealbook.records.products import Profile
from revealbook.records.site import Site
from revealbook.records.supports import Plinth, Supports
from revealbook.records.survey import Heights, Survey, Widths
from revealbook.records.window import Window
from revealbook.rules.finding import Outcome
from revealbook.rules.judged import JudgedOpening

PIECES = ("bottom", "left", "right", "top")
SIDES = ("left", "right", "top", "bottom")
ASSUMED_WIDTH_MM = 80.0
"""Width that a frame piece is drawn with if its profile's is not known; common practice, no source."""


class Found(NamedTuple):
    """A finding to be marked: where it stands in the record, its outcome, its number if it has one."""

    path: Path
    outcome: Outcome
    number: str = ""


@dataclass(frozen=True, slots=True)
class PieceShown:
    """A frame piece; positions from its left or lower end, mm; None is not shown."""

    length_mm: float | None = None
    overlap_left_mm: float | None = None
    overlap_right_mm: float | None = None
    width_mm: float = ASSUMED_WIDTH_MM
    holes_mm: tuple[float, ...] | None = None
    fixings_mm: tuple[tuple[float, ...], ...] = ()
    joints_mm: tuple[float | None, ...] = ()


@dataclass(frozen=True, slots=True)
class SupportShown:
    """A support; its middle from the left end of the bottom piece, mm."""

    centre_mm: float | None
    length_mm: float | None = None
    gap_mm: float | None = None


@dataclass(frozen=True, slots=True)
class PlinthShown:
    """A plinth profile; positions from its left end, mm."""

    length_mm: float | None = None
    height_mm: float | None = None
    packers_mm: float = 0.0
    brackets_mm: tuple[float | None, ...] = ()
    screws_mm: tuple[float, ...] = ()
    joints_mm: tuple[float | None, ...] = ()


@dataclass(frozen=True, slots=True)
class WindowShown:
    """A window; joints at start, middle and end of each side; fixings from a side's left or lower end, mm."""

    width_mm: float | None = None
    height_mm: float | None = None
    joints_mm: Mapping[str, tuple[float | None, float | None, float | None]] | None = None
    opening_kind: str | None = None
    hinge_side: str | None = None
    fixings_mm: tuple[tuple[str | None, tuple[float, ...]], ...] = ()


@dataclass(frozen=True, slots=True)
class ElevationInput:
    """Everything an elevation shows.

    Attributes:
        mark: the opening's mark.
        width_mm: clear width of the opening.
        height_mm: clear height of the opening.
        pieces: frame pieces by name; a piece that is not shown is None or left out.
        supports: supports under the bottom piece.
        load_points_mm: load points, from the left end of the bottom piece.
        plinth: the plinth profile, if there is one.
        window: the window, if it is shown.
        found: what is to be marked.
        left_out: pieces that the opening is said to have none of; they are not drawn.
    """

    mark: str
    width_mm: float
    height_mm: float
    pieces: Mapping[str, PieceShown | None]
    supports: tuple[SupportShown, ...] = ()
    load_points_mm: tuple[float, ...] = ()
    plinth: PlinthShown | None = None
    window: WindowShown | None = None
    found: tuple[Found, ...] = ()
    left_out: frozenset[str] = frozenset()


_MARKED = (Outcome.UNDECIDED, Outcome.NOT_SHOWN)


def found_in(judged: JudgedOpening) -> tuple[Found, ...]:
    """Give the findings to be marked, numbered as the list of nonconformities numbers them."""
    breached = [
        Found(finding.reading.path, finding.outcome, str(count))
        for count, judgement in enumerate(judged.with_outcome(Outcome.DOES_NOT_CONFORM), start=1)
        for finding in judgement.findings
        if finding.outcome is Outcome.DOES_NOT_CONFORM
    ]
    others = [
        Found(finding.reading.path, finding.outcome)
        for outcome in _MARKED
        for judgement in judged.with_outcome(outcome)
        for finding in judgement.findings
        if finding.outcome is outcome
    ]
    return tuple(dict.fromkeys((*breached, *others)))


def elevation_input(opening: Opening, site: Site, found: tuple[Found, ...] = ()) -> ElevationInput | None:
    """Take from a record what its elevation shows; None if no size of the opening is recorded."""
    width, height = _clear_size(opening)
    if width is None or height is None:
        return None
    profiles = {profile.id: profile for profile in site.products.profiles}
    recorded = opening.frame.pieces if opening.frame else None
    pieces = {name: getattr(recorded, name, None) for name in PIECES}
    return ElevationInput(
        mark=opening.mark,
        width_mm=width,
        height_mm=height,
        pieces={name: _piece(piece, profiles) if piece else None for name, piece in pieces.items()},
        supports=_supports(opening.supports),
        load_points_mm=(opening.supports.load_points_mm if opening.supports else None) or (),
        plinth=_plinth(opening.plinth, profiles),
        window=_window(opening.window),
        found=found,
        left_out=frozenset(name for name in PIECES if pieces[name] is None and _stated(opening, name)),
    )


def _stated(opening: Opening, piece: str) -> bool:
    """Whether an opening is said to leave a piece out."""
    return bool({one.what for one in opening.left_out} & {f"{piece} piece", "mounting frame"})


def _clear_size(opening: Opening) -> tuple[float | None, float | None]:
    """Give the surveyed clear size, in the middle if it was read there; else the nominal one."""
    survey, nominal = opening.survey or Survey(), opening.opening
    widths, heights = survey.widths_mm or Widths(), survey.heights_mm or Heights()
    wide = (widths.middle, widths.bottom, widths.top, nominal.width_mm)
    high = (heights.middle, heights.left, heights.right, nominal.height_mm)
    return _first(wide), _first(high)


def _first(values: Iterable[float | None]) -> float | None:
    return next((value for value in values if value is not None), None)


def _piece(piece: FramePiece, profiles: Mapping[str, Profile]) -> PieceShown:
    profile = profiles.get(piece.profile or "")
    return PieceShown(
        length_mm=piece.length_mm,
        overlap_left_mm=piece.overlap_left_mm,
        overlap_right_mm=piece.overlap_right_mm,
        width_mm=(profile.width_mm if profile else None) or ASSUMED_WIDTH_MM,
        holes_mm=piece.holes_mm,
        fixings_mm=_positions(piece.fixings),
        joints_mm=tuple(joint.at_mm for joint in piece.lengthwise_joints or ()),
    )


def _positions(sets: tuple[FixingSet, ...] | None) -> tuple[tuple[float, ...], ...]:
    return tuple(one.at_mm or () for one in sets or ())


def _supports(supports: Supports | None) -> tuple[SupportShown, ...]:
    placed = (supports.placed if supports else None) or ()
    return tuple(SupportShown(one.centre_mm, one.length_mm, one.gap_mm) for one in placed)


def _plinth(plinth: Plinth | None, profiles: Mapping[str, Profile]) -> PlinthShown | None:
    if plinth is None or not plinth.used:
        return None
    profile = profiles.get(plinth.product or "")
    return PlinthShown(
        length_mm=plinth.length_mm,
        height_mm=profile.width_mm if profile else None,
        packers_mm=(plinth.packers.height_mm if plinth.packers else None) or 0.0,
        brackets_mm=tuple(bracket.at_mm for bracket in plinth.brackets or ()),
        screws_mm=plinth.screw_positions_mm or (),
        joints_mm=tuple(joint.at_mm for joint in plinth.lengthwise_joints or ()),
    )


def _window(window: Window | None) -> WindowShown | None:
    if window is None:
        return None
    sides = {side: getattr(window.joint_widths_mm, side, None) for side in SIDES}
    return WindowShown(
        width_mm=window.width_mm,
        height_mm=window.height_mm,
        joints_mm={side: (one.start, one.middle, one.end) for side, one in sides.items() if one},
        opening_kind=window.opening_kind,
        hinge_side=window.hinge_side,
        fixings_mm=tuple((one.side, one.at_mm or ()) for one in window.fixings or ()),
    )
