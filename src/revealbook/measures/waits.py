"""Order and waits: hours between dated events, and hours beyond the wait that a product asks for."""

from collections.abc import Iterable
from datetime import datetime

from revealbook.measures.physics.cure import (
    ClimateReading,
    CureRow,
    CureTable,
    OutsideTable,
    hours_until_cured,
)
from revealbook.measures.reading import Detail, Missing, Outcome, Path, Reading, Subject
from revealbook.measures.work import Work
from revealbook.records.products import CurePoint


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


def climate(work: Work) -> list[tuple[datetime, float, float | None]]:
    """All readings of the air at this opening, whoever took them: at bonding, sealing and in between."""
    found: dict[datetime, tuple[float, float | None]] = {}
    bonding = work.look("frame", "bonding")
    for dated in (bonding, *(work.look("seals", "events") or ()), *work.opening.climate):
        if dated is not None and dated.at is not None and dated.air_c is not None:
            found[dated.at] = (dated.air_c, dated.rh_pct)
    return [(at, *air) for at, air in sorted(found.items())]


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
    outside the table, or no table, gives `Missing`: what a supplier does not state is not assumed.
    """
    if waits is None:
        return Missing(subject, key, product_path)
    known = climate(work)
    try:
        table = CureTable(tuple(CureRow(point.air_c, point.rh_pct, point.hours) for point in waits))
        readings = [ClimateReading(hours(start[0], at), air, rh) for at, air, rh in known]
        if table.humidities_pct:
            readings = [reading for reading in readings if reading.rh_pct is not None]
        needed = hours_until_cured(table, readings)
    except OutsideTable as outside:
        details = (
            Detail("read", outside.value, outside.unit),
            Detail("lowest", outside.low, outside.unit),
            Detail("highest", outside.high, outside.unit),
        )
        return Missing(subject, "climate_outside_table", end[1], details)
    except ValueError:
        return Missing(subject, "air_c", start[1])
    waited = hours(start[0], end[0])
    details = (
        Detail("waited_h", waited, "h", end[1]),
        Detail("needed_h", needed, "h"),
        Detail("from", start[0].isoformat(), "-", start[1]),
    )
    return Reading(subject, waited - needed, end[1], None, details)


def load_wait(work: Work) -> Outcome:
    """Hours by which the adhesive's wait before loading was exceeded when the window was set."""
    bonding_path, set_path = ("frame", "bonding"), ("window", "set_at")
    bonding = work.look(*bonding_path)
    pressed = getattr(bonding, "pressed_at", None) or getattr(bonding, "at", None)
    set_at = work.look(*set_path)
    if pressed is None or set_at is None:
        absent: Path = (*bonding_path, "pressed_at") if pressed is None else set_path
        return Missing((), str(absent[-1]), absent)
    adhesive = work.product("adhesives", bonding.product)
    return wait_margin(
        work,
        (),
        (pressed, (*bonding_path, "pressed_at")),
        (set_at, set_path),
        getattr(adhesive, "load_after", None),
        key="load_after",
        product_path=(*bonding_path, "product"),
    )
