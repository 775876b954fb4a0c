"""Saturation pressure, dew point and the margin of a surface over it."""

import math

import pytest

from revealbook.measures.physics.dew_point import (
    dew_point_c,
    margin_over_dew_point_k,
    margin_uncertainty_k,
    saturation_pressure_pa,
    saturation_temperature_c,
    vapour_pressure_pa,
)


def test_worked_example_of_a_cool_damp_morning() -> None:
    """The example in docs/calculations/moisture.md, step by step."""
    assert saturation_pressure_pa(10) == pytest.approx(1227.310, abs=5e-4)
    assert vapour_pressure_pa(10, 80) == pytest.approx(981.848, abs=5e-4)
    assert dew_point_c(10, 80) == pytest.approx(6.7141, abs=5e-5)
    assert margin_over_dew_point_k(9.7, 10, 80) == pytest.approx(2.9859, abs=5e-5)
    u = margin_uncertainty_k(10, 80, u_surface_k=0.3, u_air_k=0.3, u_rh_pct=1.2)
    assert u == pytest.approx(0.4720, abs=5e-5)


def test_dew_point_rises_with_humidity() -> None:
    points = [dew_point_c(20, rh) for rh in (20, 40, 60, 80, 100)]
    assert points == sorted(points)
    assert points[-1] - points[0] > 20


def test_saturated_air_is_at_its_dew_point() -> None:
    assert dew_point_c(17.3, 100) == pytest.approx(17.3)
    assert dew_point_c(-7.3, 100) == pytest.approx(-7.3)


def test_the_branch_follows_the_vapour_pressure_and_not_the_air() -> None:
    """Warm dry air has a frost point; over water the answer would be -3.65 (from a water-only formula)."""
    assert dew_point_c(20, 20) == pytest.approx(-3.2029, abs=5e-5)


def test_both_branches_meet_at_zero() -> None:
    assert saturation_pressure_pa(0) == 610.5
    assert saturation_temperature_c(610.5) == 0.0
    assert saturation_pressure_pa(-1e-9) == pytest.approx(610.5)


def test_ice_holds_less_vapour_over_it_than_water_would() -> None:
    over_water = 610.5 * math.exp(17.269 * -10 / (237.3 - 10))
    assert saturation_pressure_pa(-10) < 0.92 * over_water


def test_a_surface_colder_than_the_dew_point_has_a_negative_margin() -> None:
    assert margin_over_dew_point_k(9.0, 20, 50) == pytest.approx(-0.2690, abs=5e-5)


def _by_differences(air_c: float, rh_pct: float, us: float, ua: float, urh: float) -> float:
    """The same uncertainty without a derivative: by central differences of the margin itself."""
    h = 1e-4

    def margin(surface: float, air: float, rh: float) -> float:
        return margin_over_dew_point_k(surface, air, rh)

    per_surface = (margin(10 + h, air_c, rh_pct) - margin(10 - h, air_c, rh_pct)) / (2 * h)
    per_air = (margin(10, air_c + h, rh_pct) - margin(10, air_c - h, rh_pct)) / (2 * h)
    per_rh = (margin(10, air_c, rh_pct + h) - margin(10, air_c, rh_pct - h)) / (2 * h)
    return math.sqrt((per_surface * us) ** 2 + (per_air * ua) ** 2 + (per_rh * urh) ** 2)


@pytest.mark.parametrize(("air_c", "rh_pct"), [(10, 80), (20, 50), (20, 20), (-5, 80), (35, 95)])
def test_the_margins_uncertainty_agrees_with_central_differences(air_c: float, rh_pct: float) -> None:
    found = margin_uncertainty_k(air_c, rh_pct, u_surface_k=0.2, u_air_k=0.4, u_rh_pct=2.0)
    assert found == pytest.approx(_by_differences(air_c, rh_pct, 0.2, 0.4, 2.0), rel=1e-6)


def test_each_instrument_adds_to_the_margins_uncertainty() -> None:
    surface_only = margin_uncertainty_k(10, 80, u_surface_k=0.3, u_air_k=0, u_rh_pct=0)
    assert surface_only == pytest.approx(0.3)
    assert margin_uncertainty_k(10, 80, u_surface_k=0.3, u_air_k=0.3, u_rh_pct=0) > surface_only
    assert margin_uncertainty_k(10, 80, u_surface_k=0.3, u_air_k=0, u_rh_pct=1) > surface_only


def test_saturated_air_still_has_an_uncertainty() -> None:
    assert margin_uncertainty_k(10, 100, u_surface_k=0, u_air_k=0.3, u_rh_pct=0) == pytest.approx(0.3)


@pytest.mark.parametrize("rh_pct", [0.0, -5.0, 100.1, math.nan])
def test_humidity_out_of_range_is_refused(rh_pct: float) -> None:
    with pytest.raises(ValueError, match="Relative humidity"):
        dew_point_c(20, rh_pct)


@pytest.mark.parametrize("temperature_c", [-50.1, 80.1, 293.15, math.nan])
def test_a_temperature_from_no_site_is_refused(temperature_c: float) -> None:
    with pytest.raises(ValueError, match="Air temperature"):
        saturation_pressure_pa(temperature_c)
    with pytest.raises(ValueError, match="Surface temperature"):
        margin_over_dew_point_k(temperature_c, 20, 50)


@pytest.mark.parametrize("pressure_pa", [0.0, -1.0, 50_000.0, math.nan])
def test_a_vapour_pressure_from_no_site_is_refused(pressure_pa: float) -> None:
    with pytest.raises(ValueError, match="Vapour pressure"):
        saturation_temperature_c(pressure_pa)


def test_a_negative_uncertainty_is_refused() -> None:
    with pytest.raises(ValueError, match="zero or more"):
        margin_uncertainty_k(10, 80, u_surface_k=-0.3, u_air_k=0.3, u_rh_pct=1)
