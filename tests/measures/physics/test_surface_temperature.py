"""Temperature factor and the surface temperature a climate asks for."""

import math

import pytest

from revealbook.measures.physics.surface_temperature import (
    CONDENSATION,
    factor_uncertainty,
    required_factor,
    required_surface_c,
    surface_at_factor_c,
    temperature_factor,
)


def test_worked_example_of_a_cold_corner() -> None:
    """The example in docs/calculations/moisture.md."""
    assert temperature_factor(14.3, 21.5, 1.2) == pytest.approx(0.645320, abs=5e-7)
    u = factor_uncertainty(14.3, 21.5, 1.2, u_surface_k=0.3, u_inside_k=0.3, u_outside_k=0.3)
    assert u == pytest.approx(0.01835, abs=5e-6)
    assert required_surface_c(20, 50) == pytest.approx(12.6246, abs=5e-5)
    assert required_factor(20, 50, -5) == pytest.approx(0.7050, abs=5e-5)


def test_the_factor_runs_from_outside_to_inside_air() -> None:
    assert temperature_factor(-5, 20, -5) == 0.0
    assert temperature_factor(20, 20, -5) == 1.0
    assert temperature_factor(7.5, 20, -5) == 0.5


def test_the_factor_and_the_fixed_temperature_are_two_criteria() -> None:
    between_c = 12.55
    assert between_c > surface_at_factor_c(0.70, 20, -5) == pytest.approx(12.5)
    assert between_c < 12.6
    assert temperature_factor(between_c, 20, -5) > 0.70
    assert temperature_factor(12.6, 20, -5) == pytest.approx(0.704)


def test_condensation_asks_for_less_than_mould() -> None:
    mould_c = required_surface_c(20, 50)
    condensation_c = required_surface_c(20, 50, CONDENSATION)
    assert condensation_c == pytest.approx(9.2690, abs=5e-5)
    assert mould_c - condensation_c > 3


def test_air_more_humid_than_the_surface_may_be_asks_for_more_than_a_wall_can_give() -> None:
    assert required_surface_c(20, 85) > 20
    assert required_factor(20, 85, -5) > 1


def test_the_factor_blurs_as_inside_and_outside_come_closer() -> None:
    def blur(outside_c: float) -> float:
        surface_c = surface_at_factor_c(0.7, 20, outside_c)
        return factor_uncertainty(surface_c, 20, outside_c, u_surface_k=0.3, u_inside_k=0.3, u_outside_k=0.3)

    assert blur(-5) == pytest.approx(0.0151, abs=5e-5)
    assert blur(15) == pytest.approx(5 * blur(-5))


def test_the_factors_uncertainty_agrees_with_central_differences() -> None:
    s, i, e, h = 14.3, 21.5, 1.2, 1e-5
    parts = [
        0.2 * (temperature_factor(s + h, i, e) - temperature_factor(s - h, i, e)) / (2 * h),
        0.3 * (temperature_factor(s, i + h, e) - temperature_factor(s, i - h, e)) / (2 * h),
        0.5 * (temperature_factor(s, i, e + h) - temperature_factor(s, i, e - h)) / (2 * h),
    ]
    found = factor_uncertainty(s, i, e, u_surface_k=0.2, u_inside_k=0.3, u_outside_k=0.5)
    assert found == pytest.approx(math.hypot(*parts), rel=1e-7)


def test_the_factors_uncertainty_is_positive_in_summer_too() -> None:
    found = factor_uncertainty(25, 24, 30, u_surface_k=0.3, u_inside_k=0.3, u_outside_k=0.3)
    assert found > 0


def test_equally_warm_inside_and_outside_is_an_error_and_no_number() -> None:
    with pytest.raises(ValueError, match="equally warm"):
        temperature_factor(20, 20, 20)
    with pytest.raises(ValueError, match="equally warm"):
        surface_at_factor_c(0.7, 20, 20)
    with pytest.raises(ValueError, match="equally warm"):
        required_factor(20, 50, 20)


@pytest.mark.parametrize("place", [0, 1, 2])
def test_a_temperature_from_no_site_is_refused(place: int) -> None:
    temperatures = [15.0, 20.0, -5.0]
    temperatures[place] = 293.15
    with pytest.raises(ValueError, match="must lie from -50 to 80"):
        temperature_factor(*temperatures)


@pytest.mark.parametrize("share", [0.0, 1.01, 80.0, math.nan])
def test_a_humidity_at_the_surface_that_is_no_share_is_refused(share: float) -> None:
    with pytest.raises(ValueError, match="share"):
        required_surface_c(20, 50, share)
