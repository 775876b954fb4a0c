"""What an opening leaves out, and whether the statement takes effect.

It takes effect only if it is complete, somebody entitled made it, and nothing of what it leaves out stands in
the record. Otherwise every rule stays as it is.
"""

from collections.abc import Callable, Iterator, Mapping
from types import MappingProxyType

from revealbook.measures.reading import Missing, Outcome, Path, Reading
from revealbook.measures.work import Work
from revealbook.records.applications import applications
from revealbook.records.left_out import LeftOut

PIECES: tuple[str, ...] = ("bottom", "left", "right", "top")
_PIECES_OF: Mapping[str, tuple[str, ...]] = MappingProxyType(
    {"mounting frame": PIECES, **{f"{piece} piece": (piece,) for piece in PIECES}}
)
_RECORDED: Mapping[str, tuple[Path, ...]] = MappingProxyType(
    {
        **{
            what: tuple(("frame", "pieces", piece) for piece in pieces) for what, pieces in _PIECES_OF.items()
        },
        "opening function": (("window", "opening_function_tried"),),
    }
)
"""Where what is left out would stand if it were there."""
_KEYS = ("reason", "basis", "document", "by", "at")


def left_out(work: Work) -> frozenset[str]:
    """Give what is left out by statements that take effect; a mounting frame takes its bonding along."""
    words = {one.what for one in work.opening.left_out if _takes_effect(work, one)}
    return frozenset(words | ({"bonding"} if "mounting frame" in words else set()))


def standing(work: Work, of: tuple[str, ...] = PIECES) -> tuple[str, ...]:
    """Give the frame pieces that are not left out."""
    gone = {piece for what in left_out(work) for piece in _PIECES_OF.get(what, ())}
    return tuple(piece for piece in of if piece not in gone)


def standing_corner(work: Work, corner: str, *, joint: bool) -> bool:
    """Whether a corner's joint (between two pieces) or end (of bottom or top piece) is there at all."""
    meeting = tuple(corner.split("_"))
    of = meeting if joint else meeting[:1]
    return standing(work, of) == of


def _takes_effect(work: Work, one: LeftOut) -> bool:
    complete = all(getattr(one, key) is not None for key in _KEYS)
    return complete and _entitled(work, one) and _recorded(work, one) is None


def _entitled(work: Work, one: LeftOut) -> bool:
    roles = {role for person in work.around.site.people if person.id == one.by for role in person.roles}
    return bool(roles & set(work.method.conceding_roles))


def _recorded(work: Work, one: LeftOut) -> Path | None:
    """Give the place of something that is recorded of what is said to be left out."""
    if one.what == "bonding":
        return next((applied.path for applied in applications(work.opening)), None)
    return next((path for path in _RECORDED.get(one.what, ()) if work.look(*path) is not None), None)


def entitled(work: Work) -> Iterator[Outcome]:
    """Whether each statement is made by somebody entitled, and nothing is recorded of what it leaves out."""
    for number, one in enumerate(work.opening.left_out):
        subject, path = (f"left out {one.what}",), ("left_out", number)
        absent = next((key for key in _KEYS if getattr(one, key) is None), None)
        recorded = _recorded(work, one)
        if absent is not None:
            yield Missing(subject, absent, (*path, absent))
        elif recorded is not None:
            yield Reading(subject, value=False, path=recorded)
        else:
            yield Reading(subject, _entitled(work, one), (*path, "by"))


def without_pieces(*pieces: str) -> Callable[[Work], Iterator[Outcome]]:
    """Give the condition that none of some pieces is there."""
    return lambda work: iter((Reading((), not standing(work, pieces), ("left_out",)),))


def without(what: str) -> Callable[[Work], Iterator[Outcome]]:
    """Give the condition that something other than a piece is left out."""
    return lambda work: iter((Reading((), what in left_out(work), ("left_out",)),))


CONDITIONS: Mapping[str, tuple[str, ...]] = MappingProxyType(
    {
        "without_bottom_piece": ("bottom piece", "mounting frame"),
        "without_top_piece": ("top piece", "mounting frame"),
        "without_side_pieces": ("left piece", "right piece", "mounting frame"),
        "without_frame": ("bottom piece", "left piece", "right piece", "top piece", "mounting frame"),
        "without_bonding": ("bonding", "mounting frame"),
        "without_opening_function": ("opening function",),
    }
)
"""Conditions by name, with the words of the statements that can make them true."""
