"""Temperature factor of an inside surface and the surface temperature a climate asks for.

Sources: ISO 10211 and ISO 13788:2012 for the factor and the lowest surface temperature; DIN
4108-2:2013-02 for the usual criterion of 0.70 (all published, secondary source). The pane and the frame
of a window are outside that criterion, and its surface resistance of 0.25 m2K/W holds for calculation
only (from memory).

Site readings need a steady difference of 10 to 15 K between inside and outside to mean anything (common
practice).
"""

from revealbook.measures.physics.dew_point import (
    require_temperature,
    saturation_temperature_c,
    vapour_pressure_pa,
)
from revealbook.measures.physics.uncertainty import combined

MOULD = 0.8
"""Relative humidity at the surface, as a share, above which mould may grow (ISO 13788:2012)."""

CONDENSATION = 1.0
"""Relative humidity at the surface, as a share, at which water condenses."""


def _difference_k(inside_c: float, outside_c: float) -> float:
    require_temperature(inside_c, "Inside air temperature")
    require_temperature(outside_c, "Outside air temperature")
    if inside_c == outside_c:
        raise ValueError("Inside and outside air are equally warm: there is no temperature factor.")
    return inside_c - outside_c


def temperature_factor(surface_c: float, inside_c: float, outside_c: float) -> float:
    """Temperature factor fRsi = (surface - outside) / (inside - outside), without unit (ISO 10211).

    1 when the surface is as warm as the inside air, 0 when as cold as outside. Temperatures -50 to 80 degC.
    Raises ValueError outside, or when inside and outside are equally warm.
    """
    require_temperature(surface_c, "Surface temperature")
    return (surface_c - outside_c) / _difference_k(inside_c, outside_c)


def factor_uncertainty(
    surface_c: float,
    inside_c: float,
    outside_c: float,
    *,
    u_surface_k: float,
    u_inside_k: float,
    u_outside_k: float,
) -> float:
    """Standard uncertainty of the temperature factor from those of three independent readings in K.

    Law of propagation (JCGM 100:2008, 5.1.2) with exact derivatives 1/D, -f/D and (f - 1)/D, D = inside -
    outside. Raises ValueError as `temperature_factor` does, and for a negative uncertainty.
    """
    factor = temperature_factor(surface_c, inside_c, outside_c)
    difference = abs(_difference_k(inside_c, outside_c))
    return combined(u_surface_k, abs(factor) * u_inside_k, abs(factor - 1) * u_outside_k) / difference


def surface_at_factor_c(factor: float, inside_c: float, outside_c: float) -> float:
    """Surface temperature in degC that belongs to a temperature factor: its inverse.

    Shows that "fRsi at least 0.70" and "surface at least 12.6 degC" are two criteria although trade texts
    take them as one. At 20 degC inside and -5 outside: 0.70 is 12.50 degC, 12.6 degC is 0.704, and 80 %
    humidity at the surface (`required_surface_c(20, 50)`) is 12.62 degC or 0.705. A surface at 12.55 degC
    meets the first and misses the second. A rule has to say which of them it judges. Raises ValueError as
    `temperature_factor` does.
    """
    return outside_c + factor * _difference_k(inside_c, outside_c)


def required_surface_c(inside_c: float, rh_pct: float, surface_humidity: float = MOULD) -> float:
    """Lowest surface temperature in degC that keeps the humidity at the surface to a share, e.g. MOULD.

    Saturation temperature at rh psat(inside) / surface_humidity (ISO 13788:2012). Above the inside
    temperature when the air itself is more humid than the share allows. `surface_humidity` above 0 to 1.
    Raises ValueError outside.
    """
    if not 0 < surface_humidity <= 1:
        raise ValueError(
            f"Humidity at the surface must be a share above 0 and at or below 1, not {surface_humidity}."
        )
    return saturation_temperature_c(vapour_pressure_pa(inside_c, rh_pct) / surface_humidity)


def required_factor(
    inside_c: float, rh_pct: float, outside_c: float, surface_humidity: float = MOULD
) -> float:
    """Temperature factor that the inside climate asks for at an outside temperature: fRsi,min.

    Above 1 no wall can meet it; below 0 any wall does. Raises ValueError as `required_surface_c` does,
    and when inside and outside are equally warm.
    """
    required = required_surface_c(inside_c, rh_pct, surface_humidity)
    return (required - outside_c) / _difference_k(inside_c, outside_c)
