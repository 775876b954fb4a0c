"""The air at an opening as read, whoever read it: at bonding, at sealing and in between."""

from collections.abc import Iterator
from datetime import datetime
from typing import NamedTuple

from revealbook.records.applications import applications
from revealbook.records.opening import Opening


class Air(NamedTuple):
    """The air at a moment; the humidity may be unknown."""

    at: datetime
    air_c: float
    rh_pct: float | None


def air_read(opening: Opening) -> list[Air]:
    """All readings of the air at an opening, in order of time.

    What was read at an application of adhesive counts for the moment at which its last piece was pressed on,
    as the waits of the adhesive do. Of two readings at one moment the colder one counts, and its humidity.
    """
    found: dict[datetime, Air] = {}
    for at, air_c, rh_pct in _dated(opening):
        known = found.get(at)
        if known is None or air_c < known.air_c:
            found[at] = Air(at, air_c, rh_pct)
        elif air_c == known.air_c and known.rh_pct is None:
            found[at] = known._replace(rh_pct=rh_pct)
    return sorted(found.values())


def _dated(opening: Opening) -> Iterator[Air]:
    for one in (applied.recorded for applied in applications(opening)):
        yield from _air(one.pressed_at or one.laid_at, one.air_c, one.rh_pct)
    for event in (opening.seals.events if opening.seals else None) or ():
        yield from _air(event.at, event.air_c, event.rh_pct)
    for read in opening.climate:
        yield from _air(read.at, read.air_c, read.rh_pct)


def _air(at: datetime | None, air_c: float | None, rh_pct: float | None) -> Iterator[Air]:
    if at is not None and air_c is not None:
        yield Air(at, air_c, rh_pct)
