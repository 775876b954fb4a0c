"""Weather that nobody read: which hours those are, and what the air may have been in them.

Between two readings no further apart than the method allows, the air counts as read: straight from one to the
other. All other hours are unknown: those of a longer gap, before the first reading and after the last. They
are bounded by how fast the air can change from the readings around them, by the readings at the building's
other openings, and by the method's coldest and warmest air. More readings only narrow these bounds.
"""

from collections.abc import Iterable, Sequence
from datetime import datetime
from itertools import pairwise
from math import inf
from typing import NamedTuple

from revealbook.measures.air import Air, air_read
from revealbook.measures.method import Method
from revealbook.measures.physics.band import Band, Bounds, Limits, Near, unread_hours
from revealbook.measures.physics.cure import Range
from revealbook.measures.work import Work


class Weather(NamedTuple):
    """The air at an opening, in hours from the start of a wait.

    Attributes:
        air: air temperature, degC.
        damp: relative humidity, %; None where it was not asked for.
        waited_h: hours from the start to the end of the wait; unread air after it stays what it was then.
    """

    air: Band
    damp: Band | None
    waited_h: float

    def at(self, hours: float) -> tuple[Range, Range | None]:
        """Give the range of air temperature and humidity possible at a moment."""
        return self._at(self.air, hours), self._at(self.damp, hours) if self.damp else None

    def _at(self, band: Band, hours: float) -> Range:
        return band.at(hours if band.is_read(hours) else min(hours, self.waited_h))

    @property
    def moments(self) -> list[float]:
        """Moments from 0 to step by: the end of the wait, every reading, and some in between."""
        found = {0.0, self.waited_h, *self.air.moments(), *(self.damp.moments() if self.damp else ())}
        return sorted(hours for hours in found if hours >= 0)

    def unread_h(self, end_h: float) -> float:
        """How many hours from 0 to `end_h` the air, or its humidity, was not read."""
        return max(unread_hours(band.unread, end_h) for band in (self.air, self.damp) if band)

    def possible_air_c(self, end_h: float) -> Range:
        """Give the coldest and the warmest air possible in the unread hours from 0 to `end_h`."""
        steps = max(1, int(end_h * 2))
        ranges = [
            self.air.at(end_h * step / steps)
            for step in range(steps + 1)
            if not self.air.is_read(end_h * step / steps)
        ]
        ranges = ranges or [self.air.at(end_h)]
        return min(low for low, _ in ranges), max(high for _, high in ranges)


def hours(start: datetime, end: datetime) -> float:
    """Hours from `start` to `end`; both carry their zone, so a clock change between them costs nothing."""
    return (end - start).total_seconds() / 3600


def gaps_are_limited(method: Method) -> bool:
    """Whether there is a longest gap that counts as read; rule sets of format 1 knew none."""
    return method.longest_gap_day_h is not None or method.longest_gap_night_h is not None


def weather(work: Work, start: datetime, end: datetime, *, with_humidity: bool) -> Weather | None:
    """Give the air at an opening around a wait; None where none of it was read there during the wait.

    Args:
        work: the opening.
        start: when the wait began.
        end: when it ended.
        with_humidity: whether the humidity is asked for as well.
    """
    own = air_read(work.opening)
    damp = [one for one in own if one.rh_pct is not None]
    if not any(start <= one.at <= end for one in (damp if with_humidity else own)):
        return None
    method, near = work.method, work.around.neighbours(work.opening)
    air = _band(
        _values(own, start, "air_c"),
        _values(near, start, "air_c"),
        _unread(method, start, own),
        Limits(*method.unread_air_c, method.air_change_k_h),
        method.neighbour_air_k,
    )
    humid = (
        _band(
            _values(damp, start, "rh_pct"),
            _values(near, start, "rh_pct"),
            _unread(method, start, damp),
            Limits(*method.unread_rh_pct, method.rh_change_pct_h),
            method.neighbour_rh_pct,
        )
        if with_humidity
        else None
    )
    return Weather(air, humid, hours(start, end))


def _values(read: Iterable[Air], start: datetime, key: str) -> list[tuple[float, float]]:
    """Give the values read, with the hours from a moment; all that differ where several share a moment."""
    found = {(hours(start, one.at), getattr(one, key)) for one in read}
    return [(at, value) for at, value in found if value is not None]


def _band(
    own: list[tuple[float, float]],
    near: list[tuple[float, float]],
    unread: Sequence[tuple[float, float]],
    limits: Limits,
    apart: float,
) -> Band:
    bearing = [Near(at, value, value) for at, value in own]
    bearing += [Near(at, value - apart, value + apart) for at, value in near]
    return Band(own, unread, Bounds(bearing, limits))


def _unread(method: Method, start: datetime, read: Sequence[Air]) -> list[tuple[float, float]]:
    """Give the stretches during which nobody read the air, in hours from `start`."""
    ends = [-inf, *(hours(start, one.at) for one in read), inf]
    long = [(ends[0], ends[1])]
    for before, after in pairwise(read):
        if hours(before.at, after.at) > _longest_gap(method, before.at, after.at):
            long.append((hours(start, before.at), hours(start, after.at)))
    return [*long, (ends[-2], ends[-1])]


def _longest_gap(method: Method, before: datetime, after: datetime) -> float:
    """Hours that may lie between two readings; it was night if midnight lay between, by the earlier clock."""
    by_night = after.astimezone(before.tzinfo).date() > before.date()
    longest = method.longest_gap_night_h if by_night else method.longest_gap_day_h
    return inf if longest is None else longest
