"""The time chart of an opening: events on a broken time axis, and a bar for every wait.

Nights and days without work are shortened, and the chart says so; between the breaks time runs evenly.
Lengths are in mm on paper.
"""

from bisect import bisect_right
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import datetime, time, timedelta
from itertools import groupby

from revealbook.present import labels
from revealbook.present.timeline import Event
from revealbook.present.words import N_, Words
from revealbook.rules.finding import Finding
from revealbook.rules.judged import JudgedOpening

WIDTH_MM = 169.0
_BREAK_MM = 4.0
_MOST_FOR_BREAKS = 0.4
"""Share of the axis that breaks may take; of very many days each break is narrower."""
_DATE_MM = 15.0
"""Room that a date takes; a day without it goes unnamed, the list beside the chart has every date."""
_DAY_STARTS, _DAY_ENDS = time(6), time(20)
_ROW_MM = 5.5
_ROW_OF_NUMBERS_MM = 4.4
_AXIS_MM = 7.0
_LABEL_MM = 3.6
_CAPTION = N_(
    "Events by number as listed below; a bar for each wait, its end ticked when it was over. "
    "Nights and days without work are shortened."
)
_BEFORE = {
    "load_wait_margin": N_("{what}, before it carried the window"),
    "trim_wait_margin": N_("foam, before the trim"),
    "cover_wait_margin": N_("{what}, before it was covered"),
}
"""What a wait was for, by the measure that tells it."""


@dataclass(frozen=True, slots=True)
class Tick:
    """A day on the axis: where its hours start and end, and its date; empty if there is no room for it."""

    start: float
    end: float
    label: str


@dataclass(frozen=True, slots=True)
class Flag:
    """An event on the axis, with its number in the list of events and the row its number stands in."""

    x: float
    y: float
    number: int

    @property
    def width(self) -> float:
        """The room that its number takes."""
        return _room(self.number)

    @property
    def left(self) -> float:
        """Where its number's room begins."""
        return _left(self.x, self.number)

    @property
    def middle(self) -> float:
        """Where its number stands: at the place, but inwards at the ends of the axis."""
        return self.left + self.width / 2


@dataclass(frozen=True, slots=True)
class Bar:
    """A wait: from its start to when it was over, and to when the work went on.

    Attributes:
        label: what waited for what.
        start, needed, went_on: places on the axis.
        y: its row.
        short: whether the work went on too early.
        note: hours needed and waited, in words.
    """

    label: str
    start: float
    needed: float
    went_on: float
    y: float
    short: bool
    note: str


@dataclass(frozen=True, slots=True)
class TimeChart:
    """Everything that the chart draws."""

    width: float
    height: float
    axis_y: float
    ticks: tuple[Tick, ...]
    flags: tuple[Flag, ...]
    bars: tuple[Bar, ...]
    title: str
    caption: str


class _Axis:
    """A piecewise even scale from moments to places."""

    def __init__(self, moments: Sequence[datetime]) -> None:
        zone = moments[0].tzinfo
        days = [
            list(of_day)
            for _, of_day in groupby(sorted(one.astimezone(zone) for one in moments), key=datetime.date)
        ]
        self.spans = [_span(of_day) for of_day in days]
        gap = min(_BREAK_MM, WIDTH_MM * _MOST_FOR_BREAKS / len(days))
        free = WIDTH_MM - gap * (len(days) - 1)
        share = free / sum((end - start).total_seconds() for start, end in self.spans)
        self.knots: list[tuple[float, float]] = []
        x = 0.0
        for start, end in self.spans:
            self.knots.append((start.timestamp(), x))
            x += (end - start).total_seconds() * share
            self.knots.append((end.timestamp(), x))
            x += gap

    def place(self, moment: datetime) -> float:
        """Give the place of a moment; those outside the axis stand at its ends."""
        stamp = moment.timestamp()
        after = bisect_right(self.knots, stamp, key=lambda knot: knot[0])
        if after == 0:
            return 0.0
        if after == len(self.knots):
            return WIDTH_MM
        (from_stamp, from_x), (to_stamp, to_x) = self.knots[after - 1], self.knots[after]
        return from_x + (to_x - from_x) * (stamp - from_stamp) / (to_stamp - from_stamp)


def _span(of_day: Sequence[datetime]) -> tuple[datetime, datetime]:
    first, last = of_day[0], of_day[-1]
    start = min(first, datetime.combine(first.date(), _DAY_STARTS, first.tzinfo))
    end = max(last + timedelta(minutes=1), datetime.combine(last.date(), _DAY_ENDS, last.tzinfo))
    midnight = datetime.combine(last.date() + timedelta(days=1), time(), last.tzinfo)
    return start, min(end, midnight)  # so that no day runs into the next


def _room(number: int) -> float:
    """Give the room that a number takes, with air beside it."""
    return 1.5 + 1.5 * len(str(number))


def _left(x: float, number: int) -> float:
    """Give where the room of a number at a place begins: around it, but inside the axis."""
    return min(max(x - _room(number) / 2, 0.0), WIDTH_MM - _room(number))


def time_chart(judged: JudgedOpening, events: Sequence[Event], words: Words) -> TimeChart | None:
    """Give the time chart of an opening; None if nothing was dated.

    Args:
        judged: the opening, whose findings hold the waits.
        events: its dated events in order of time, numbered from 1 in the list beside the chart.
        words: the reader's language.
    """
    if not events:
        return None
    worked = [event.at for event in events if not event.only_weather]
    axis = _Axis(worked or [event.at for event in events])
    flags = tuple(_flags(axis, events))
    axis_y = max((flag.y for flag in flags), default=0.0) + _ROW_OF_NUMBERS_MM
    bars = tuple(_bars(axis, judged, axis_y + _AXIS_MM, words))
    ticks = tuple(_ticks(axis, words))
    short = sum(bar.short for bar in bars)
    title = words.say(
        N_("Time chart: {events} events on {days} days, {waits} waits, {short} of them too short"),
        events=len(flags), days=len(ticks), waits=len(bars), short=short,
    )  # fmt: skip
    caption = words.say(_CAPTION)
    height = axis_y + _AXIS_MM + (_ROW_MM + _LABEL_MM) * len(bars)
    return TimeChart(WIDTH_MM, height, axis_y, ticks, flags, bars, title, caption)


def _ticks(axis: _Axis, words: Words) -> Iterator[Tick]:
    """Name the days, as many as there is room for."""
    named_to = 0.0
    for day, end in axis.spans:
        start, stop = axis.place(day), axis.place(end)
        left, right = (start + stop - _DATE_MM) / 2, (start + stop + _DATE_MM) / 2
        has_room = left >= named_to and right <= WIDTH_MM
        yield Tick(start, stop, words.day(day) if has_room else "")
        named_to = right if has_room else named_to


def _flags(axis: _Axis, events: Sequence[Event]) -> Iterator[Flag]:
    """Stand the numbers of near events above one another."""
    taken_to: list[float] = []
    for x, number in sorted((axis.place(event.at), number) for number, event in enumerate(events, start=1)):
        left = _left(x, number)
        row = next((row for row, end in enumerate(taken_to) if left >= end), len(taken_to))
        taken_to[row : row + 1] = [left + _room(number)]
        yield Flag(x, _ROW_OF_NUMBERS_MM * (row + 1), number)


def _bars(axis: _Axis, judged: JudgedOpening, top: float, words: Words) -> Iterator[Bar]:
    row = 0
    for judgement in judged.judgements:
        for finding in judgement.findings:
            wait = _wait(finding)
            if wait is None:
                continue
            start, needed_h, waited_h = wait
            what = labels.subject(finding.subject, words) or words.say(labels.PARTS["bonding"])
            before = words.say(_BEFORE.get(judgement.held.rule.measure, N_("{what}")), what=what)
            note = words.say(
                N_("{needed} needed, {waited} waited"),
                needed=words.quantity(needed_h, "h"), waited=words.quantity(waited_h, "h"),
            )  # fmt: skip
            yield Bar(
                label=before,
                start=axis.place(start),
                needed=axis.place(start + timedelta(hours=needed_h)),
                went_on=axis.place(start + timedelta(hours=waited_h)),
                y=top + row * (_ROW_MM + _LABEL_MM) + _LABEL_MM,
                short=waited_h < needed_h,
                note=note,
            )
            row += 1


def _wait(finding: Finding) -> tuple[datetime, float, float] | None:
    """Give start, hours needed and hours waited of a finding that is about a wait."""
    known = {detail.name: detail.value for detail in finding.details}
    start, needed, waited = known.get("from"), known.get("needed_h"), known.get("waited_h")
    if isinstance(start, str) and isinstance(needed, float) and isinstance(waited, float):
        return datetime.fromisoformat(start), needed, waited
    return None
