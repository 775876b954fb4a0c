"""Order and waits: hours between dated events, and hours beyond the wait that a product asks for."""

from collections.abc import Iterable, Iterator
from datetime import datetime
from typing import Any, NamedTuple

from revealbook.measures.bonding import Lasting, adhesive_of, carrying
from revealbook.measures.physics.cure import (
    ClimateReading,
    CureRow,
    CureTable,
    OutsideTable,
    hours_until_cured,
)
from revealbook.measures.reading import Detail, Missing, Outcome, Path, Reading, Subject
from revealbook.measures.work import Work
from revealbook.records.applications import BONDING, applications
from revealbook.records.products import CurePoint


class Air(NamedTuple):
    """The air at a moment; the humidity may be unknown."""

    at: datetime
    air_c: float
    rh_pct: float | None


def hours(start: datetime, end: datetime) -> float:
    """Hours from `start` to `end`; both carry their zone, so a clock change between them costs nothing."""
    return (end - start).total_seconds() / 3600


def hours_between(work: Work, start: Path, end: Path, subject: Subject = ()) -> Outcome:
    """Hours from the moment at one path to the moment at another; negative if it came first."""
    begun, ended = work.look(*start), work.look(*end)
    if begun is None or ended is None:
        absent = start if begun is None else end
        return Missing(subject, str(absent[-1]), absent)
    details = (Detail("from", begun.isoformat(), "-", start), Detail("to", ended.isoformat(), "-", end))
    return Reading(subject, hours(begun, ended), end, None, details)


def climate(work: Work) -> list[Air]:
    """All readings of the air at this opening, whoever took them: at bonding, sealing and in between.

    What was read at an application of adhesive counts for the moment at which its last piece was pressed on,
    as the waits of the adhesive do. Of two readings at one moment the colder one counts, and its humidity.
    """
    bonded = [applied.recorded for applied in applications(work.opening)]
    dated: list[tuple[datetime | None, Any]] = [(one.pressed_at or one.laid_at, one) for one in bonded]
    dated += [(one.at, one) for one in (*(work.look("seals", "events") or ()), *work.opening.climate)]
    found: dict[datetime, Air] = {}
    for at, read in dated:
        if at is None or read.air_c is None:
            continue
        known = found.get(at)
        if known is None or read.air_c < known.air_c:
            found[at] = Air(at, read.air_c, read.rh_pct)
        elif read.air_c == known.air_c and known.rh_pct is None:
            found[at] = known._replace(rh_pct=read.rh_pct)
    return sorted(found.values())


def wait_margin(
    work: Work,
    subject: Subject,
    start: tuple[datetime, Path],
    end: tuple[datetime, Path],
    waits: Iterable[CurePoint] | None,
    *,
    key: str,
    product_path: Path,
) -> Outcome:
    """Hours by which a wait exceeds what the product needed in the air as read; negative if it was too short.

    The needed time comes from the product's table by the degree-of-cure model of `physics.cure`. A climate
    outside the table, no table or one that does not hold together gives `Missing`: what a supplier does not
    state is not assumed. So does a wait during which nobody read the air; readings from before or after it
    only shape the course between those within it. A wait that ended before it began, and one of a table that
    asks for no hours at all, needs no weather.
    """
    points = tuple(waits or ())
    if not points:
        return Missing(subject, key, product_path)
    if end[0] < start[0] or not any(point.hours for point in points):
        return _beyond(subject, start, end, 0.0)
    try:
        table = CureTable(tuple(CureRow(point.air_c, point.rh_pct, point.hours) for point in points))
    except ValueError:
        return Missing(subject, "waits_table_unusable", product_path)
    known = [air for air in climate(work) if air.rh_pct is not None or not table.humidities_pct]
    if not any(start[0] <= air.at <= end[0] for air in known):
        absent = "rh_pct" if table.humidities_pct else "air_c"
        return Missing(subject, absent, (*start[1][:-1], absent))
    readings = [ClimateReading(hours(start[0], at), air, rh) for at, air, rh in known]
    try:
        needed = hours_until_cured(table, readings)
    except OutsideTable as outside:
        details = (
            Detail("read", outside.value, outside.unit),
            Detail("lowest", outside.low, outside.unit),
            Detail("highest", outside.high, outside.unit),
        )
        return Missing(subject, "climate_outside_table", end[1], details)
    return _beyond(subject, start, end, needed)


def _beyond(
    subject: Subject, start: tuple[datetime, Path], end: tuple[datetime, Path], needed: float
) -> Reading:
    waited = hours(start[0], end[0])
    details = (
        Detail("waited_h", waited, "h", end[1]),
        Detail("needed_h", needed, "h"),
        Detail("from", start[0].isoformat(), "-", start[1]),
    )
    return Reading(subject, waited - needed, end[1], None, details)


def load_wait(work: Work) -> Iterator[Outcome]:
    """Hours by which the adhesive's wait before loading was exceeded when the window was set.

    It counts from the last application of each piece and of the supports, corrections included.
    """
    set_path: Path = ("window", "set_at")
    set_at = work.look(*set_path)
    if not applications(work.opening):
        yield Missing((), "pressed_at", (*BONDING, "pressed_at"))
        return
    for one in carrying(work):
        subject = () if one.subject == ("bonding",) else one.subject
        if isinstance(one, Missing):
            yield one._replace(subject=subject)
        elif set_at is None:
            yield Missing(subject, "set_at", set_path)
        else:
            yield bond_wait(work, one._replace(subject=subject), (set_at, set_path), "load_after")


def bond_wait(work: Work, held: Lasting, end: tuple[datetime, Path], key: str) -> Outcome:
    """Hours by which what an application holds had longer than the adhesive's table under `key` asks for."""
    path = held.applied.path
    return wait_margin(
        work,
        held.subject,
        (held.pressed_at, (*path, "pressed_at")),
        end,
        getattr(adhesive_of(work, held.applied), key, None),
        key=key,
        product_path=(*path, "product"),
    )
