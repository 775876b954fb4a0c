"""Temperature factor against published values, each recomputed with a library's saturation pressure too."""

import psychrolib
import pytest

from revealbook.measures.physics.dew_point import saturation_pressure_pa
from revealbook.measures.physics.surface_temperature import (
    CONDENSATION,
    MOULD,
    factor_uncertainty,
    required_factor,
    required_surface_c,
    surface_at_factor_c,
    temperature_factor,
)


@pytest.mark.parametrize(
    ("surface_c", "inside_c", "outside_c", "factor"),
    [
        (
            12.6,
            20,
            -5,
            0.704,
        ),  # DIN 4108-2:2013-02; one public page prints 17.6 / 25 (published, secondary source)
        (12.5, 20, -5, 0.700),
        (15.0, 20, -5, 0.800),
        (9.3, 20, -5, 0.572),
        (14.3, 21.5, 1.2, 0.645320),
    ],
)
def test_factors_worked_out_by_hand(
    surface_c: float, inside_c: float, outside_c: float, factor: float
) -> None:
    assert temperature_factor(surface_c, inside_c, outside_c) == pytest.approx(factor, abs=5e-7)


@pytest.mark.parametrize(
    ("outside_c", "inside_c", "rh_pct", "factor"),
    [
        (5, 20, 55, 0.60572382),
        (5, 20, 75, 0.93077131),
        (5, 20, 20, -0.36884016),  # the required surface is below freezing
    ],
)
def test_required_factors_of_a_public_program(
    outside_c: float, inside_c: float, rh_pct: float, factor: float
) -> None:
    """ISO 13788:2012, fRsi,min, 80 % at the surface (published, secondary source), every digit recomputed."""
    assert required_factor(inside_c, rh_pct, outside_c) == pytest.approx(factor, abs=5e-9)


@pytest.mark.parametrize(
    ("rh_pct", "printed"),
    [(55, 0.60574531), (75, 0.93079365), (20, -0.36882331)],
)
def test_required_factors_as_printed_rest_on_a_rounded_saturation_pressure(
    rh_pct: float, printed: float
) -> None:
    """The same program prints them with psat(20) = 2337 Pa; the difference is that rounding."""
    rounded = rh_pct * 2337 / saturation_pressure_pa(20)
    assert required_factor(20, rounded, 5) == pytest.approx(printed, abs=5e-9)


def test_required_factor_in_the_mildest_month_of_a_public_example() -> None:
    assert required_factor(20, 55, 10.7) == pytest.approx(0.36, abs=0.005)


@pytest.mark.parametrize(
    ("inside_c", "rh_pct", "share", "surface_c", "factor"),
    [
        (20, 50, MOULD, 12.6246, 0.7050),
        (20, 50, CONDENSATION, 9.2690, 0.5708),
        (24, 70, MOULD, 21.7940, 0.9239),
    ],
)
def test_required_surfaces_worked_out_by_hand(
    inside_c: float, rh_pct: float, share: float, surface_c: float, factor: float
) -> None:
    assert required_surface_c(inside_c, rh_pct, share) == pytest.approx(surface_c, abs=5e-5)
    assert required_factor(inside_c, rh_pct, -5, share) == pytest.approx(factor, abs=5e-5)


def test_at_the_required_surface_a_library_finds_the_humidity_asked_for() -> None:
    psychrolib.SetUnitSystem(psychrolib.SI)
    for inside_c in range(15, 27):
        for rh_pct in range(30, 75, 5):
            vapour_pa = psychrolib.GetVapPresFromRelHum(float(inside_c), rh_pct / 100)
            at_surface = vapour_pa / psychrolib.GetSatVapPres(required_surface_c(inside_c, rh_pct))
            assert at_surface == pytest.approx(0.80, abs=0.003)


def test_the_factor_of_070_is_not_the_surface_of_126_degc() -> None:
    """DIN 4108-2:2013-02 pairs them (published, secondary source); they differ by a tenth of a degree."""
    assert surface_at_factor_c(0.70, 20, -5) == pytest.approx(12.50)
    at_the_factor = 50 * saturation_pressure_pa(20) / saturation_pressure_pa(12.50)
    assert at_the_factor == pytest.approx(80.66, abs=0.005)


def test_thermometers_good_to_03_k_do_not_tell_071_from_070() -> None:
    surface_c = surface_at_factor_c(0.70, 20, -5)
    u = factor_uncertainty(surface_c, 20, -5, u_surface_k=0.3, u_inside_k=0.3, u_outside_k=0.3)
    assert u == pytest.approx(0.0151, abs=5e-5)
    assert u > 0.71 - 0.70
