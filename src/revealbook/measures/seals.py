"""The sequence of tapes, foam and trim as a partial order, and what was recorded of each step."""

from collections.abc import Iterable, Iterator
from datetime import datetime
from typing import NamedTuple

from revealbook.measures.reading import Detail, Missing, Outcome, Path, Reading
from revealbook.measures.unread import hours
from revealbook.measures.waits import wait_margin
from revealbook.measures.work import Work, each, one
from revealbook.records.seals import SealEvent

TAPES = ("inner tape", "outer tape")
EVENTS = ("seals", "events")


class Event(NamedTuple):
    """A dated step of sealing and its place in the record."""

    at: datetime
    step: SealEvent
    path: Path


def of_kind(work: Work, *steps: str) -> list[tuple[SealEvent, Path]] | Missing:
    """Give the events of these kinds as listed, with their places.

    `Missing` if there is none, or if any event does not say what was done: it might be one of these.
    """
    events = each(work, *EVENTS)
    if isinstance(events, Missing):
        return events
    found: list[tuple[SealEvent, Path]] = []
    for number, event in events:
        if event.step is None:
            return Missing((f"event {number + 1}",), "step", (*EVENTS, number, "step"))
        if event.step in steps:
            found.append((event, (*EVENTS, number)))
    return found or Missing((), steps[0], EVENTS)


def dated(work: Work, *steps: str) -> list[Event] | Missing:
    """Give the events of these kinds in order of time; `Missing` if there is none or one has no time."""
    found = of_kind(work, *steps)
    if isinstance(found, Missing):
        return found
    undated = next((path for event, path in found if event.at is None), None)
    if undated is not None:
        return Missing((str(work.look(*undated, "step")),), "at", (*undated, "at"))
    dated = [Event(event.at, event, (*path, "at")) for event, path in found if event.at is not None]
    return sorted(dated, key=lambda event: event.at)


def _between(first: Event, second: Event) -> Reading:
    details = (
        Detail("from", first.at.isoformat(), "-", first.path),
        Detail("to", second.at.isoformat(), "-", second.path),
    )
    return Reading((str(second.step.step),), hours(first.at, second.at), second.path, None, details)


def secured_before_sealing(work: Work) -> Iterator[Outcome]:
    """Hours from securing the window to the first tape or foam."""
    first = dated(work, *TAPES, "foam")
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
    tapes, foams = dated(work, *TAPES), dated(work, "foam")
    if isinstance(tapes, Missing) or isinstance(foams, Missing):
        yield next(found for found in (tapes, foams) if isinstance(found, Missing))
        return
    yield from (_between(tapes[0], foam) for foam in foams)


def trim_wait(work: Work) -> Iterator[Outcome]:
    """Hours by which each trim came later than all foam before it needed to set; negative if too early.

    Foam after which nothing was trimmed any more has no reading: nothing shows that it was trimmed.
    """
    foams, trims = dated(work, "foam"), dated(work, "trim")
    if isinstance(foams, Missing) or isinstance(trims, Missing):
        yield next(found for found in (foams, trims) if isinstance(found, Missing))
        return
    for trim in trims:
        before = [foam for foam in foams if foam.at <= trim.at]
        yield _least(_trim_wait(work, foam, trim) for foam in before) if before else _between(foams[0], trim)
    for foam in foams:
        if foam.at > trims[-1].at:
            yield Missing(("foam",), "trim", foam.path)


def _trim_wait(work: Work, foam: Event, trim: Event) -> Outcome:
    product = work.product("foams", foam.step.product)
    return wait_margin(
        work,
        ("trim",),
        (foam.at, foam.path),
        (trim.at, trim.path),
        getattr(product, "trim_after", None),
        key="trim_after",
        product_path=(*foam.path[:-1], "product"),
    )


def _least(outcomes: Iterable[Outcome]) -> Outcome:
    """Give the least of some readings; what is missing, if no reading is below zero without it."""
    taken = tuple(outcomes)
    readings = [outcome for outcome in taken if isinstance(outcome, Reading)]
    least = min(readings, key=lambda reading: reading.value, default=None)
    missing = next((outcome for outcome in taken if isinstance(outcome, Missing)), None)
    if missing is not None and (least is None or float(least.value) >= 0):
        return missing
    return least  # type: ignore[return-value]  # there is one: nothing is missing, or it is below zero


def second_tape_after_trim(work: Work) -> Iterator[Outcome]:
    """Hours from the trim before it to each tape on the side that was closed last.

    The last of these tapes comes after the very last trim, or what was trimmed then is open.
    """
    tapes, trims = dated(work, *TAPES), dated(work, "trim")
    if isinstance(tapes, Missing) or isinstance(trims, Missing):
        yield next(found for found in (tapes, trims) if isinstance(found, Missing))
        return
    second = [tape for tape in tapes if tape.step.step != tapes[0].step.step]
    if not second:
        other = next(side for side in TAPES if side != tapes[0].step.step)
        yield Missing((other,), other, EVENTS)
        return
    for tape in second[:-1]:
        yield _between(next((trim for trim in reversed(trims) if trim.at <= tape.at), trims[0]), tape)
    yield _between(trims[-1], second[-1])


def sides_closed(work: Work) -> Iterator[Outcome]:
    """On how many sides, inside and outside, the foam is closed by a tape."""
    events = each(work, *EVENTS)
    if isinstance(events, Missing):
        yield events
        return
    tapes = of_kind(work, *TAPES)
    if isinstance(tapes, Missing) and tapes.what == "step":
        yield tapes
        return
    sides = set() if isinstance(tapes, Missing) else {event.step for event, _ in tapes}
    yield Reading((), len(sides), EVENTS)


def sd_ratio(work: Work) -> Iterator[Outcome]:
    """How many times tighter against vapour the inner seal is than the outer one (ratio of sd-values)."""
    tapes = of_kind(work, *TAPES)
    if isinstance(tapes, Missing):
        yield tapes
        return
    found: dict[str, tuple[float, Path]] = {}
    for event, path in tapes:
        step, product = str(event.step), work.product("tapes", event.product)
        sd = event.sd_m if event.sd_m is not None else getattr(product, "sd_m", None)
        if sd is None:
            yield Missing((step,), "sd_m", (*path, "product"))
            return
        weaker = min if step == "inner tape" else max
        found[step] = weaker(found.get(step, (sd, path)), (sd, path))
    for side in TAPES:
        if side not in found:
            yield Missing((side,), side, EVENTS)
            return
    inner, outer = found["inner tape"], found["outer tape"]
    details = (Detail("inner_sd_m", inner[0], "m", inner[1]), Detail("outer_sd_m", outer[0], "m", outer[1]))
    yield Reading((), inner[0] / outer[0], inner[1], None, details)


def per_event(work: Work, key: str, *steps: str, measures: str | None = None) -> Iterator[Outcome]:
    """What was recorded under `key` of every event of these kinds."""
    events = of_kind(work, *steps)
    if isinstance(events, Missing):
        yield events
        return
    for event, path in events:
        yield one(work, (str(event.step),), (*path, key), measures)


def dampening(work: Work) -> Iterator[Outcome]:
    """Whether surfaces were dampened before foaming, for foams whose maker asks for it."""
    events = of_kind(work, "foam")
    if isinstance(events, Missing):
        yield events
        return
    for event, path in events:
        asked = getattr(work.product("foams", event.product), "needs_dampening", None)
        if asked is None:
            yield Missing(("foam",), "needs_dampening", (*path, "product"))
        elif asked:
            yield one(work, ("foam",), (*path, "dampened"))
