"""The sequence of tapes, foam and trim as a partial order, and what was recorded of each step."""

from collections.abc import Iterator
from datetime import datetime
from typing import NamedTuple

from revealbook.measures.reading import Detail, Missing, Outcome, Path, Reading
from revealbook.measures.waits import hours, wait_margin
from revealbook.measures.work import Work, each
from revealbook.records.seals import SealEvent

TAPES = ("inner tape", "outer tape")
EVENTS = ("seals", "events")


class Event(NamedTuple):
    """A dated step of sealing and its place in the record."""

    at: datetime
    step: SealEvent
    path: Path


def _dated(work: Work, *steps: str) -> list[Event] | Missing:
    """Give the events of these kinds in order of time; `Missing` if there is none or one has no time."""
    events = each(work, *EVENTS)
    if isinstance(events, Missing):
        return events
    found = []
    for number, event in events:
        if event.step in steps:
            path = (*EVENTS, number, "at")
            if event.at is None:
                return Missing((event.step,), "at", path)
            found.append(Event(event.at, event, path))
    return sorted(found, key=lambda event: event.at) or Missing((), steps[0], EVENTS)


def _between(first: Event, second: Event) -> Reading:
    details = (
        Detail("from", first.at.isoformat(), "-", first.path),
        Detail("to", second.at.isoformat(), "-", second.path),
    )
    return Reading((str(second.step.step),), hours(first.at, second.at), second.path, None, details)


def secured_before_sealing(work: Work) -> Iterator[Outcome]:
    """Hours from securing the window to the first tape or foam."""
    first = _dated(work, *TAPES, "foam")
    secured = work.look("window", "secured_at")
    if isinstance(first, Missing):
        yield first
    elif secured is None:
        yield Missing((), "secured_at", ("window", "secured_at"))
    else:
        details = (Detail("from", secured.isoformat(), "-", ("window", "secured_at")),)
        event = first[0]
        yield Reading((str(event.step.step),), hours(secured, event.at), event.path, None, details)


def first_tape_before_foam(work: Work) -> Iterator[Outcome]:
    """Hours from the first tape, inside or outside, to each foaming."""
    tapes, foams = _dated(work, *TAPES), _dated(work, "foam")
    if isinstance(tapes, Missing) or isinstance(foams, Missing):
        yield next(found for found in (tapes, foams) if isinstance(found, Missing))
        return
    yield from (_between(tapes[0], foam) for foam in foams)


def trim_wait(work: Work) -> Iterator[Outcome]:
    """Hours by which each trim came later than the foam before it needed to set; negative if too early."""
    foams, trims = _dated(work, "foam"), _dated(work, "trim")
    if isinstance(foams, Missing) or isinstance(trims, Missing):
        yield next(found for found in (foams, trims) if isinstance(found, Missing))
        return
    for trim in trims:
        foam = next((foam for foam in reversed(foams) if foam.at <= trim.at), None)
        if foam is None:
            yield _between(foams[0], trim)
            continue
        product = work.product("foams", foam.step.product)
        yield wait_margin(
            work,
            ("trim",),
            (foam.at, foam.path),
            (trim.at, trim.path),
            getattr(product, "trim_after", None),
            key="trim_after",
            product_path=(*foam.path[:-1], "product"),
        )


def second_tape_after_trim(work: Work) -> Iterator[Outcome]:
    """Hours from the trim before it to each tape on the side that was closed last."""
    tapes, trims = _dated(work, *TAPES), _dated(work, "trim")
    if isinstance(tapes, Missing) or isinstance(trims, Missing):
        yield next(found for found in (tapes, trims) if isinstance(found, Missing))
        return
    second = [tape for tape in tapes if tape.step.step != tapes[0].step.step]
    if not second:
        other = next(side for side in TAPES if side != tapes[0].step.step)
        yield Missing((other,), other, EVENTS)
    for tape in second:
        trim = next((trim for trim in reversed(trims) if trim.at <= tape.at), trims[0])
        yield _between(trim, tape)


def sides_closed(work: Work) -> Iterator[Outcome]:
    """On how many sides, inside and outside, the foam is closed by a tape."""
    events = each(work, *EVENTS)
    if isinstance(events, Missing):
        yield events
        return
    sides = {event.step for _, event in events} & set(TAPES)
    yield Reading((), len(sides), EVENTS)


def sd_ratio(work: Work) -> Iterator[Outcome]:
    """How many times tighter against vapour the inner seal is than the outer one (ratio of sd-values)."""
    found: dict[str, tuple[float, Path]] = {}
    events = each(work, *EVENTS)
    if isinstance(events, Missing):
        yield events
        return
    for number, event in events:
        if event.step not in TAPES:
            continue
        path = (*EVENTS, number)
        sd = (
            event.sd_m
            if event.sd_m is not None
            else getattr(work.product("tapes", event.product), "sd_m", None)
        )
        if sd is None:
            yield Missing((event.step,), "sd_m", (*path, "product"))
            return
        weaker = min if event.step == "inner tape" else max
        known = found.get(event.step)
        found[event.step] = (sd, path) if known is None else weaker(known, (sd, path))
    for side in TAPES:
        if side not in found:
            yield Missing((side,), side, EVENTS)
            return
    inner, outer = found["inner tape"], found["outer tape"]
    details = (Detail("inner_sd_m", inner[0], "m", inner[1]), Detail("outer_sd_m", outer[0], "m", outer[1]))
    yield Reading((), inner[0] / outer[0], inner[1], None, details)


def per_event(work: Work, key: str, *steps: str, measures: str | None = None) -> Iterator[Outcome]:
    """What was recorded under `key` of every event of these kinds."""
    events = each(work, *EVENTS)
    if isinstance(events, Missing):
        yield events
        return
    uncertainty = work.uncertainty("seals", measures) if measures else None
    seen = False
    for number, event in events:
        if event.step in steps:
            seen, path, value = True, (*EVENTS, number, key), getattr(event, key)
            subject = (event.step,)
            yield Missing(subject, key, path) if value is None else Reading(subject, value, path, uncertainty)
    if not seen:
        yield Missing((), steps[0], EVENTS)


def dampening(work: Work) -> Iterator[Outcome]:
    """Whether surfaces were dampened before foaming, for foams whose maker asks for it."""
    events = each(work, *EVENTS)
    if isinstance(events, Missing):
        yield events
        return
    for number, event in events:
        if event.step != "foam":
            continue
        asked = getattr(work.product("foams", event.product), "needs_dampening", None)
        path = (*EVENTS, number)
        if asked is None:
            yield Missing(("foam",), "needs_dampening", (*path, "product"))
        elif asked:
            value, here = event.dampened, (*path, "dampened")
            yield Missing(("foam",), "dampened", here) if value is None else Reading(("foam",), value, here)
