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
_DAY_STARTS, _DAY_ENDS = time(6), time(20)
_ROW_MM = 5.5
_NUMBER_MM = 4.4
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
    """A day on the axis: where its hours start and end, and its date."""

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
    def half(self) -> float:
        """Half the room that its number takes."""
        return _NUMBER_MM * 0.4

    @property
    def anchor(self) -> str:
        """How its number stands at the place: inwards at the ends of the axis."""
        return (
            "start" if self.x < _NUMBER_MM / 2 else "end" if self.x > WIDTH_MM - _NUMBER_MM / 2 else "middle"
        )


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
            for _, of_day in groupby((one.astimezone(zone) for one in moments), key=datetime.date)
        ]
        self.spans = [_span(of_day) for of_day in days]
        free = WIDTH_MM - _BREAK_MM * (len(days) - 1)
        share = free / sum((end - start).total_seconds() for start, end in self.spans)
        self.knots: list[tuple[float, float]] = []
        x = 0.0
        for start, end in self.spans:
            self.knots.append((start.timestamp(), x))
            x += (end - start).total_seconds() * share
            self.knots.append((end.timestamp(), x))
            x += _BREAK_MM

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
    return start, end


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
    axis_y = max((flag.y for flag in flags), default=0.0) + _NUMBER_MM
    bars = tuple(_bars(axis, judged, axis_y + _AXIS_MM, words))
    ticks = tuple(Tick(axis.place(start), axis.place(end), words.day(start)) for start, end in axis.spans)
    short = sum(bar.short for bar in bars)
    title = words.say(
        N_("Time chart: {events} events on {days} days, {waits} waits, {short} of them too short"),
        events=len(flags), days=len(ticks), waits=len(bars), short=short,
    )  # fmt: skip
    caption = words.say(_CAPTION)
    height = axis_y + _AXIS_MM + (_ROW_MM + _LABEL_MM) * len(bars)
    return TimeChart(WIDTH_MM, height, axis_y, ticks, flags, bars, title, caption)


def _flags(axis: _Axis, events: Sequence[Event]) -> Iterator[Flag]:
    """Stand the numbers of near events above one another."""
    last_in_row: list[float] = []
    for number, event in enumerate(events, start=1):
        x = axis.place(event.at)
        row = next((row for row, last in enumerate(last_in_row) if x - last >= _NUMBER_MM), len(last_in_row))
        last_in_row[row : row + 1] = [x]
        yield Flag(x, _NUMBER_MM * (row + 1), number)


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
