"""Dated readings taken as one continuous course: straight between readings, constant outside them.

The course is a model of weather nobody watched; with one reading it is that reading throughout. How far a
finding may lean on it is for the caller to weigh: the readings' hours say what was really seen. Source:
textbook.
"""

import math
from bisect import bisect_left
from collections.abc import Iterable
from itertools import pairwise
from typing import NamedTuple

A_MOMENT_H = 1 / 3600
"""Nothing at the wall is dated closer than a second: a shorter time has no mean, only the value then."""


class Dated(NamedTuple):
    """A value read at a moment, in hours from whatever the caller counts from; any unit."""

    hours: float
    value: float


class Course:
    """The continuous course of a quantity through its dated readings.

    Readings are (hours, value) in any order. Raises ValueError when there is none, one is not finite, or
    two share a moment.
    """

    __slots__ = ("readings",)

    def __init__(self, readings: Iterable[tuple[float, float]]) -> None:
        self.readings = tuple(Dated(*reading) for reading in sorted(readings))
        if not self.readings:
            raise ValueError("At least one dated reading is needed.")
        if not all(math.isfinite(number) for reading in self.readings for number in reading):
            raise ValueError("Dated readings must be numbers.")
        for earlier, later in pairwise(self.readings):
            if earlier.hours == later.hours:
                raise ValueError(f"Two readings share the moment {earlier.hours:g} h.")

    def at(self, hours: float) -> float:
        """The value at a moment: linear between neighbouring readings, the nearest one outside them.

        Raises ValueError for a moment that is no number.
        """
        if not math.isfinite(hours):
            raise ValueError(f"The moment must be a number of hours, not {hours}.")
        index = bisect_left(self.readings, hours, key=lambda reading: reading.hours)
        if index == len(self.readings):
            return self.readings[-1].value
        later = self.readings[index]
        if index == 0 or later.hours == hours:
            return later.value
        earlier = self.readings[index - 1]
        share = (hours - earlier.hours) / (later.hours - earlier.hours)
        # in this form two equal readings give exactly their value, which may stand on the edge of a table
        return earlier.value + share * (later.value - earlier.value)

    def moments_of(self, value: float) -> tuple[float, ...]:
        """The hours at which the course passes through a value between two readings, earliest first."""
        return tuple(
            a.hours + (value - a.value) / (b.value - a.value) * (b.hours - a.hours)
            for a, b in pairwise(self.readings)
            if min(a.value, b.value) < value < max(a.value, b.value)
        )

    def mean_between(self, start_h: float, end_h: float) -> float:
        """Time-weighted mean from one moment to another; over less than a second, the value at its start.

        In the readings' unit. Exact for this course (trapezoids). Raises ValueError when the end lies
        before the start.
        """
        if not (math.isfinite(start_h) and math.isfinite(end_h)) or end_h < start_h:
            raise ValueError(f"The time from {start_h} h to {end_h} h does not run forwards.")
        if end_h - start_h < A_MOMENT_H:
            return self.at(start_h)
        inside = [reading.hours for reading in self.readings if start_h < reading.hours < end_h]
        points = [Dated(hours, self.at(hours)) for hours in (start_h, *inside, end_h)]
        area = sum((b.hours - a.hours) * (a.value + b.value) / 2 for a, b in pairwise(points))
        return area / (end_h - start_h)
