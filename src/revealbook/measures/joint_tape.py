"""Precompressed joint tape in place of foam: its joint, and what it makes superfluous."""

from collections.abc import Iterator

from revealbook.measures.reading import Missing, Outcome, Path, Reading
from revealbook.measures.tapes import SIDES, Taped, closes, of_kind
from revealbook.measures.window import inside_range
from revealbook.measures.work import Work

FILLING: Path = ("seals", "filling")


def joint_taped(work: Work) -> Iterator[Outcome]:
    """Whether joint tape fills the joint in place of foam; foam recorded all the same contradicts it."""
    if work.look(*FILLING) != "joint tape":
        yield Reading((), value=False, path=FILLING)
        return
    foam = of_kind(work, "foam")
    if isinstance(foam, Missing) and foam.what == "step":
        yield foam
    elif isinstance(foam, list):
        yield Missing((), "filling_contradicts", foam[0][1])
    else:
        yield Reading((), value=True, path=FILLING)


def closes_both_sides(work: Work) -> Iterator[Outcome]:
    """Whether the joint is filled by joint tape that seals inside and outside by itself, on every side."""
    if work.look(*FILLING) != "joint tape":
        yield Reading((), value=False, path=FILLING)
        return
    tapes = of_kind(work, "joint tape")
    if isinstance(tapes, Missing):
        yield tapes
        return
    alone = all(
        getattr(work.product("tapes", event.product), "closes_both_sides", None) for event, _ in tapes
    )
    yield Reading((), alone, FILLING)


def joint_margin(work: Work) -> Iterator[Outcome]:
    """By how much each joint width lies inside the range of the joint tape on its side, mm."""
    tapes = of_kind(work, "joint tape")
    if isinstance(tapes, Missing):
        yield tapes
        return
    for side in SIDES:
        yield from inside_range(work, side, _range(work, side, tapes))


def _range(work: Work, side: str, tapes: Taped) -> tuple[float, float] | Missing:
    """Give the narrowest and widest joint that every joint tape on this side may fill, mm."""
    ends: dict[str, list[float]] = {"joint_min_mm": [], "joint_max_mm": []}
    for event, path in tapes:
        if not closes(event, side):
            continue
        product = work.product("tapes", event.product)
        for key, found in ends.items():
            end = getattr(product, key, None)
            if end is None:
                return Missing((), key, (*path, "product"))
            found.append(end)
    if not ends["joint_min_mm"]:
        return Missing((), "joint tape", ("seals", "events"))
    return max(ends["joint_min_mm"]), min(ends["joint_max_mm"])
