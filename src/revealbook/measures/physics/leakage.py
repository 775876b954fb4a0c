"""Air leakage through a joint or a window: the power law q = C dp^n through readings at several pressures.

Source: EN ISO 9972:2015, annex C (least squares on logarithms; clause and validity limits from memory),
confidence intervals from the t distribution with N - 2 degrees of freedom (textbook).
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import NamedTuple

from revealbook.measures.physics.dew_point import require_temperature

_REFERENCE_K = 293.0
_REFERENCE_KPA = 101.3
_ZERO_C_K = 273.15
_LEAST_READINGS = 3
"""Two readings always lie on a line and say nothing about the scatter."""


class LeakageReading(NamedTuple):
    """Air flow in m3/h at a pressure difference in Pa."""

    pressure_pa: float
    flow_m3_h: float


class Interval(NamedTuple):
    """The two ends of a 95 % confidence interval."""

    low: float
    high: float


class FlowEstimate(NamedTuple):
    """Flow in m3/h that the fitted law gives at a pressure, with its 95 % confidence interval."""

    flow_m3_h: float
    interval: Interval
    extrapolated: bool
    """Whether the pressure lies outside those read; the interval then rests on the law holding there too."""


def _t_quantile(degrees: int) -> float:
    # scipy.special alone, and only here: scipy.stats takes most of a second that no other command needs
    from scipy.special import stdtrit  # noqa: PLC0415

    return float(stdtrit(degrees, 0.975))


@dataclass(frozen=True, slots=True)
class PowerLaw:
    """A fitted law q = C dp^n, q in m3/h and dp in Pa."""

    coefficient: float
    """C in m3/(h Pa^n)."""
    exponent: float
    """n, without unit."""
    r_squared: float
    """Coefficient of determination of the logarithms."""
    s_exponent: float
    """Standard error of n."""
    s_ln_coefficient: float
    """Standard error of ln C."""
    readings: tuple[LeakageReading, ...]
    """The readings fitted, by rising pressure."""

    @property
    def t_quantile(self) -> float:
        """Two-sided 95 % quantile of Student's t for these readings."""
        return _t_quantile(len(self.readings) - 2)

    @property
    def exponent_interval(self) -> Interval:
        """95 % confidence interval of n."""
        reach = self.t_quantile * self.s_exponent
        return Interval(self.exponent - reach, self.exponent + reach)

    @property
    def coefficient_interval(self) -> Interval:
        """95 % confidence interval of C."""
        reach = math.exp(self.t_quantile * self.s_ln_coefficient)
        return Interval(self.coefficient / reach, self.coefficient * reach)

    @property
    def valid(self) -> bool:
        """Whether the fit may be relied on: 0.5 <= n <= 1 and r2 >= 0.98 (EN ISO 9972:2015, from memory).

        Outside, the readings say that something else happened: a leak that opened, a zero offset, gusts.
        """
        return 0.5 <= self.exponent <= 1 and self.r_squared >= 0.98  # noqa: PLR2004 - the limits named above

    def flow_at(self, pressure_pa: float) -> FlowEstimate:
        """Flow in m3/h at a pressure in Pa with its 95 % confidence interval.

        Raises ValueError for a pressure that is not positive.
        """
        _require_positive(pressure_pa, "Pressure difference in Pa")
        x = math.log(pressure_pa)
        mean_x, sum_xx = _spread([math.log(reading.pressure_pa) for reading in self.readings])
        residual = self.s_exponent * math.sqrt(sum_xx)
        reach = math.exp(
            self.t_quantile * residual * math.sqrt(1 / len(self.readings) + (x - mean_x) ** 2 / sum_xx)
        )
        flow = self.coefficient * pressure_pa**self.exponent
        lowest, highest = self.readings[0].pressure_pa, self.readings[-1].pressure_pa
        return FlowEstimate(flow, Interval(flow / reach, flow * reach), not lowest <= pressure_pa <= highest)


def reference_flow_factor(air_c: float | None = None, pressure_kpa: float | None = None) -> float:
    """Factor from an air flow as metered to that at 293 K and 101.3 kPa: 293 / T x p / 101.3.

    EN 1026:2016, from memory. 1.0377 for air of 0 degC at 98.0 kPa.

    Args:
        air_c: temperature of the metered air, -50 to 80 degC; None leaves its share out.
        pressure_kpa: its absolute pressure, 50 to 110 kPa; None leaves its share out.

    Raises:
        ValueError: outside these.
    """
    factor = 1.0
    if air_c is not None:
        require_temperature(air_c, "Temperature of the metered air")
        factor *= _REFERENCE_K / (air_c + _ZERO_C_K)
    if pressure_kpa is not None:
        if not 50 <= pressure_kpa <= 110:  # noqa: PLR2004 - the range stated above
            raise ValueError(f"The pressure of the air must be 50 to 110 kPa, not {pressure_kpa}.")
        factor *= pressure_kpa / _REFERENCE_KPA
    return factor


def _require_positive(value: float, what: str) -> None:
    if not (math.isfinite(value) and value > 0):
        raise ValueError(f"{what} must be more than zero, not {value}.")


def _spread(values: Sequence[float]) -> tuple[float, float]:
    """Mean, and sum of squares about it."""
    mean = math.fsum(values) / len(values)
    return mean, math.fsum((value - mean) ** 2 for value in values)


def fit_power_law(readings: Sequence[tuple[float, float]]) -> PowerLaw:
    """Fit q = C dp^n to (pressure_pa, flow_m3_h) readings by least squares of ln q on ln dp.

    Pressures and flows are magnitudes, zero-flow offset already taken off: 2 Pa left in at 10 to 60 Pa
    moves n by 0.05. At least three readings (the standard asks for five, from memory).

    Raises:
        ValueError: fewer than three readings, one not positive, all at one pressure, or all of one flow.
    """
    if len(readings) < _LEAST_READINGS:
        raise ValueError(f"At least {_LEAST_READINGS} readings are needed for a fit, not {len(readings)}.")
    taken = tuple(LeakageReading(*reading) for reading in sorted(readings))
    for reading in taken:
        _require_positive(reading.pressure_pa, "Pressure difference in Pa")
        _require_positive(reading.flow_m3_h, "Air flow in m3/h")
    if taken[0].pressure_pa == taken[-1].pressure_pa:
        raise ValueError("All readings are at one pressure; a fit needs several.")
    if len({reading.flow_m3_h for reading in taken}) == 1:
        raise ValueError("All readings show one flow; there is no law to fit.")
    return _least_squares(taken)


def _least_squares(readings: tuple[LeakageReading, ...]) -> PowerLaw:
    xs = [math.log(reading.pressure_pa) for reading in readings]
    ys = [math.log(reading.flow_m3_h) for reading in readings]
    mean_x, sum_xx = _spread(xs)
    mean_y, sum_yy = _spread(ys)
    n = math.fsum((x - mean_x) * (y - mean_y) for x, y in zip(xs, ys, strict=True)) / sum_xx
    ln_c = mean_y - n * mean_x
    left = math.fsum((y - ln_c - n * x) ** 2 for x, y in zip(xs, ys, strict=True))
    s_n = math.sqrt(left / (len(xs) - 2) / sum_xx)
    return PowerLaw(
        coefficient=math.exp(ln_c),
        exponent=n,
        r_squared=1 - left / sum_yy,
        s_exponent=s_n,
        s_ln_coefficient=s_n * math.sqrt(sum_xx / len(xs) + mean_x**2),
        readings=readings,
    )
