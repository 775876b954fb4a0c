"""What a quantity of the weather may have been: its course where it was read, bounds where nobody read it.

From every reading it can have moved away no faster than a stated change per hour, and it never left a stated
lowest and highest value. Each reading only narrows the bounds, so taking one away only widens them. Model:
engineering judgement; the method of the rule set states its numbers.
"""

from bisect import bisect_right
from collections.abc import Callable, Iterable, Sequence
from itertools import pairwise
from typing import NamedTuple

from revealbook.measures.physics.climate import Course


class Limits(NamedTuple):
    """How far a quantity can go while nobody reads it: lowest, highest, and change per hour; any unit."""

    lowest: float
    highest: float
    change_per_h: float


class Near(NamedTuple):
    """What a reading says of the quantity at its moment (hours): from `low` to `high`."""

    hours: float
    low: float
    high: float


class Bounds:
    """The lowest and highest value still possible at each moment, from dated readings.

    Args:
        readings: what was read; equal ends for a reading at the place itself, apart for one taken near it.
        limits: what holds without any reading.
    """

    __slots__ = ("_highs", "_hours", "_limits", "_lows")

    def __init__(self, readings: Iterable[Near], limits: Limits) -> None:
        ordered = sorted(readings)
        self._limits = limits
        self._hours = [reading.hours for reading in ordered]
        self._lows = self._tightened([reading.low for reading in ordered], max, -limits.change_per_h)
        self._highs = self._tightened([reading.high for reading in ordered], min, limits.change_per_h)

    def _tightened(
        self, values: list[float], nearer: Callable[[float, float], float], change_per_h: float
    ) -> list[float]:
        """Let every reading bear on all others: forwards, then backwards."""
        for order in (range(1, len(values)), range(len(values) - 2, -1, -1)):
            for here in order:
                beside = here - order.step
                reach = change_per_h * abs(self._hours[here] - self._hours[beside])
                values[here] = nearer(values[here], values[beside] + reach)
        return values

    def at(self, hours: float) -> tuple[float, float]:
        """Give the lowest and the highest value possible at a moment.

        Where readings contradict each other - one would have had to change faster than the limits allow -
        the bounds reach from one to the other.
        """
        after = bisect_right(self._hours, hours)
        low, high = self._limits.lowest, self._limits.highest
        for index in (after - 1, after):
            if 0 <= index < len(self._hours):
                reach = self._limits.change_per_h * abs(hours - self._hours[index])
                low = max(low, self._lows[index] - reach)
                high = min(high, self._highs[index] + reach)
        return min(low, high), max(low, high)


class Band:
    """A quantity from reading to reading: one value where it was read, bounds where it was not.

    Args:
        read: readings at the place itself, as (hours, value); at least one.
        unread: the stretches (from, to) in hours during which nobody read it; -inf and inf are open ends.
        bounds: what holds in these.
    """

    __slots__ = ("bounds", "course", "unread")

    def __init__(
        self, read: Iterable[tuple[float, float]], unread: Sequence[tuple[float, float]], bounds: Bounds
    ) -> None:
        self.course = Course(read)
        self.unread = tuple(unread)
        self.bounds = bounds

    def is_read(self, hours: float) -> bool:
        """Whether the quantity is known at a moment; the ends of an unread stretch were read."""
        return not any(start < hours < end for start, end in self.unread)

    def at(self, hours: float) -> tuple[float, float]:
        """Give the lowest and the highest value possible at a moment; the same where it was read."""
        if self.is_read(hours):
            value = self.course.at(hours)
            return value, value
        return self.bounds.at(hours)

    def moments(self, longest_h: float = 16.0) -> list[float]:
        """Readings, and moments in between so that none are further apart than `longest_h`, to step by."""
        found = [reading.hours for reading in self.course.readings]
        for start, end in pairwise(tuple(found)):
            steps = int((end - start) // longest_h)
            found += [start + (end - start) * step / (steps + 1) for step in range(1, steps + 1)]
        return sorted(found)


def unread_hours(unread: Sequence[tuple[float, float]], end_h: float) -> float:
    """How many hours from 0 to `end_h` lie in unread stretches."""
    return sum(max(0.0, min(end, end_h) - max(start, 0.0)) for start, end in unread)
