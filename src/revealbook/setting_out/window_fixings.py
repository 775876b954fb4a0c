"""Where the window itself is fixed to the mounting frame, side by side."""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from math import floor

from revealbook.measures.work import Work
from revealbook.rules.rule_set import RuleSet
from revealbook.setting_out.in_force import Bounds, window_in_force
from revealbook.setting_out.pieces import CLEARANCES_MM, Piece, around, first_possible
from revealbook.setting_out.refusal import NotPossible
from revealbook.setting_out.sizes import WindowSize, is_whole
from revealbook.setting_out.spread import Spacing, Spread, spread


@dataclass(frozen=True, slots=True)
class WindowSide:
    """The window's fixings on one side.

    Attributes:
        side: left, right, bottom or top.
        length_mm: the window's outer length on that side.
        fixings_mm: positions from the window's left or lower corner.
    """

    side: str
    length_mm: float
    fixings_mm: tuple[int, ...]


@dataclass(frozen=True, slots=True)
class WindowFixings:
    """The window's fixings on all sides, and the rules they keep."""

    sides: tuple[WindowSide, ...]
    bounds: Bounds


def window_fixings(
    work: Work, rule_set: RuleSet, window: WindowSize, pieces: Sequence[Piece]
) -> WindowFixings | NotPossible:
    """Give the window's fixings, clear of the holes by which the frame is fixed to the wall.

    The window is taken to stand in the middle of the frame. Where there is no room for two fixings on a
    side, one has to do. Indicative: the window's supplier says where it is fixed, and which fixings wind and
    weight call for is the engineer's to say.

    Args:
        work: the opening.
        rule_set: the rules in force.
        window: the window's outer size.
        pieces: the frame's pieces with their holes.

    Returns:
        The fixings; or a refusal that names the side without a layout, or the rule that is missing.
    """
    found = window_in_force(rule_set, work)
    if isinstance(found, NotPossible):
        return found
    bounds = found[1]
    sides: list[WindowSide] = []
    for piece in pieces:
        length_mm = window.along(piece.name)
        of_side = window_in_force(rule_set, work, length_mm)
        if isinstance(of_side, NotPossible):
            return of_side
        offset_mm = (piece.length_mm - length_mm) / 2
        placed = first_possible(_tries(length_mm, of_side[0], [hole - offset_mm for hole in piece.holes_mm]))
        if isinstance(placed, NotPossible):
            return replace(placed, about=("window", piece.name))
        sides.append(WindowSide(piece.name, length_mm, placed.positions_mm))
    return WindowFixings(tuple(sides), bounds)


def _tries(length_mm: float, spacing: Spacing, holes_mm: Iterable[float]) -> Iterator[Spread | NotPossible]:
    """Lay two fixings or more, then perhaps one, each as clear of the frame's holes as can be."""
    holes = tuple(holes_mm)
    whole_mm = floor(length_mm)
    if not is_whole(length_mm):
        # The tape's last position is read from the far corner, which lies up to a millimetre further out.
        spacing = replace(spacing, end_max_mm=max(spacing.end_min_mm, spacing.end_max_mm - 1))
    for least in (2, 1):
        for clearance_mm in CLEARANCES_MM:
            yield spread(whole_mm, replace(spacing, per_part_min=least), blocked=around(holes, clearance_mm))
