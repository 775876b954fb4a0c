"""Sizes of fixings against their data sheet, their own length and the hole that they stand in.

Sizes of fixings and drills are printed on them and not measured, so they have no uncertainty.
"""

from collections.abc import Callable, Iterable, Iterator

from revealbook.measures.fixings import Placed, every_fixing_set, fixing_sets
from revealbook.measures.reading import Detail, Missing, Outcome, Path, Reading, Subject
from revealbook.measures.work import Work

Size = Detail | Missing


def length_margin(work: Work) -> Iterator[Outcome]:
    """By how much each fixing of frame, supports and brackets is longer than its data sheet's, mm.

    The window's own are read by `window.fixing_length_margin`.
    """
    return _to_data_sheet(work, fixing_sets(work), "length_mm", lambda used, stated: used - stated)


def diameter_deviation(work: Work) -> Iterator[Outcome]:
    """Difference between the diameter of each fixing and its data sheet's, mm, without sign."""
    sets = every_fixing_set(work)
    return _to_data_sheet(work, sets, "diameter_mm", lambda used, stated: abs(used - stated))


def _to_data_sheet(
    work: Work, sets: Iterable[Placed | Missing], key: str, compared: Callable[[float, float], float]
) -> Iterator[Outcome]:
    for placed in sets:
        if isinstance(placed, Missing):
            yield placed
            continue
        subject, path, fixings = placed
        sheet, stated = f"data_sheet_{key}", getattr(work.product("fixings", fixings.product), key, None)
        asked: Size = (
            Missing(subject, sheet, (*path, "product")) if stated is None else Detail(sheet, stated, "mm")
        )
        yield _reading(subject, _size(subject, fixings, path, key), asked, compared)


def length_left_over(work: Work) -> Iterator[Outcome]:
    """Length of each fixing less its embedment, mm: what is left of it for the part that it holds."""
    for placed in every_fixing_set(work):
        if isinstance(placed, Missing):
            yield placed
            continue
        subject, path, fixings = placed
        embedded = _size(subject, fixings, path, "embedment_mm")
        length = _size(subject, fixings, path, "length_mm")
        yield _reading(subject, embedded, length, lambda inside, whole: whole - inside)


def hole_play(work: Work) -> Iterator[Outcome]:
    """Diameter of the holes of each piece and support less that of its fixings, mm.

    Brackets and the window come with their holes, which nobody records.
    """
    for placed in fixing_sets(work):
        path: Path = placed.path if isinstance(placed, Missing) else placed[1]
        if path[0] == "plinth":
            continue
        if isinstance(placed, Missing):
            yield placed
            continue
        subject, _, fixings = placed
        carrier = path[: path.index("fixings")]
        hole = _size(subject, work.look(*carrier), carrier, "hole_diameter_mm")
        fixing = _size(subject, fixings, path, "diameter_mm")
        yield _reading(subject, hole, fixing, lambda wide, thick: wide - thick)


def _size(subject: Subject, thing: object, path: Path, key: str) -> Size:
    value, here = getattr(thing, key), (*path, key)
    return Missing(subject, key, here) if value is None else Detail(key, value, "mm", here)


def _reading(
    subject: Subject, first: Size, second: Size, compared: Callable[[float, float], float]
) -> Outcome:
    """Give what two sizes come to, at the place of the first; or the first one that is missing."""
    if isinstance(first, Missing):
        return first
    if isinstance(second, Missing):
        return second
    value = compared(float(first.value), float(second.value))
    return Reading(subject, value, first.path or (), None, (first, second))
