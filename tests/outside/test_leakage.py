"""Air leakage: the fit against scipy, the classes against the published table."""

import math

import numpy as np
import pytest
from scipy.optimize import curve_fit
from scipy.stats import linregress, t

from revealbook.measures.physics.leakage import fit_power_law, reference_flow_factor
from revealbook.measures.physics.permeability_class import (
    class_by,
    permeability_classes,
    permitted_flow,
    pressure_factor,
)

PRESSURES_PA = [12.0, 19.5, 30.2, 40.1, 49.6, 61.3]
FLOWS_M3_H = [31.0, 43.5, 55.2, 69.0, 77.0, 91.5]
READINGS = list(zip(PRESSURES_PA, FLOWS_M3_H, strict=True))


def test_the_fit_agrees_with_scipys_regression() -> None:
    law = fit_power_law(READINGS)
    other = linregress(np.log(PRESSURES_PA), np.log(FLOWS_M3_H))
    assert law.exponent == pytest.approx(other.slope, abs=1e-9)
    assert math.log(law.coefficient) == pytest.approx(other.intercept, abs=1e-9)
    assert law.r_squared == pytest.approx(other.rvalue**2, abs=1e-9)
    assert law.s_exponent == pytest.approx(other.stderr, abs=1e-9)
    assert law.s_ln_coefficient == pytest.approx(other.intercept_stderr, abs=1e-9)


def test_the_fit_agrees_with_numpys_polynomial() -> None:
    n, ln_c = np.polyfit(np.log(PRESSURES_PA), np.log(FLOWS_M3_H), 1)
    law = fit_power_law(READINGS)
    assert (law.exponent, math.log(law.coefficient)) == pytest.approx((n, ln_c), abs=1e-9)


def test_the_confidence_of_a_flow_agrees_with_moving_the_origin_to_it() -> None:
    """With ln dp counted from 50 Pa, the intercept of scipy's regression is ln q50, with its error."""
    other = linregress(np.log(np.array(PRESSURES_PA) / 50), np.log(FLOWS_M3_H))
    reach = t.ppf(0.975, len(READINGS) - 2) * other.intercept_stderr
    expected = (math.exp(other.intercept - reach), math.exp(other.intercept + reach))
    assert fit_power_law(READINGS).flow_at(50).interval == pytest.approx(expected, rel=1e-9)


def test_the_values_of_the_second_reference_set() -> None:
    """Computed with scipy 1.17.1; the interval from t(4) = 2.77645."""
    law = fit_power_law(READINGS)
    assert law.exponent == pytest.approx(0.651793, abs=5e-7)
    assert law.coefficient == pytest.approx(6.153144, abs=5e-7)
    assert law.r_squared == pytest.approx(0.997669, abs=5e-7)
    assert law.s_exponent == pytest.approx(0.015753, abs=5e-7)
    assert law.s_ln_coefficient == pytest.approx(0.054730, abs=5e-7)
    assert law.t_quantile == pytest.approx(2.77645, abs=5e-6)
    assert law.exponent_interval == pytest.approx((0.6081, 0.6955), abs=5e-5)
    assert law.coefficient_interval == pytest.approx((5.2857, 7.1629), abs=5e-5)
    assert law.flow_at(50).interval == pytest.approx((76.288, 81.375), abs=5e-4)


@pytest.mark.parametrize(
    ("pressure_pa", "flow_m3_h"), [(4, 15.1885), (10, 27.5988), (50, 78.7904), (100, 123.7891)]
)
def test_flows_of_the_second_reference_set(pressure_pa: float, flow_m3_h: float) -> None:
    assert fit_power_law(READINGS).flow_at(pressure_pa).flow_m3_h == pytest.approx(flow_m3_h, abs=5e-5)


def test_the_first_reference_set_is_an_exact_law() -> None:
    law = fit_power_law([(dp, 12 * dp**0.65) for dp in (10.0, 20.0, 30.0, 40.0, 50.0, 60.0)])
    assert (law.exponent, law.coefficient, law.r_squared) == pytest.approx((0.65, 12, 1), abs=1e-9)
    assert law.flow_at(50).flow_m3_h == pytest.approx(152.58497, abs=5e-6)


def test_a_fit_of_the_flows_themselves_is_another_fit() -> None:
    """The standard fits logarithms; least squares of the flows weigh the high pressures more."""
    (coefficient, exponent), _ = curve_fit(lambda dp, c, n: c * dp**n, PRESSURES_PA, FLOWS_M3_H, p0=(6, 0.65))
    assert (exponent, coefficient) == pytest.approx((0.660057, 5.972265), abs=1e-5)
    assert fit_power_law(READINGS).exponent != pytest.approx(exponent, abs=0.005)


def test_a_zero_offset_left_in_spoils_the_exponent() -> None:
    def shifted(by_pa: float) -> float:
        return fit_power_law([(dp + by_pa, q) for dp, q in READINGS]).exponent

    assert sorted((shifted(-2), shifted(2))) == pytest.approx([0.598, 0.704], abs=1e-3)


def test_100_pa_from_readings_that_end_at_60_is_good_to_6_per_cent() -> None:
    estimate = fit_power_law(READINGS).flow_at(100)
    assert estimate.extrapolated
    assert math.log(estimate.interval.high / estimate.flow_m3_h) == pytest.approx(0.057, abs=5e-4)


def test_the_published_classes() -> None:
    """EN 12207 (published, secondary source): class, by area, by joint, highest pressure."""
    assert permeability_classes() == (
        (1, 50, 12.50, 150),
        (2, 27, 6.75, 300),
        (3, 9, 2.25, 600),
        (4, 3, 0.75, 600),
    )


@pytest.mark.parametrize(
    ("pressure_pa", "factor"),
    [(10, 0.215443), (50, 0.629961), (100, 1.0), (150, 1.310371), (300, 2.080084), (600, 3.301927)],
)
def test_pressure_factors(pressure_pa: float, factor: float) -> None:
    """Exponent 2/3, from memory; the factor is the cube root of the squared ratio."""
    assert pressure_factor(pressure_pa) == pytest.approx(factor, abs=5e-7)
    assert pressure_factor(pressure_pa) == pytest.approx(math.cbrt((pressure_pa / 100) ** 2))


@pytest.mark.parametrize(
    ("number", "pressure_pa", "by_area"),
    [
        (4, 50, 1.8899),
        (4, 300, 6.2403),
        (4, 600, 9.9058),
        (3, 600, 29.7173),
        (2, 300, 56.1623),
        (1, 150, 65.5185),
    ],
)
def test_limits_by_area_worked_out_by_hand(number: int, pressure_pa: float, by_area: float) -> None:
    assert permitted_flow(number, pressure_pa, "area") == pytest.approx(by_area, abs=1e-4)


def test_limits_by_joint_worked_out_by_hand() -> None:
    assert permitted_flow(4, 600, "joint") == pytest.approx(2.4764, abs=1e-4)
    assert permitted_flow(3, 600, "joint") == pytest.approx(7.4293, abs=1e-4)


@pytest.mark.parametrize(("flow_at_600_pa", "number"), [(9.90, 4), (9.91, 3)])
def test_the_verdict_turns_at_the_limit_of_600_pa(flow_at_600_pa: float, number: int) -> None:
    below = [(dp, 2.9 * pressure_factor(dp)) for dp in (50, 100, 300)]
    assert class_by("area", [*below, (600, flow_at_600_pa)], 1.0) == number


def test_a_curve_of_class_4_read_to_300_pa_only_is_class_2_at_most() -> None:
    readings = [(dp, 3 * pressure_factor(dp)) for dp in (50, 100, 150, 200, 250, 300)]
    assert class_by("area", readings, 1.0) == 2


def test_limits_by_area_are_four_times_those_by_joint() -> None:
    """EN 12207 (published, secondary source)."""
    for row in permeability_classes():
        assert row.area_m3_h_m2 == 4 * row.joint_m3_h_m


def test_a_flow_at_the_reference_climate_is_that_of_an_ideal_gas() -> None:
    """EN 1026:2016, from memory: 293 K and 101.3 kPa. 0 degC and 98.0 kPa give 1.0377 (computed by hand).

    CoolProp knows the density of real air, which has no part in that formula.
    """
    from CoolProp.CoolProp import PropsSI

    assert reference_flow_factor(0, 98.0) == pytest.approx(1.0377, abs=5e-5)
    for air_c, kpa in ((0, 98.0), (-10, 103.0), (35, 90.0)):
        there = PropsSI("D", "T", air_c + 273.15, "P", kpa * 1000, "Air")
        reference = PropsSI("D", "T", 293.0, "P", 101_300, "Air")
        assert reference_flow_factor(air_c, kpa) == pytest.approx(there / reference, rel=1e-3)
