"""The sequence of tapes, foam and trim as a partial order, and what was recorded of each step."""

from collections.abc import Iterable, Iterator
from datetime import datetime
from typing import NamedTuple

from revealbook.measures.reading import Detail, Missing, Outcome, Path, Reading
from revealbook.measures.tapes import EVENTS, TAPES, closes, of_kind, subject_of, tape_sides
from revealbook.measures.unread import hours
from revealbook.measures.waits import wait_margin
from revealbook.measures.work import Work, one
from revealbook.records.seals import SealEvent


class Event(NamedTuple):
    """A dated step of sealing and its place in the record."""

    at: datetime
    step: SealEvent
    path: Path


def dated(work: Work, *steps: str, side: str | None = None) -> list[Event] | Missing:
    """Give the events of these kinds in order of time; `Missing` if there is none or one has no time."""
    listed = of_kind(work, *steps)
    if isinstance(listed, Missing):
        return listed
    found = [(event, path) for event, path in listed if closes(event, side)]
    if not found:
        return Missing(subject_of(side), steps[0], EVENTS)
    undated = next((path for event, path in found if event.at is None), None)
    if undated is not None:
        return Missing((str(work.look(*undated, "step")),), "at", (*undated, "at"))
    events = [Event(event.at, event, (*path, "at")) for event, path in found if event.at is not None]
    return sorted(events, key=lambda event: event.at)


def _between(first: Event, second: Event, side: str | None = None) -> Reading:
    details = (
        Detail("from", first.at.isoformat(), "-", first.path),
        Detail("to", second.at.isoformat(), "-", second.path),
    )
    subject = (*subject_of(side), str(second.step.step))
    return Reading(subject, hours(first.at, second.at), second.path, None, details)


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
    """Hours from the first tape, inside or outside, to each foaming; side by side where tapes differ.

    A tape whose maker allows that it is stuck to the window before that is set counts from then on.
    """
    sides = tape_sides(work)
    if isinstance(sides, Missing):
        yield sides
        return
    for side in sides:
        tapes, foams = dated(work, *TAPES, side=side), dated(work, "foam", side=side)
        if isinstance(tapes, Missing) or isinstance(foams, Missing):
            yield next(found for found in (tapes, foams) if isinstance(found, Missing))
            continue
        first = min((_from_when_it_was_stuck(work, tape) for tape in tapes), key=lambda tape: tape.at)
        yield from (_between(first, foam, side) for foam in foams)


def _from_when_it_was_stuck(work: Work, tape: Event) -> Event:
    stuck = tape.step.stuck_to_window_at
    allowed = getattr(work.product("tapes", tape.step.product), "may_be_stuck_first", None)
    return (
        tape
        if stuck is None or not allowed
        else Event(stuck, tape.step, (*tape.path[:-1], "stuck_to_window_at"))
    )


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
    """Hours from the trim before it to each tape on the face that was closed last; by side if tapes differ.

    The last of these tapes comes after the very last trim, or what was trimmed then is open.
    """
    sides = tape_sides(work)
    for side in (None,) if isinstance(sides, Missing) else sides:
        yield from (sides,) if isinstance(sides, Missing) else _second_tape_after_trim(work, side)


def _second_tape_after_trim(work: Work, side: str | None) -> Iterator[Outcome]:
    tapes, trims = dated(work, *TAPES, side=side), dated(work, "trim", side=side)
    if isinstance(tapes, Missing) or isinstance(trims, Missing):
        yield next(found for found in (tapes, trims) if isinstance(found, Missing))
        return
    second = [tape for tape in tapes if tape.step.step != tapes[0].step.step]
    if not second:
        other = next(face for face in TAPES if face != tapes[0].step.step)
        yield Missing((*subject_of(side), other), other, EVENTS)
        return
    for tape in second[:-1]:
        yield _between(next((trim for trim in reversed(trims) if trim.at <= tape.at), trims[0]), tape, side)
    yield _between(trims[-1], second[-1], side)


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
