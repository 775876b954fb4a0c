"""How long a product needs to set in a climate, read from the table its supplier gives.

The hours are data-sheet-type values and belong to one product; only the reading of the table stands here.
It is honest inside the climates that the supplier states and refuses outside them: nothing is
extrapolated.
"""

import math
from bisect import bisect_left
from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass, field
from itertools import pairwise, product
from typing import NamedTuple

from revealbook.measures.physics.climate import Course
from revealbook.measures.physics.dew_point import require_humidity, require_temperature

Range = tuple[float, float]
"""The lowest and the highest value that a quantity may have had."""


class OutsideTable(ValueError):  # noqa: N818 - named for what happened, as a reader meets it
    """A climate outside what a product's table states; `what`, `unit`, `value`, `low`, `high` say how."""

    def __init__(self, what: str, unit: str, value: float, low: float, high: float) -> None:
        super().__init__(
            f"{what} of {value:g} {unit} lies outside the product's table, {low:g} to {high:g} {unit}."
        )
        self.what, self.unit, self.value, self.low, self.high = what, unit, value, low, high


class CureRow(NamedTuple):
    """One line of a product's table: the hours needed at an air temperature and, where stated, a humidity."""

    air_c: float
    rh_pct: float | None
    hours: float


class ClimateReading(NamedTuple):
    """The air at a moment, in hours from the product's application; the humidity may be unknown."""

    hours: float
    air_c: float
    rh_pct: float | None = None


def _require_row(row: CureRow) -> None:
    require_temperature(row.air_c, "Air temperature in a cure table")
    if row.rh_pct is not None:
        require_humidity(row.rh_pct)
    if not (math.isfinite(row.hours) and row.hours > 0):
        raise ValueError(f"A cure table's hours must be more than zero, not {row.hours}.")


@dataclass(frozen=True, slots=True)
class CureTable:
    """A product's hours against climate: by temperature alone, or a full grid of temperature and humidity.

    Made from rows (air_c, rh_pct or None, hours). One row is allowed and then answers for its own climate
    only.

    Raises:
        ValueError: no row, hours not positive, a climate stated twice, a humidity stated in some rows
        only, or a
            gap in the grid.
    """

    rows: tuple[CureRow, ...]
    temperatures_c: tuple[float, ...] = field(init=False, repr=False, compare=False)
    humidities_pct: tuple[float, ...] = field(init=False, repr=False, compare=False)
    """Empty when the table does not go by humidity."""

    def __post_init__(self) -> None:
        rows = tuple(CureRow(*row) for row in self.rows)
        for row in rows:
            _require_row(row)
        temperatures = {row.air_c for row in rows}
        humidities = {row.rh_pct for row in rows}
        stated = {rh for rh in humidities if rh is not None}
        if stated and None in humidities:
            raise ValueError("Some rows of the cure table state a humidity and others do not.")
        if len({row[:2] for row in rows}) < len(rows):
            raise ValueError("The cure table states one climate twice.")
        if not rows or len(rows) < len(temperatures) * len(humidities):
            raise ValueError(
                "The cure table must state hours for every pair of its temperatures and humidities."
            )
        object.__setattr__(self, "rows", rows)
        object.__setattr__(self, "temperatures_c", tuple(sorted(temperatures)))
        object.__setattr__(self, "humidities_pct", tuple(sorted(stated)))

    def hours_needed(self, air_c: float, rh_pct: float | None = None) -> float:
        """Hours needed in one steady climate, read between the table's rows.

        Linear in temperature, and in humidity where the table goes by it. Hours fall ever more slowly
        with warmth, so a straight line between two rows errs on the long side. A humidity given to a
        table without humidity is left aside.

        Raises:
            OutsideTable: the climate lies outside the table's temperatures or humidities.
            ValueError: the table goes by humidity and none is known.
        """
        warm = _neighbours(self.temperatures_c, air_c, "Air temperature", "degC")
        if not self.humidities_pct:
            return sum(a * self._stated(air, None) for air, a in warm)
        if rh_pct is None:
            raise ValueError("The cure table goes by humidity, and none is known.")
        damp = _neighbours(self.humidities_pct, rh_pct, "Relative humidity", "%")
        return sum(a * b * self._stated(air, rh) for air, a in warm for rh, b in damp)

    def most_hours(self, air_c: Range, rh_pct: Range | None = None) -> float:
        """Most hours needed in any climate from the coldest to the warmest and the driest to the dampest.

        A climate warmer than the table counts as its warmest line: warmth does not slow it down.

        Raises:
            OutsideTable: the coldest air, or any humidity, lies outside the table.
        """
        low, high = air_c
        return max(self._within(low, max(low, min(high, self.temperatures_c[-1])), rh_pct))

    def least_hours(self, air_c: Range, rh_pct: Range | None = None) -> float:
        """Fewest hours needed in any climate of such a range.

        A climate colder than the table counts as its coldest line: cold does not speed it up.

        Raises:
            OutsideTable: the warmest air, or any humidity, lies outside the table.
        """
        low, high = (max(end, self.temperatures_c[0]) for end in air_c)
        return min(self._within(low, high, rh_pct))

    def _within(self, low_c: float, high_c: float, rh_pct: Range | None) -> Iterator[float]:
        """Hours at the corners of a range and at the table's lines in it: straight in between."""
        if low_c == high_c and (rh_pct is None or rh_pct[0] == rh_pct[1]):
            yield self.hours_needed(low_c, rh_pct[0] if rh_pct else None)
            return
        damp = _nodes(self.humidities_pct, *rh_pct) if rh_pct and self.humidities_pct else (None,)
        for air, rh in product(_nodes(self.temperatures_c, low_c, high_c), damp):
            yield self.hours_needed(air, rh)

    def _stated(self, air_c: float, rh_pct: float | None) -> float:
        return next(row.hours for row in self.rows if row.air_c == air_c and row.rh_pct == rh_pct)


def _nodes(axis: Sequence[float], low: float, high: float) -> Iterator[float]:
    """Both ends of a range, and what the table states between them."""
    yield from dict.fromkeys((low, *(value for value in axis if low < value < high), high))


def _neighbours(axis: Sequence[float], value: float, what: str, unit: str) -> list[tuple[float, float]]:
    """The stated value, or the two around it, each with its weight."""
    if not axis[0] <= value <= axis[-1]:
        raise OutsideTable(what, unit, value, axis[0], axis[-1])
    above = bisect_left(axis, value)
    if axis[above] == value:
        return [(value, 1.0)]
    low, high = axis[above - 1], axis[above]
    share = (value - low) / (high - low)
    return [(low, 1 - share), (high, share)]


def hours_until_cured(table: CureTable, readings: Iterable[ClimateReading]) -> float:
    """Hours from application until the product had set in a changing climate.

    Degree of cure, a model without a published source: every moment adds dt / hours needed then, and at 1
    the product has set; in a steady climate that is the table itself. The climate runs straight between
    readings and stays constant before the first and after the last: compare the answer with the last
    reading's hours to see whether it rests on weather nobody read. Readings in any order. Numerical error
    below 1e-4 of the answer.

    Raises:
        OutsideTable: the climate left the table before the product had set.
        ValueError: no reading, two at one moment, or a humidity is missing where the table goes by it.
    """
    taken = [ClimateReading(*reading) for reading in readings]
    air = Course((reading.hours, reading.air_c) for reading in taken)
    damp = _humidity_course(taken) if table.humidities_pct else None

    def rate(hours: float) -> float:
        return 1 / table.hours_needed(air.at(hours), damp.at(hours) if damp else None)

    return hours_until(rate, _moments(table, air, damp))


def hours_until(rate: Callable[[float], float], moments: Sequence[float]) -> float:
    """Hours from application until the degree of cure, gained at a rate per hour, reaches 1.

    Args:
        rate: cure gained per hour at a moment in hours from application.
        moments: where to step by, rising from 0; after the last one the rate stays what it was then.
    """
    degree = 0.0
    for low, high in _panels(moments):
        gained = _gain(rate, low, high)
        if degree + gained >= 1:
            return _moment_of_gain(rate, low, high, 1 - degree)
        degree += gained
    return moments[-1] + (1 - degree) / rate(moments[-1])


def _humidity_course(readings: Sequence[ClimateReading]) -> Course:
    known = [(reading.hours, reading.rh_pct) for reading in readings if reading.rh_pct is not None]
    if len(known) < len(readings):
        raise ValueError("The cure table goes by humidity, and a reading does not state it.")
    return Course(known)


def _moments(table: CureTable, air: Course, damp: Course | None) -> list[float]:
    """Application and every later moment at which the rate of cure has a kink, in order."""
    kinks = [reading.hours for reading in air.readings]
    kinks += [hours for air_c in table.temperatures_c for hours in air.moments_of(air_c)]
    if damp:
        kinks += [hours for rh_pct in table.humidities_pct for hours in damp.moments_of(rh_pct)]
    return sorted({0.0, *(hours for hours in kinks if hours > 0)})


def _panels(moments: Sequence[float], panels: int = 32) -> Iterator[tuple[float, float]]:
    for low, high in pairwise(moments):
        step = (high - low) / panels
        yield from ((low + step * k, low + step * (k + 1)) for k in range(panels))


def _gain(rate: Callable[[float], float], low: float, high: float) -> float:
    """Cure gained over a short time.

    Two-point Gauss: it never asks for the ends, where the table may end too.
    """
    middle, reach = (low + high) / 2, (high - low) / 2 / math.sqrt(3)
    return (high - low) / 2 * (rate(middle - reach) + rate(middle + reach))


def _moment_of_gain(rate: Callable[[float], float], low: float, high: float, wanted: float) -> float:
    """The moment in a short time by which the cure gained reaches `wanted`, by halving."""
    early, late = low, high
    for _ in range(50):
        middle = (early + late) / 2
        early, late = (middle, late) if _gain(rate, low, middle) < wanted else (early, middle)
    return late
