"""Entries that were made before what they speak of, or long after it."""

from collections.abc import Iterator
from datetime import datetime
from typing import NamedTuple

from revealbook.inspection.practice import practice
from revealbook.inspection.question import Evidence, Question, Spot
from revealbook.inspection.walk import minutes
from revealbook.measures.reading import Path
from revealbook.records.applications import applications
from revealbook.records.opening import Opening


class _Order(NamedTuple):
    """An entry and the event that it cannot come before."""

    code: str
    entry: datetime | None
    path: Path
    event: datetime | None


def entry_times(evidence: Evidence) -> Iterator[Question]:
    """Ask about signatures, hold points and readings that stand at an odd time to the work."""
    stated = practice().entries
    for one in evidence.site.openings:
        for order in _orders(one.record.opening):
            if order.entry is None or order.event is None:
                continue
            before = minutes(order.entry, order.event)
            facts = {"entry": order.entry, "event": order.event}
            spots = (Spot(one.mark, order.path),)
            if before > stated.tolerance_min:
                yield Question("entry", f"{order.code}_before", (one.mark,), spots, facts)
            elif order.code == "readings" and -before > stated.late_days * 24 * 60:
                yield Question("entry", "readings_late", (one.mark,), spots, facts)


def _orders(opening: Opening) -> Iterator[_Order]:
    frame, window, survey = opening.frame, opening.window, opening.survey
    bonded, laid_path = min(
        (
            (one.recorded.laid_at, (*one.path, "laid_at"))
            for one in applications(opening)
            if one.recorded.laid_at and not one.nonconformity
        ),
        default=(None, ()),
    )
    set_at = window.set_at if window else None
    events = [event for event in (opening.seals.events or () if opening.seals else ()) if event.at]
    foamed = next((event.at for event in events if event.step == "foam"), None)
    done = max((event.at for event in events if event.at), default=(window.secured_at if window else None))
    if frame:
        yield _Order("readings", frame.at, ("frame", "at"), bonded)
    if window:
        yield _Order("readings", window.at, ("window", "at"), set_at)
    if survey:
        yield _Order("work", bonded, laid_path, survey.at)
    looked = {"frame": bonded, "window": set_at, "foam": foamed}
    for number, point in enumerate(opening.hold_points or ()):
        yield _Order(
            "hold", point.at if point.passed else None, ("hold_points", number, "at"), looked.get(point.name)
        )
    for number, sign in enumerate(opening.sign_offs or ()):
        yield _Order("signed", sign.at, ("sign_offs", number, "at"), done)
