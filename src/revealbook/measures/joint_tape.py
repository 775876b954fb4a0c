"""Precompressed joint tape in place of foam: its joint, and what it makes superfluous."""

from collections.abc import Iterator

from revealbook.measures.reading import Detail, Missing, Outcome, Path, Reading
from revealbook.measures.tapes import SIDES, Taped, closes, of_kind
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
        range_mm = _range(work, side, tapes)
        for place in ("start", "middle", "end"):
            subject, path = (side, f"joint_{place}"), ("window", "joint_widths_mm", side, place)
            width = work.look(*path)
            if width is None:
                yield Missing(subject, place, path)
            elif isinstance(range_mm, Missing):
                yield range_mm._replace(subject=subject)
            else:
                yield _margin(work, subject, path, width, range_mm)


def _margin(
    work: Work, subject: tuple[str, str], path: Path, width: float, range_mm: tuple[float, float]
) -> Reading:
    narrow, wide = range_mm
    margin, key, end = min((width - narrow, "joint_min_mm", narrow), (wide - width, "joint_max_mm", wide))
    details = (Detail("joint_width_mm", width, "mm", path), Detail(key, end, "mm"))
    return Reading(subject, margin, path, work.uncertainty("window", "length"), details)


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
