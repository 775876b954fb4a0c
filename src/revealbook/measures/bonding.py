"""Applications of adhesive: all of them, and the last one of each part that was bonded."""

from collections.abc import Iterable, Iterator
from datetime import datetime
from typing import NamedTuple

from revealbook.measures.left_out import PIECES, left_out, standing
from revealbook.measures.reading import Missing, Path, Subject
from revealbook.measures.work import Work
from revealbook.records.applications import BONDING, Applied, applications
from revealbook.records.bonding import BONDED
from revealbook.records.products import Adhesive

_STANDS_ON = {"left": ("bottom",), "right": ("bottom",), "top": ("left", "right")}
"""Pieces with those that go on before them."""
_CARRY = (*PIECES, "supports")
"""Parts through which the bond carries the window."""


class Lasting(NamedTuple):
    """The application that holds some parts now.

    Attributes:
        subject: what they are called; the adhesive as a whole if it holds all pieces that there are.
        of: the parts.
        applied: their last application.
        pressed_at: when they were pressed on.
    """

    subject: Subject
    of: tuple[str, ...]
    applied: Applied
    pressed_at: datetime


def lasting(work: Work, parts: Iterable[str] = BONDED) -> Iterator[Lasting | Missing]:
    """Give the last application of each of some parts, parts with the same one together.

    Of a piece without an application nothing is shown, and so of a part that an application without its time,
    or without its parts, may be about. Of two applications at one moment both count.
    """
    applied = applications(work.opening)
    there = standing(work)
    if "bonding" in left_out(work):
        return
    if not applied:
        yield Missing(("bonding",), "bonding", BONDING)
        return
    held: dict[tuple[Applied, ...] | Missing, list[str]] = {}
    for part in (part for part in parts if part not in PIECES or part in there):
        last = _last(applied, part)
        if last or part in PIECES:
            held.setdefault(last or Missing((), "no_application", BONDING), []).append(part)
    for last, of in held.items():
        subject = ("bonding",) if set(there) <= set(of) else ("bonding", *of)
        if isinstance(last, Missing):
            yield last._replace(subject=subject)
            continue
        for one in last:
            if one.recorded.pressed_at is not None:
                yield Lasting(subject, tuple(of), one, one.recorded.pressed_at)


def carrying(work: Work) -> Iterator[Lasting | Missing]:
    """Give the last applications of the parts through which the bond carries the window."""
    return lasting(work, _CARRY)


def _last(applied: tuple[Applied, ...], part: str) -> tuple[Applied, ...] | Missing:
    unnamed = next((one for one in applied if not one.recorded.of), None)
    if unnamed is not None:
        return Missing((), "of", (*unnamed.path, "of"))
    named = [one for one in applied if part in (one.recorded.of or ())]
    undated = next((one for one in named if one.recorded.pressed_at is None), None)
    if undated is not None:
        return Missing((), "pressed_at", (*undated.path, "pressed_at"))
    latest = max((one.recorded.pressed_at for one in named if one.recorded.pressed_at), default=None)
    return tuple(one for one in named if one.recorded.pressed_at == latest)


def adhesive_of(work: Work, applied: Applied) -> Adhesive | None:
    """Give the adhesive of an application, or None if none is named."""
    found: Adhesive | None = work.product("adhesives", applied.recorded.product)
    return found


def adhesives(work: Work) -> tuple[tuple[Adhesive | None, Path], ...]:
    """Give each adhesive used, with the place that names it; an unknown one if none was recorded."""
    found: dict[str | None, Path] = {}
    for one in applications(work.opening):
        found.setdefault(one.recorded.product, (*one.path, "product"))
    known = ((work.product("adhesives", name), path) for name, path in found.items())
    return tuple(known) or ((None, (*BONDING, "product")),)
