"""Saturation pressure, dew point and the margin of a surface over it.

Source: ISO 13788:2012, annex E, both branches (published, secondary source).

Below 0 degC "dew point" here means the frost point, over ice, as ISO 13788 has it. It lies up to 2 K
above the dew point over supercooled water that many meters display, so a margin over it is the stricter
of the two. Enter a meter's air temperature and humidity, not its own dew point. Most meters refer their
humidity to water also below 0 degC (WMO-No. 8; from memory): that air holds more vapour than the same
figure over ice says, so it matters what an instrument refers to.
"""

import math
from typing import Literal, NamedTuple

from revealbook.measures.physics.uncertainty import combined

LOWEST_C = -50.0
HIGHEST_C = 80.0
"""Temperatures outside these are no reading from a building site and are refused."""

_TRIPLE_PRESSURE_PA = 610.5


class _Branch(NamedTuple):
    """One branch of psat = 610.5 exp(a T / (b + T))."""

    a: float
    b_c: float

    def pressure_pa(self, temperature_c: float) -> float:
        return _TRIPLE_PRESSURE_PA * math.exp(self.a * temperature_c / (self.b_c + temperature_c))

    def temperature_c(self, pressure_pa: float) -> float:
        y = math.log(pressure_pa / _TRIPLE_PRESSURE_PA)
        return self.b_c * y / (self.a - y)

    def slope_pa_k(self, temperature_c: float) -> float:
        return self.pressure_pa(temperature_c) * self.a * self.b_c / (self.b_c + temperature_c) ** 2


_WATER = _Branch(17.269, 237.3)
_ICE = _Branch(21.875, 265.5)


Phase = Literal["water", "ice"]
"""What a relative humidity below 0 degC is a share of: saturation over supercooled water, or over ice."""


def _branch(temperature_c: float) -> _Branch:
    return _WATER if temperature_c >= 0 else _ICE


def require_temperature(temperature_c: float, what: str) -> None:
    """Raise ValueError unless the temperature is a number from LOWEST_C to HIGHEST_C; `what` names it."""
    if not LOWEST_C <= temperature_c <= HIGHEST_C:
        raise ValueError(f"{what} must lie from {LOWEST_C:g} to {HIGHEST_C:g} degC, not {temperature_c}.")


def require_humidity(rh_pct: float) -> None:
    """Raise ValueError unless the relative humidity is more than 0 and at most 100 per cent."""
    if not 0 < rh_pct <= 100:  # noqa: PLR2004 - the whole, in per cent
        raise ValueError(f"Relative humidity must lie above 0 and at or below 100 %, not {rh_pct}.")


def saturation_pressure_pa(air_c: float) -> float:
    """Saturation pressure of water vapour in Pa at -50 to 80 degC: over water from 0 degC up, over ice below.

    610.5 exp(17.269 T / (237.3 + T)), below zero 610.5 exp(21.875 T / (265.5 + T)); ISO 13788:2012, annex
    E. Raises ValueError outside the range.
    """
    require_temperature(air_c, "Air temperature")
    return _branch(air_c).pressure_pa(air_c)


def saturation_temperature_c(pressure_pa: float) -> float:
    """Temperature in degC at which the vapour pressure saturates: the inverse of `saturation_pressure_pa`.

    The branch follows the pressure, not the air: warm dry air may well have a frost point. Any positive
    pressure up to saturation at 80 degC (about 47 kPa) is accepted. Raises ValueError outside.
    """
    highest = _WATER.pressure_pa(HIGHEST_C)
    if not 0 < pressure_pa <= highest:
        raise ValueError(
            f"Vapour pressure must lie above 0 and at or below {highest:.0f} Pa, not {pressure_pa}."
        )
    branch = _WATER if pressure_pa >= _TRIPLE_PRESSURE_PA else _ICE
    return branch.temperature_c(pressure_pa)


def vapour_pressure_pa(air_c: float, rh_pct: float, over: Phase = "ice") -> float:
    """Partial pressure of water vapour in Pa of air at -50 to 80 degC and above 0 to 100 % relative humidity.

    psat rh / 100 (definition). Below 0 degC `over` says what the humidity refers to; over water, the branch
    for water is continued to supercooled water (within 0.5 % of Murphy and Koop 2005 down to -15 degC).
    Raises ValueError outside the ranges.
    """
    require_humidity(rh_pct)
    require_temperature(air_c, "Air temperature")
    return _referred_to(air_c, over).pressure_pa(air_c) * rh_pct / 100


def _referred_to(air_c: float, over: Phase) -> _Branch:
    return _WATER if over == "water" else _branch(air_c)


def dew_point_c(air_c: float, rh_pct: float, over: Phase = "ice") -> float:
    """Dew point in degC of air, below zero the frost point.

    ISO 13788:2012, annex E; air at -50 to 80 degC and above 0 to 100 % relative humidity, which below 0 degC
    is one over water or over ice. Within 0.05 K of two independent formulations from 0 degC up and 0.10 K
    below, for air at -10 to 40 degC and 20 to 95 %. Raises ValueError outside the ranges.
    """
    return saturation_temperature_c(vapour_pressure_pa(air_c, rh_pct, over))


def margin_over_dew_point_k(surface_c: float, air_c: float, rh_pct: float, over: Phase = "ice") -> float:
    """By how many kelvin a surface is warmer than the dew point of the air; negative means condensation.

    The margin asked for (3 K in ISO 8502-4, there for paint on steel) is a matter of the rules.
    Temperatures -50 to 80 degC, humidity above 0 to 100 %. Raises ValueError outside the ranges.
    """
    require_temperature(surface_c, "Surface temperature")
    return surface_c - dew_point_c(air_c, rh_pct, over)


def margin_uncertainty_k(
    air_c: float,
    rh_pct: float,
    *,
    u_surface_k: float,
    u_air_k: float,
    u_rh_pct: float,
    over: Phase = "ice",
) -> float:
    """Standard uncertainty in K of the margin, from those of the surface, air and humidity readings.

    The three are taken as independent. Law of propagation (JCGM 100:2008, 5.1.2) with the exact
    derivatives of the dew point; it does not depend on the surface temperature. `u_rh_pct` is in
    percentage points. On the kink at a dew point of 0 degC the slope over water is used. Raises
    ValueError for a negative uncertainty or a climate outside the ranges.
    """
    dew_c = dew_point_c(air_c, rh_pct, over)
    dew_slope = _branch(dew_c).slope_pa_k(dew_c)
    air = _referred_to(air_c, over)
    per_air_k = air.slope_pa_k(air_c) * rh_pct / 100 / dew_slope
    per_rh_pct = air.pressure_pa(air_c) / 100 / dew_slope
    return combined(u_surface_k, per_air_k * u_air_k, per_rh_pct * u_rh_pct)
