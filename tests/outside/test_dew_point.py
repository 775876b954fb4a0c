"""Dew point against two libraries that share no formula with ours, and against published values.

PsychroLib 2.5 (ASHRAE, over ice below 0.01 degC) and CoolProp 8 (IAPWS); both compute here, nothing is
frozen.
"""

import math
from functools import cache

import psychrolib
import pytest
from CoolProp.CoolProp import HAPropsSI, PropsSI

from revealbook.measures.physics.dew_point import (
    dew_point_c,
    margin_over_dew_point_k,
    margin_uncertainty_k,
    saturation_pressure_pa,
    saturation_temperature_c,
    vapour_pressure_pa,
)
from revealbook.measures.physics.uncertainty import conformance_probability

KELVIN = 273.15
GRID = [(float(air), float(rh)) for air in range(-10, 41) for rh in range(20, 100, 5)]
"""What a site may meet: -10 to 40 degC, 20 to 95 %, 816 climates."""


@pytest.fixture(autouse=True)
def _si_units() -> None:
    psychrolib.SetUnitSystem(psychrolib.SI)


@cache
def by_psychrolib(air_c: float, rh_pct: float) -> float:
    return float(psychrolib.GetTDewPointFromRelHum(air_c, rh_pct / 100))


@cache
def by_coolprop(air_c: float, rh_pct: float) -> float:
    return float(HAPropsSI("T_dp", "T", air_c + KELVIN, "P", 101325, "R", rh_pct / 100)) - KELVIN


def tolerance_k(dew_c: float) -> float:
    return 0.05 if dew_c >= 0 else 0.10


def test_dew_point_agrees_with_ashrae_over_the_whole_site_climate() -> None:
    for air_c, rh_pct in GRID:
        found = dew_point_c(air_c, rh_pct)
        assert found == pytest.approx(by_psychrolib(air_c, rh_pct), abs=tolerance_k(found)), (air_c, rh_pct)


def test_dew_point_agrees_with_iapws_over_the_whole_site_climate() -> None:
    for air_c, rh_pct in GRID:
        found = dew_point_c(air_c, rh_pct)
        assert found == pytest.approx(by_coolprop(air_c, rh_pct), abs=tolerance_k(found)), (air_c, rh_pct)


def test_the_frost_point_lies_up_to_two_kelvin_above_a_dew_point_over_water() -> None:
    """Against the Magnus formula 611.2 / 17.62 / 243.12 for water alone (published, secondary source)."""

    def over_water(air_c: float, rh_pct: float) -> float:
        y = math.log(rh_pct / 100) + 17.62 * air_c / (243.12 + air_c)
        return 243.12 * y / (17.62 - y)

    gaps = {point: dew_point_c(*point) - over_water(*point) for point in GRID}
    assert 2.0 < max(gaps.values()) < 2.2
    assert all(gap > 0 for point, gap in gaps.items() if dew_point_c(*point) < -0.5)
    assert all(abs(gap) < 0.05 for point, gap in gaps.items() if dew_point_c(*point) >= 0)


def over_supercooled_water_pa(air_c: float) -> float:
    """Murphy and Koop 2005, eq. 10: over supercooled water, 123 to 332 K (published; from memory)."""
    t = air_c + KELVIN
    return math.exp(
        54.842763
        - 6763.22 / t
        - 4.210 * math.log(t)
        + 0.000367 * t
        + math.tanh(0.0415 * (t - 218.8)) * (53.878 - 1331.22 / t - 9.44523 * math.log(t) + 0.014025 * t)
    )


def test_vapour_pressure_over_supercooled_water_agrees_with_murphy_and_koop() -> None:
    for air_c in range(-15, 1):
        found = vapour_pressure_pa(air_c, 100, "water")
        assert found == pytest.approx(over_supercooled_water_pa(air_c), rel=0.005), air_c


def test_vapour_pressure_over_supercooled_water_agrees_with_the_magnus_formula_of_wmo() -> None:
    """WMO-No. 8: 611.2 exp(17.62 T / (243.12 + T)) over water, -45 to 60 degC (published; from memory)."""
    for air_c in range(-15, 1):
        magnus = 611.2 * math.exp(17.62 * air_c / (243.12 + air_c))
        assert vapour_pressure_pa(air_c, 100, "water") == pytest.approx(magnus, rel=0.008), air_c


@pytest.mark.parametrize(("air_c", "rh_pct", "too_generous_k"), [(-3, 85, 0.34), (-8, 90, 0.88)])
def test_a_margin_in_frost_is_too_generous_where_water_is_taken_for_ice(
    air_c: float, rh_pct: float, too_generous_k: float
) -> None:
    """Values computed apart from this program; and PsychroLib's frost point of the vapour over water."""
    over_ice, over_water = (margin_over_dew_point_k(0, air_c, rh_pct, over) for over in ("ice", "water"))
    assert over_ice - over_water == pytest.approx(too_generous_k, abs=0.005)
    vapour_pa = over_supercooled_water_pa(air_c) * rh_pct / 100
    frost_c = psychrolib.GetTDewPointFromVapPres(air_c, min(vapour_pa, psychrolib.GetSatVapPres(air_c)))
    assert dew_point_c(air_c, rh_pct, "water") == pytest.approx(frost_c, abs=0.10)


def test_iapws_puts_the_same_vapour_at_the_same_frost_point() -> None:
    for air_c, rh_pct in ((-3.0, 85.0), (-8.0, 90.0), (-10.0, 60.0)):
        vapour_pa = over_supercooled_water_pa(air_c) * rh_pct / 100
        found = dew_point_c(air_c, rh_pct, "water")
        humid = HAPropsSI("P_w", "T", 20 + KELVIN, "P", 101325, "D", found + KELVIN)
        assert humid == pytest.approx(vapour_pa, rel=0.012)


def test_from_freezing_up_it_does_not_matter_what_the_humidity_refers_to() -> None:
    for air_c in (0, 0.1, 10, 30):
        assert dew_point_c(air_c, 70, "water") == dew_point_c(air_c, 70, "ice")


def test_saturation_pressure_agrees_with_ashrae() -> None:
    for air_c in range(-20, 41):
        relative = 0.003 if air_c >= 0 else 0.006
        expected = psychrolib.GetSatVapPres(float(air_c))
        assert saturation_pressure_pa(air_c) == pytest.approx(expected, rel=relative)


def test_saturation_pressure_agrees_with_iapws_above_the_triple_point() -> None:
    for air_c in range(1, 81):
        expected = PropsSI("P", "T", air_c + KELVIN, "Q", 0, "Water")
        assert saturation_pressure_pa(air_c) == pytest.approx(expected, rel=0.003)


@pytest.mark.parametrize(
    ("air_c", "pressure_pa"),
    [
        (-20, 102.740),
        (-10, 259.333),
        (-5, 401.181),
        (0, 610.500),
        (5, 871.865),
        (10, 1227.310),
        (12.6, 1458.238),
        (20, 2336.951),
        (23, 2807.810),
        (30, 4240.505),
    ],
)
def test_saturation_pressure_is_the_formula_of_iso_13788(air_c: float, pressure_pa: float) -> None:
    """ISO 13788:2012 annex E (published, secondary source), worked out by hand; -20 would be 104.23 with a
    misprint of 267.5 for 265.5 that circulates."""
    assert saturation_pressure_pa(air_c) == pytest.approx(pressure_pa, abs=0.001)
    assert saturation_temperature_c(pressure_pa) == pytest.approx(air_c, abs=2e-4)


def test_published_values_at_20_degc_and_55_pct() -> None:
    """Printed by a public program (published, secondary source), recomputed to every digit."""
    assert saturation_pressure_pa(20) == pytest.approx(2336.95114380, abs=1e-8)
    assert vapour_pressure_pa(20, 55) == pytest.approx(1285.32312909, abs=1e-8)


@pytest.mark.parametrize(
    ("air_c", "rh_pct", "dew_c"),
    [
        (20, 50, 9.2690),
        (23, 50, 12.0227),
        (10, 80, 6.7141),
        (5, 90, 3.4999),
        (30, 85, 27.1961),
        (-5, 80, -7.5814),
        (20, 20, -3.2029),
    ],
)
def test_dew_points_worked_out_by_hand(air_c: float, rh_pct: float, dew_c: float) -> None:
    """ISO 13788:2012 annex E by hand, each within the tolerance of both libraries."""
    assert dew_point_c(air_c, rh_pct) == pytest.approx(dew_c, abs=5e-5)
    assert dew_c == pytest.approx(by_psychrolib(air_c, rh_pct), abs=0.01)
    assert dew_c == pytest.approx(by_coolprop(air_c, rh_pct), abs=0.01)


@pytest.mark.parametrize(
    ("air_c", "rh_pct", "surface_c", "margin_k"),
    [
        (20, 50, 12.5, 3.2310),
        (20, 50, 12.2, 2.9310),
        (10, 80, 9.7, 2.9859),
        (5, 90, 6.5, 3.0001),
        (23, 50, 15.0, 2.9773),
    ],
)
def test_margins_on_both_sides_of_three_kelvin(
    air_c: float, rh_pct: float, surface_c: float, margin_k: float
) -> None:
    """The 3 K of ISO 8502-4 (published, secondary source; for paint on steel), margins by hand."""
    found = margin_over_dew_point_k(surface_c, air_c, rh_pct)
    assert found == pytest.approx(margin_k, abs=5e-5)
    assert (found >= 3) == (margin_k >= 3)


def test_instruments_blur_the_margin_as_shifting_them_does() -> None:
    """At 10 degC and 80 %: 2 % of humidity moves the dew point by +0.359 or -0.367 K, 0.5 K by 0.487 K."""
    assert dew_point_c(10, 82) - dew_point_c(10, 80) == pytest.approx(0.359, abs=5e-4)
    assert dew_point_c(10, 78) - dew_point_c(10, 80) == pytest.approx(-0.367, abs=5e-4)
    humidity = margin_uncertainty_k(10, 80, u_surface_k=0, u_air_k=0, u_rh_pct=2)
    assert humidity == pytest.approx((0.359 + 0.367) / 2, abs=1e-3)
    assert margin_uncertainty_k(10, 80, u_surface_k=0, u_air_k=0.5, u_rh_pct=0) == pytest.approx(
        0.487, abs=5e-4
    )
    # the last-digit margin above, 2.9859 K, is then anybody's guess
    u = margin_uncertainty_k(10, 80, u_surface_k=0.3, u_air_k=0.5, u_rh_pct=2)
    assert 0.45 < conformance_probability(2.9859, u, lower=3.0) < 0.5
