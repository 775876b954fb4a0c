"""What happened when and by whom, as a record tells it."""

from collections.abc import Iterator
from datetime import datetime
from typing import NamedTuple

from revealbook.measures.reading import Path
from revealbook.records.applications import applications
from revealbook.records.opening import Opening


class Stay(NamedTuple):
    """One person at one opening, from one moment to another; both the same for an event without length."""

    mark: str
    person: str
    start: datetime
    end: datetime
    path: Path


def stays(opening: Opening) -> Iterator[Stay]:
    """Give when whose hands were at an opening: bonding, setting, sealing."""
    window, seals = opening.window, opening.seals
    for one in applications(opening):
        if one.by and (laid := one.recorded.laid_at):
            yield Stay(opening.mark, one.by, laid, one.recorded.pressed_at or laid, (*one.path, "laid_at"))
    if window and window.by and window.set_at:
        end = window.secured_at or window.set_at
        yield Stay(opening.mark, window.by, window.set_at, end, ("window", "set_at"))
    for number, event in enumerate((seals.events or ()) if seals else ()):
        if event.by and event.at:
            yield Stay(opening.mark, event.by, event.at, event.at, ("seals", "events", number, "at"))


def minutes(start: datetime, end: datetime) -> float:
    """Give the minutes from one moment to another; negative if it lies before."""
    return (end - start).total_seconds() / 60
