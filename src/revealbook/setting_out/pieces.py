"""A frame piece as it is to be cut, joined and drilled."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from itertools import pairwise
from math import ceil, floor
from typing import NamedTuple

from revealbook.setting_out.holes import hole_positions
from revealbook.setting_out.limits import Limits
from revealbook.setting_out.refusal import NotPossible
from revealbook.setting_out.spread import Interval, Spread

CLEARANCES_MM = (40, 30, 20, 10)
"""How far holes keep from other fixings, widest first; the widest for which there is a layout is taken (own
assumption)."""


@dataclass(frozen=True, slots=True)
class Piece:
    """One frame piece.

    Attributes:
        name: bottom, left, right or top.
        profile: the profile's id.
        length_mm: its length over all.
        joints_mm: lengthwise joints, from its left or lower end.
        holes_mm: hole centres, from the same end.
        margin_mm: least distance of a hole to a limit that is judged, beyond what is kept for the tape.
    """

    name: str
    profile: str
    length_mm: int
    joints_mm: tuple[int, ...]
    holes_mm: tuple[int, ...]
    margin_mm: int

    @property
    def parts_mm(self) -> tuple[int, ...]:
        """The lengths that it is made of, from its left or lower end."""
        return tuple(end - start for start, end in pairwise((0, *self.joints_mm, self.length_mm)))


class Cut(NamedTuple):
    """A piece before it is drilled."""

    name: str
    profile: str
    length_mm: int
    joints_mm: tuple[int, ...]


def drilled(cut: Cut, limits: Limits, others_mm: Sequence[float] = ()) -> Piece | NotPossible:
    """Give a piece with its holes, as clear of other fixings as can be.

    Args:
        cut: the piece.
        limits: the limits in force.
        others_mm: fixings into the wall just below it (the supports'). No hole stands straight above one
            where that can be had; it is a wish, no limit, and given up before a layout is refused.

    Returns:
        The piece, or a refusal that names it.
    """
    wishes = [around(others_mm, clearance) for clearance in CLEARANCES_MM] if others_mm else []
    spreads = (hole_positions(cut.length_mm, limits, cut.joints_mm, blocked) for blocked in (*wishes, ()))
    found = first_possible(spreads)
    if isinstance(found, NotPossible):
        return replace(found, about=(cut.name,))
    return Piece(*cut, found.positions_mm, found.margin_mm)


def around(positions_mm: Iterable[float], clearance_mm: int) -> tuple[Interval, ...]:
    """Give the stretches that keep a clearance on both sides of each position."""
    return tuple(Interval(floor(at) - clearance_mm, ceil(at) + clearance_mm) for at in positions_mm)


def first_possible(spreads: Iterable[Spread | NotPossible]) -> Spread | NotPossible:
    """Give the first layout that there is, else the last refusal."""
    found: Spread | NotPossible | None = None
    for found in spreads:
        if isinstance(found, Spread):
            return found
    if found is None:
        raise ValueError("There is nothing to choose from.")
    return found
