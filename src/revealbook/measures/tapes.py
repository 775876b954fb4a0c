"""Which faces the tapes close, how tight they are, and which were stuck to the window before it was set.

Tapes may differ by side. Where one tape event states its sides, every one must; nobody can tell the rest.
"""

from collections.abc import Iterator

from revealbook.measures.reading import Detail, Missing, Outcome, Path, Reading
from revealbook.measures.waits import hours_between
from revealbook.measures.work import Work, each
from revealbook.records.seals import SealEvent

TAPES = ("inner tape", "outer tape")
SIDES = ("left", "right", "bottom", "top")
EVENTS: Path = ("seals", "events")
Taped = list[tuple[SealEvent, Path]]


def of_kind(work: Work, *steps: str) -> Taped | Missing:
    """Give the events of these kinds as listed, with their places.

    `Missing` if there is none, or if any event does not say what was done: it might be one of these.
    """
    events = each(work, *EVENTS)
    if isinstance(events, Missing):
        return events
    found: Taped = []
    for number, event in events:
        if event.step is None:
            return Missing((f"event {number + 1}",), "step", (*EVENTS, number, "step"))
        if event.step in steps:
            found.append((event, (*EVENTS, number)))
    return found or Missing((), steps[0], EVENTS)


def closes(event: SealEvent, side: str | None) -> bool:
    """Whether an event is of this side; of no side in particular is every event."""
    return side is None or event.sides is None or side in event.sides


def tape_sides(work: Work) -> tuple[str | None, ...] | Missing:
    """Give the sides that are looked at one by one; (None,) where the tapes are the same all round."""
    tapes = of_kind(work, *TAPES)
    if isinstance(tapes, Missing) or all(event.sides is None for event, _ in tapes):
        return (None,)
    for event, path in tapes:
        if event.sides is None:
            return Missing((str(event.step),), "sides", (*path, "sides"))
    return SIDES


def subject_of(side: str | None) -> tuple[str, ...]:
    """Name a side as the subject of a reading; of all sides alike there is nothing to name."""
    return () if side is None else (side,)


def sides_closed(work: Work) -> Iterator[Outcome]:
    """On how many faces, inside and outside, the joint is closed by a tape; by side where they differ."""
    events, sides = each(work, *EVENTS), tape_sides(work)
    tapes = of_kind(work, *TAPES)
    if isinstance(events, Missing) or isinstance(sides, Missing):
        yield events if isinstance(events, Missing) else sides  # type: ignore[misc]  # one of them is
        return
    if isinstance(tapes, Missing) and tapes.what == "step":
        yield tapes
        return
    known = [] if isinstance(tapes, Missing) else tapes
    for side in sides:
        faces = {event.step for event, _ in known if closes(event, side)}
        yield Reading(subject_of(side), len(faces), EVENTS)


def sd_ratio(work: Work) -> Iterator[Outcome]:
    """How many times tighter against vapour the inner seal is than the outer one (ratio of sd-values)."""
    tapes, sides = of_kind(work, *TAPES), tape_sides(work)
    if isinstance(tapes, Missing) or isinstance(sides, Missing):
        yield tapes if isinstance(tapes, Missing) else sides  # type: ignore[misc]  # one of them is
        return
    for side in sides:
        yield _sd_ratio(work, side, [(event, path) for event, path in tapes if closes(event, side)])


def _sd_ratio(work: Work, side: str | None, tapes: Taped) -> Outcome:
    found: dict[str, tuple[float, Path]] = {}
    for event, path in tapes:
        step, product = str(event.step), work.product("tapes", event.product)
        sd = event.sd_m if event.sd_m is not None else getattr(product, "sd_m", None)
        if sd is None:
            return Missing((*subject_of(side), step), "sd_m", (*path, "product"))
        weaker = min if step == "inner tape" else max
        found[step] = weaker(found.get(step, (sd, path)), (sd, path))
    for face in TAPES:
        if face not in found:
            return Missing((*subject_of(side), face), face, EVENTS)
    inner, outer = found["inner tape"], found["outer tape"]
    details = (Detail("inner_sd_m", inner[0], "m", inner[1]), Detail("outer_sd_m", outer[0], "m", outer[1]))
    return Reading(subject_of(side), inner[0] / outer[0], inner[1], None, details)


def _stuck_first(work: Work) -> Taped:
    events = work.look(*EVENTS) or ()
    return [
        (event, (*EVENTS, number))
        for number, event in enumerate(events)
        if event.stuck_to_window_at is not None
    ]


def tape_stuck_first(work: Work) -> Iterator[Outcome]:
    """Whether a tape was stuck to the window before that was set."""
    yield Reading((), bool(_stuck_first(work)), EVENTS)


def stuck_first_allowed(work: Work) -> Iterator[Outcome]:
    """Whether the maker of each tape that was stuck to the window first allows it."""
    for event, path in _stuck_first(work):
        allowed = getattr(work.product("tapes", event.product), "may_be_stuck_first", None)
        subject, place = (str(event.step),), (*path, "product")
        if allowed is None:
            yield Missing(subject, "may_be_stuck_first", place)
        else:
            yield Reading(subject, allowed, place)


def stuck_before_setting(work: Work) -> Iterator[Outcome]:
    """Hours from sticking such a tape to the window to setting the window."""
    for event, path in _stuck_first(work):
        yield hours_between(work, (*path, "stuck_to_window_at"), ("window", "set_at"), (str(event.step),))
