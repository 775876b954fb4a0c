"""Readings of the window's sashes, and of the joints at which it is coupled to other windows."""

from collections.abc import Iterator
from math import inf

from revealbook.measures.reading import Detail, Missing, Outcome, Path, Reading
from revealbook.measures.work import Work, each, one

WHOLE: Path = ("window", "opening_function_tried")
SASHES: Path = ("window", "sashes")
COUPLINGS: Path = ("window", "couplings")


def fixed_light(work: Work) -> Iterator[Outcome]:
    """Whether nothing of the window opens: every sash is a fixed light, or the only one is."""
    sashes = work.look(*SASHES)
    kinds = [sash.kind for sash in sashes] if sashes else [work.look("window", "opening_kind")]
    path = SASHES if sashes else ("window", "opening_kind")
    yield Reading((), set(kinds) == {"fixed"}, path)


def tried(work: Work) -> Iterator[Outcome]:
    """Whether each sash was tried; fixed lights are left out. Of a single sash, whether the window was.

    Where sashes are listed and the window as a whole is recorded too, both count.
    """
    sashes = work.look(*SASHES)
    if not sashes or work.look(*WHOLE) is not None:
        yield one(work, (), WHOLE)
    for number, sash in enumerate(sashes or ()):
        if sash.kind != "fixed":
            yield one(work, (f"sash {number + 1}",), (*SASHES, number, "tried"))


def has_sashes(work: Work) -> Iterator[Outcome]:
    """Whether the sashes are listed one by one."""
    yield Reading((), bool(work.look(*SASHES)), SASHES)


def sash_reserve(work: Work) -> Iterator[Outcome]:
    """By how much the window is wider and higher than each of its sashes, mm; negative if less."""
    for number, _ in enumerate(work.look(*SASHES) or ()):
        for size_word in ("width", "height"):
            subject, key = (f"sash {number + 1}", size_word), f"{size_word}_mm"
            path, outer = (*SASHES, number, key), ("window", key)
            size, whole = work.look(*path), work.look(*outer)
            if size is None or whole is None:
                absent: Path = path if size is None else outer
                yield Missing(subject, key, absent)
                continue
            details = (Detail(key, size, "mm", path), Detail("window_mm", whole, "mm", outer))
            yield Reading(subject, whole - size, path, None, details)


def coupled(work: Work) -> Iterator[Outcome]:
    """Whether the window is coupled to others."""
    yield Reading((), bool(work.look(*COUPLINGS)), COUPLINGS)


def per_coupling(work: Work, key: str) -> Iterator[Outcome]:
    """What was recorded under `key` of each joint at which the window is coupled."""
    for number, _ in enumerate(work.look(*COUPLINGS) or ()):
        yield one(work, (f"coupling {number + 1}",), (*COUPLINGS, number, key))


def coupled_in_line(work: Work) -> Iterator[Outcome]:
    """Whether a coupling stands between head and sill inside the window, and not at a building's corner."""
    inside = [one for one in work.look(*COUPLINGS) or () if one.corner is None]
    yield Reading((), bool(inside), COUPLINGS)


def coupling_fixing_distance(work: Work) -> Iterator[Outcome]:
    """Distance from each coupling to the nearest fixing on both sides of it, at sill and head, mm.

    Without a fixing there it is endless.
    """
    for number, coupling in enumerate(work.look(*COUPLINGS) or ()):
        if coupling.corner is not None:
            continue
        subject, path = (f"coupling {number + 1}",), (*COUPLINGS, number, "at_mm")
        if coupling.at_mm is None:
            yield Missing(subject, "at_mm", path)
            continue
        for side in ("bottom", "top"):
            yield from _beside(work, (*subject, side), coupling.at_mm, path)


def _beside(work: Work, subject: tuple[str, ...], at: float, path: Path) -> Iterator[Outcome]:
    sets = each(work, "window", "fixings")
    if isinstance(sets, Missing):
        yield sets._replace(subject=subject)
        return
    positions = [one.at_mm for _, one in sets if one.side == subject[-1]]
    if not positions or any(found is None for found in positions):
        yield Missing(subject, "at_mm", ("window", "fixings"))
        return
    offsets = [found - at for one in positions for found in one]
    spread = work.uncertainty("window", "length", 2)
    for where, near in (
        ("before", [-off for off in offsets if off < 0]),
        ("after", [off for off in offsets if off > 0]),
    ):
        distance = min(near, default=inf)
        yield Reading((*subject, where), distance, path, spread if near else None)
