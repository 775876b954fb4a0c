"""Laws of dew point and temperature factor."""

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from revealbook.measures.physics.dew_point import (
    dew_point_c,
    margin_over_dew_point_k,
    margin_uncertainty_k,
    saturation_pressure_pa,
    saturation_temperature_c,
)
from revealbook.measures.physics.surface_temperature import (
    factor_uncertainty,
    required_factor,
    required_surface_c,
    surface_at_factor_c,
    temperature_factor,
)

airs_c = st.floats(-30, 60)
humidities_pct = st.floats(1, 100)
spreads = st.floats(0, 5)


@given(st.floats(-50, 80))
def test_saturation_pressure_and_temperature_are_inverse(air_c: float) -> None:
    assert saturation_temperature_c(saturation_pressure_pa(air_c)) == pytest.approx(air_c, abs=1e-9)


@given(airs_c, airs_c)
def test_warmer_air_holds_more_vapour(a_c: float, b_c: float) -> None:
    assume(abs(a_c - b_c) > 1e-6)
    assert (a_c < b_c) == (saturation_pressure_pa(a_c) < saturation_pressure_pa(b_c))


@given(airs_c, humidities_pct)
def test_the_dew_point_never_exceeds_the_air(air_c: float, rh_pct: float) -> None:
    assert dew_point_c(air_c, rh_pct) <= air_c + 1e-9


@given(airs_c, humidities_pct, st.floats(0.01, 10))
def test_dew_point_rises_with_humidity_and_with_temperature(air_c: float, rh_pct: float, more: float) -> None:
    assert dew_point_c(air_c + more, rh_pct) > dew_point_c(air_c, rh_pct)
    assume(rh_pct + more <= 100)
    assert dew_point_c(air_c, rh_pct + more) > dew_point_c(air_c, rh_pct)


@given(st.floats(-30, 50), airs_c, humidities_pct, st.floats(-10, 10))
def test_the_margin_follows_the_surface_kelvin_for_kelvin(
    surface_c: float, air_c: float, rh_pct: float, warmer_k: float
) -> None:
    before = margin_over_dew_point_k(surface_c, air_c, rh_pct)
    assert margin_over_dew_point_k(surface_c + warmer_k, air_c, rh_pct) == pytest.approx(
        before + warmer_k, abs=1e-9
    )


@given(airs_c, humidities_pct, spreads, spreads, spreads)
def test_the_margin_is_never_surer_than_its_surface_reading(
    air_c: float, rh_pct: float, u_surface: float, u_air: float, u_rh: float
) -> None:
    u = margin_uncertainty_k(air_c, rh_pct, u_surface_k=u_surface, u_air_k=u_air, u_rh_pct=u_rh)
    twice = margin_uncertainty_k(
        air_c, rh_pct, u_surface_k=2 * u_surface, u_air_k=2 * u_air, u_rh_pct=2 * u_rh
    )
    assert u >= u_surface
    assert twice == pytest.approx(2 * u)


@given(st.floats(-2, 2), airs_c, airs_c)
def test_factor_and_surface_are_inverse(factor: float, inside_c: float, outside_c: float) -> None:
    assume(abs(inside_c - outside_c) > 0.1)
    surface_c = surface_at_factor_c(factor, inside_c, outside_c)
    assume(-50 <= surface_c <= 80)
    assert temperature_factor(surface_c, inside_c, outside_c) == pytest.approx(factor, abs=1e-9)


@given(st.floats(0, 20), st.floats(15, 30), st.floats(-15, 10), st.floats(-10, 10))
def test_the_factor_does_not_care_where_the_scale_begins(
    surface_c: float, inside_c: float, outside_c: float, shift_k: float
) -> None:
    moved = temperature_factor(surface_c + shift_k, inside_c + shift_k, outside_c + shift_k)
    assert moved == pytest.approx(temperature_factor(surface_c, inside_c, outside_c), abs=1e-9)


@given(st.floats(15, 30), st.floats(10, 95), st.floats(-15, 10), st.floats(0.5, 1), st.floats(0.01, 4))
def test_a_stricter_surface_or_damper_air_asks_for_more(
    inside_c: float, rh_pct: float, outside_c: float, share: float, more_pct: float
) -> None:
    asked = required_surface_c(inside_c, rh_pct, share)
    assert required_surface_c(inside_c, rh_pct + more_pct, share) > asked
    assert required_surface_c(inside_c, rh_pct, share * 0.9) > asked
    factor = required_factor(inside_c, rh_pct, outside_c, share)
    assert surface_at_factor_c(factor, inside_c, outside_c) == pytest.approx(asked, abs=1e-9)


@given(st.floats(0, 25), st.floats(0.01, 2))
def test_swapping_inside_and_outside_keeps_the_factors_uncertainty(surface_c: float, u_k: float) -> None:
    u = factor_uncertainty(surface_c, 20, -5, u_surface_k=u_k, u_inside_k=u_k, u_outside_k=u_k)
    swapped = factor_uncertainty(surface_c, -5, 20, u_surface_k=u_k, u_inside_k=u_k, u_outside_k=u_k)
    assert u == pytest.approx(swapped)
