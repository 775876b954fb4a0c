"""Readings of what stands round the opening: a finish on the wall, a shutter box, a fire barrier."""

from collections.abc import Iterator
from typing import get_args

from revealbook.measures.fixings import fixing_sets
from revealbook.measures.reading import Detail, Missing, Outcome, Path, Reading
from revealbook.measures.stated import is_stated
from revealbook.measures.work import Work, one
from revealbook.records.facade import InsulationKind

FINISH: Path = ("survey", "finish")
BOX: Path = ("window", "shutter_box")
BARRIER: Path = ("covering", "fire_barrier")
INSULATION: tuple[str, ...] = get_args(InsulationKind)
_MAY_STAY = frozenset({"plaster", "paint"})
"""Finishes that may be bonded to, once they were tried; cladding and insulation carry nothing."""


def existing_finish(work: Work) -> Iterator[Outcome]:
    """Whether there was a finish on the wall before; none, if nothing is said of one."""
    if not is_stated(work, FINISH):
        yield Reading((), value=False, path=FINISH)
        return
    kind = work.look(*FINISH, "kind")
    path = (*FINISH, "kind")
    yield Missing((), "kind", path) if kind is None else Reading((), kind != "none", path)


def finish_stays(work: Work) -> Iterator[Outcome]:
    """Whether a finish was left on the wall under the frame."""
    for existing in existing_finish(work):
        if isinstance(existing, Missing):
            yield existing
        else:
            left = bool(existing.value) and work.look(*FINISH, "removed") is not True
            yield Reading((), left, (*FINISH, "removed"))


def finish_bears(work: Work) -> Iterator[Outcome]:
    """Whether the finish is off the bonding area, or is plaster or paint that was tried and holds."""
    removed, tested = work.look(*FINISH, "removed"), work.look(*FINISH, "adhesion_tested")
    if removed:
        yield Reading((), value=True, path=(*FINISH, "removed"))
    elif removed is None:
        yield Missing((), "removed", (*FINISH, "removed"))
    elif work.look(*FINISH, "kind") not in _MAY_STAY:
        yield Reading((), value=False, path=(*FINISH, "removed"))
    else:
        yield (
            one(work, (), (*FINISH, "adhesion_tested"))
            if tested is not None
            else Missing((), "adhesion_tested", (*FINISH, "adhesion_tested"))
        )


def embedment_beyond_finish(work: Work) -> Iterator[Outcome]:
    """By how much each fixing is longer than finish and embedment together, mm; negative if too short."""
    thickness_path: Path = (*FINISH, "thickness_mm")
    thickness = work.look(*thickness_path)
    for placed in fixing_sets(work):
        if isinstance(placed, Missing):
            yield placed
            continue
        subject, path, fixings = placed
        length = fixings.length_mm
        if length is None:
            length = getattr(work.product("fixings", fixings.product), "length_mm", None)
        known = {"thickness_mm": (thickness, thickness_path),
                 "embedment_mm": (fixings.embedment_mm, (*path, "embedment_mm")),
                 "length_mm": (length, (*path, "length_mm"))}  # fmt: skip
        absent = next(((key, place) for key, (value, place) in known.items() if value is None), None)
        if absent is not None:
            yield Missing(subject, *absent)
            continue
        details = tuple(Detail(key, value, "mm", place) for key, (value, place) in known.items())
        reserve = length - thickness - fixings.embedment_mm
        yield Reading(subject, reserve, (*path, "embedment_mm"), None, details)


def shutter_box(work: Work) -> Iterator[Outcome]:
    """Whether a shutter box stands in the opening above the window."""
    yield Reading((), is_stated(work, BOX), BOX)


def shutter_box_sealed(work: Work) -> Iterator[Outcome]:
    """Whether the shutter box is sealed to the window and to the wall."""
    for where in ("window", "wall"):
        yield one(work, (where,), (*BOX, f"sealed_to_{where}"))


def fire_barrier_called_for(work: Work) -> Iterator[Outcome]:
    """Whether the drawing calls for a fire barrier above the window; not, if nothing is said of it."""
    path = (*BARRIER, "called_for")
    yield Reading((), work.look(*path) is True, path)


def fire_barrier_past(work: Work) -> Iterator[Outcome]:
    """How far the fire barrier runs past the opening on each side, mm."""
    for side in ("left", "right"):
        yield one(work, (side,), (*BARRIER, f"past_{side}_mm"))
