"""The dated events of an opening in order, with the weather at each."""

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import datetime
from typing import Any

from revealbook.measures.physics.dew_point import dew_point_c
from revealbook.present import labels
from revealbook.present.steps import STEPS
from revealbook.present.words import N_, Words
from revealbook.records.acceptance import ClimateReading
from revealbook.records.applications import applications
from revealbook.records.opening import Opening


@dataclass(frozen=True, slots=True)
class Event:
    """Something that happened at a moment.

    Attributes:
        at: when.
        when: the same in words.
        what: what happened.
        who: who did it; may be empty.
        weather: air, humidity, surface and dew point, each empty if it was not read.
        only_weather: whether nothing was done but reading the weather.
    """

    at: datetime
    when: str
    what: str
    who: str
    weather: tuple[str, str, str, str]
    only_weather: bool = False


def events(opening: Opening, words: Words, people: dict[str, str]) -> tuple[Event, ...]:
    """Give all dated events of a record in order of time."""
    found = [
        Event(
            at,
            words.moment(at),
            what,
            people.get(who, who) if who else "",
            weather(reading, words),
            isinstance(reading, ClimateReading),
        )
        for at, what, who, reading in _all(opening, words)
        if at is not None
    ]
    return tuple(sorted(found, key=lambda event: event.at))


_Raw = tuple[datetime | None, str, str | None, Any]


def _all(opening: Opening, words: Words) -> Iterator[_Raw]:
    yield from _work(opening, words)
    if seals := opening.seals:
        for event in seals.events or ():
            what = words.say(labels.PARTS[event.step]) if event.step else words.say(STEPS["seal"])
            yield event.at, named(what, event.product, event.batch, words), event.by or seals.by, event
    for point in opening.hold_points or ():
        name = words.say(labels.PARTS.get(point.name, point.name))
        result = words.say(
            {True: N_("passed"), False: N_("not passed"), None: N_("result not recorded")}[point.passed]
        )
        yield point.at, words.say(N_("hold point {name}: {result}"), name=name, result=result), point.by, None
    for wrong in opening.nonconformities:
        yield (
            wrong.found_at,
            words.say(N_("nonconformity {id} found: {what}"), id=wrong.id, what=wrong.what),
            wrong.found_by,
            None,
        )
        if (correction := wrong.correction) is not None:
            what = words.say(N_("{id} corrected: {what}"), id=wrong.id, what=correction.what or "")
            yield correction.at, what, correction.by, None
            yield (
                correction.checked_at,
                words.say(N_("correction of {id} checked"), id=wrong.id),
                correction.checked_by,
                None,
            )
    for reading in opening.climate:
        yield reading.at, words.say(N_("weather read")), None, reading
    for sign in opening.sign_offs or ():
        yield (
            sign.at,
            words.say(N_("signed as {role}"), role=words.say(labels.ROLES[sign.role])),
            sign.by,
            None,
        )
    for concession in opening.concessions:
        yield (
            concession.at,
            words.say(N_("concession on {rule}"), rule=concession.rule),
            concession.accepted_by,
            None,
        )
    if opening.covering:
        yield opening.covering.at, words.say(STEPS["covered"]), opening.covering.by, None


def _work(opening: Opening, words: Words) -> Iterator[_Raw]:
    if survey := opening.survey:
        yield survey.at, words.say(STEPS["survey"]), survey.by, None
    if frame := opening.frame:
        yield frame.at, words.say(STEPS["frame"]), frame.by, None
    for one in applications(opening):
        what = named(bonded(STEPS["bonding"], one.parts, words), one.recorded.product, one.batch, words)
        yield one.recorded.laid_at, what, one.by, one.recorded
        yield one.recorded.pressed_at, bonded(STEPS["pressed on"], one.parts, words), one.by, None
    if supports := opening.supports:
        yield supports.at, words.say(STEPS["supports"]), supports.by, None
    if plinth := opening.plinth:
        yield plinth.fitted_at, words.say(STEPS["plinth fitted"]), plinth.by, None
    if window := opening.window:
        yield window.set_at, words.say(STEPS["window set"]), window.by, None
        yield window.secured_at, words.say(STEPS["window secured"]), window.by, None
        yield window.at, words.say(STEPS["window"]), window.by, None
    if tests := opening.tests:
        for test, step in (
            (tests.air_leakage, "air leakage"),
            (tests.water_spray, "water spray"),
            (tests.thermometry, "thermometry"),
        ):
            if test is not None:
                yield test.at, words.say(STEPS[step]), test.by, None


def bonded(what: str, parts: tuple[str, ...], words: Words) -> str:
    """Say what was bonded or with what, with the parts if they are not all four pieces.

    Args:
        what: a text marked for translation.
        parts: the parts bonded; none if they are all.
        words: the reader's language.
    """
    said = words.say(what)
    if not parts:
        return said
    return words.say(N_("{what}: {parts}"), what=said, parts=labels.subject(parts, words))


def named(what: str, product: str | None, batch: str | None, words: Words) -> str:
    """Say what happened with the product and batch in brackets, as far as recorded."""
    rest = [product] if product else []
    if batch:
        rest.append(words.say(N_("batch {batch}"), batch=batch))
    return f"{what} ({', '.join(rest)})" if rest else what


def weather(reading: Any, words: Words) -> tuple[str, str, str, str]:
    """Give air, humidity, surface and dew point in words, each empty if it was not read or cannot be told."""
    air, rh, surface = (getattr(reading, key, None) for key in ("air_c", "rh_pct", "surface_c"))
    dew = dew_point_c(air, rh, over="water") if air is not None and rh is not None else None
    values = ((air, "degC"), (rh, "%"), (surface, "degC"), (dew, "degC"))
    air_said, rh_said, surface_said, dew_said = (
        "" if value is None else words.quantity(value, unit) for value, unit in values
    )
    return air_said, rh_said, surface_said, dew_said
