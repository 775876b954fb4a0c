"""Order and waits: hours between dated events, and hours beyond the wait that a product asks for."""

from collections.abc import Callable, Iterable, Iterator
from datetime import datetime
from typing import NamedTuple

from revealbook.measures.air import air_read
from revealbook.measures.bonding import Lasting, adhesive_of, carrying
from revealbook.measures.physics.cure import (
    ClimateReading,
    CureRow,
    CureTable,
    OutsideTable,
    Range,
    hours_until,
    hours_until_cured,
)
from revealbook.measures.reading import Detail, Missing, Outcome, Path, Reading, Subject
from revealbook.measures.unread import Weather, gaps_are_limited, hours, weather
from revealbook.measures.work import Work
from revealbook.records.applications import BONDING, applications
from revealbook.records.products import CurePoint


class Wait(NamedTuple):
    """A wait: what it is of, and its start and end with their places in the record."""

    subject: Subject
    start: tuple[datetime, Path]
    end: tuple[datetime, Path]


def hours_between(work: Work, start: Path, end: Path, subject: Subject = ()) -> Outcome:
    """Hours from the moment at one path to the moment at another; negative if it came first."""
    begun, ended = work.look(*start), work.look(*end)
    if begun is None or ended is None:
        absent = start if begun is None else end
        return Missing(subject, str(absent[-1]), absent)
    details = (Detail("from", begun.isoformat(), "-", start), Detail("to", ended.isoformat(), "-", end))
    return Reading(subject, hours(begun, ended), end, None, details)


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
    state is not assumed. So does a wait during which nobody read the air here. Hours that nobody read are
    bounded (`measures.unread`): the wait counts as long enough only if it was so in the slowest weather
    possible, as too short only if it was so in the fastest, and is not shown in between. A wait that ended
    before it began, and one of a table that asks for no hours at all, needs no weather.
    """
    points = tuple(waits or ())
    if not points:
        return Missing(subject, key, product_path)
    wait = Wait(subject, start, end)
    if end[0] < start[0] or not any(point.hours for point in points):
        return _beyond(wait, 0.0)
    try:
        table = CureTable(tuple(CureRow(point.air_c, point.rh_pct, point.hours) for point in points))
    except ValueError:
        return Missing(subject, "waits_table_unusable", product_path)
    if not gaps_are_limited(work.method):
        return _as_read(work, wait, table)
    air = weather(work, start[0], end[0], with_humidity=bool(table.humidities_pct))
    return _never_read(wait, table) if air is None else _bounded(wait, table, air)


def _never_read(wait: Wait, table: CureTable) -> Missing:
    absent = "rh_pct" if table.humidities_pct else "air_c"
    return Missing(wait.subject, absent, (*wait.start[1][:-1], absent))


def _as_read(work: Work, wait: Wait, table: CureTable) -> Outcome:
    """Take any gap between readings as read, as rule sets of format 1 do."""
    known = [air for air in air_read(work.opening) if air.rh_pct is not None or not table.humidities_pct]
    if not any(wait.start[0] <= air.at <= wait.end[0] for air in known):
        return _never_read(wait, table)
    readings = [ClimateReading(hours(wait.start[0], at), air, rh) for at, air, rh in known]
    try:
        return _beyond(wait, hours_until_cured(table, readings))
    except OutsideTable as outside:
        return _outside(wait, outside)


def _bounded(wait: Wait, table: CureTable, air: Weather) -> Outcome:
    """Hold the wait against the slowest and the fastest weather possible."""
    waited = air.waited_h
    slowest = _needed(table, air, table.most_hours)
    if isinstance(slowest, float) and slowest <= waited:
        return _beyond(wait, slowest, _assumed(air, slowest))
    fastest = _needed(table, air, table.least_hours)
    if isinstance(fastest, float) and fastest > waited:
        return _beyond(wait, fastest, _assumed(air, waited))
    unseen = isinstance(slowest, OutsideTable) and not air.unread_h(waited)
    read_outside = next(_read_outside(table, air), slowest if unseen else None)
    if isinstance(read_outside, OutsideTable):
        return _outside(wait, read_outside)
    assumed = (*_assumed(air, waited), Detail("waited_h", waited, "h", wait.end[1]))
    if isinstance(slowest, float) and isinstance(fastest, float):
        ends = (Detail("fastest_h", fastest, "h"), Detail("slowest_h", slowest, "h"))
        return Missing(wait.subject, "weather_unread", wait.end[1], (*assumed, *ends))
    return Missing(wait.subject, "weather_unread_outside_table", wait.end[1], assumed)


def _read_outside(table: CureTable, air: Weather) -> Iterator[OutsideTable]:
    """Give what was read during a wait and lies outside the product's table."""
    bands = ((air.air, table.temperatures_c, "degC"), (air.damp, table.humidities_pct, "%"))
    for band, axis, unit in bands:
        for at, value in band.course.readings if band else ():
            if 0 <= at <= air.waited_h and not axis[0] <= value <= axis[-1]:
                yield OutsideTable("", unit, value, axis[0], axis[-1])


def _needed(
    table: CureTable, air: Weather, hours_in: Callable[[Range, Range | None], float]
) -> float | OutsideTable:
    def rate(moment: float) -> float:
        return 1 / hours_in(*air.at(moment))

    kinks = {moment for air_c in table.temperatures_c for moment in air.air.course.moments_of(air_c)}
    if air.damp:
        kinks |= {moment for rh in table.humidities_pct for moment in air.damp.course.moments_of(rh)}
    moments = sorted({*air.moments, *(moment for moment in kinks if moment > 0)})
    try:
        return hours_until(rate, moments)
    except OutsideTable as outside:
        return outside


def _assumed(air: Weather, end_h: float) -> tuple[Detail, ...]:
    """Say what was assumed of hours that nobody read, if there were any before `end_h`."""
    unread = air.unread_h(end_h)
    if not unread:
        return ()
    coldest, warmest = air.possible_air_c(end_h)
    return (
        Detail("unread_h", unread, "h"),
        Detail("coldest_c", coldest, "degC"),
        Detail("warmest_c", warmest, "degC"),
    )


def _outside(wait: Wait, outside: OutsideTable) -> Missing:
    details = (
        Detail("read", outside.value, outside.unit),
        Detail("lowest", outside.low, outside.unit),
        Detail("highest", outside.high, outside.unit),
    )
    return Missing(wait.subject, "climate_outside_table", wait.end[1], details)


def _beyond(wait: Wait, needed: float, assumed: tuple[Detail, ...] = ()) -> Reading:
    waited = hours(wait.start[0], wait.end[0])
    details = (
        Detail("waited_h", waited, "h", wait.end[1]),
        Detail("needed_h", needed, "h"),
        Detail("from", wait.start[0].isoformat(), "-", wait.start[1]),
        *assumed,
    )
    return Reading(wait.subject, waited - needed, wait.end[1], None, details)


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
