"""Guard bands and conformance probability against published values and scipy's normal distribution."""

import math

import pytest
from scipy.stats import norm, uniform

from revealbook.measures.physics.uncertainty import (
    acceptance_limits,
    combined,
    conformance_probability,
    expanded,
    false_acceptance,
    from_resolution,
    guard_band,
    guard_ratio,
    rectangular,
)


def test_conformance_probability_agrees_with_scipy() -> None:
    for k in range(61):
        y = 7 + k * 0.25
        above = norm.cdf(20, y, 1.3)
        assert conformance_probability(y, 1.3, upper=20) == pytest.approx(above, abs=1e-12)
        within = above - norm.cdf(10, y, 1.3)
        assert conformance_probability(y, 1.3, lower=10, upper=20) == pytest.approx(within, abs=1e-12)
        assert conformance_probability(y, 1.3, lower=10) == pytest.approx(norm.sf(10, y, 1.3), abs=1e-12)


def test_standard_uncertainties_agree_with_scipys_rectangular_distribution() -> None:
    assert rectangular(0.7) == pytest.approx(uniform(-0.7, 1.4).std())
    assert from_resolution(1.0) == pytest.approx(uniform(-0.5, 1.0).std())


@pytest.mark.parametrize(
    ("ratio", "bound"), [(0.83, 0.05), (1.0, 0.025), (1.5, 0.0016), (3.0, 1e-6), (0.0, 0.5)]
)
def test_published_guard_bands_keep_false_acceptance_within_their_bound(ratio: float, bound: float) -> None:
    """0.83 U of ISO 14253-1:2017, the others of ILAC-G8:09/2019 (published, secondary source)."""
    assert false_acceptance(ratio) <= bound
    assert false_acceptance(ratio) == pytest.approx(norm.sf(2 * ratio), rel=1e-6)


@pytest.mark.parametrize(
    ("ratio", "exact"), [(0.83, 0.0485), (1.0, 0.0228), (1.5, 0.00135), (3.0, 9.9e-10), (0.0, 0.5)]
)
def test_false_acceptance_of_the_published_guard_bands(ratio: float, exact: float) -> None:
    assert false_acceptance(ratio) == pytest.approx(exact, rel=0.005)


@pytest.mark.parametrize(("share", "z"), [(0.05, 1.644854), (0.025, 1.959964), (0.01, 2.326348)])
def test_guard_ratio_agrees_with_the_normal_quantiles(share: float, z: float) -> None:
    assert guard_ratio(share) == pytest.approx(z / 2, abs=5e-7)
    assert guard_ratio(share) == pytest.approx(norm.isf(share) / 2, abs=1e-9)


def test_the_published_083_is_the_exact_ratio_rounded_to_the_safe_side() -> None:
    assert 0.82 < guard_ratio(0.05) < 0.83


def test_examples_of_jcgm_106() -> None:
    """JCGM 106:2012, from memory, recomputed: 0.92 and 0.66 are printed there."""
    assert conformance_probability(-5.47, 0.05, upper=-5.40) == pytest.approx(0.919243, abs=5e-7)
    assert conformance_probability(13.6, 1.8, lower=12.5, upper=16.3) == pytest.approx(0.662630, abs=5e-7)


def test_acceptance_limit_of_an_instruments_permitted_error() -> None:
    """MPE 0.003, U 0.001 -> 0.002 (ILAC-G8:09/2019; published, secondary source)."""
    assert acceptance_limits(0.001, upper=0.003).upper == pytest.approx(0.002)


@pytest.mark.parametrize(
    ("ratio", "limit"), [(guard_ratio(0.05), 2.177573), (guard_ratio(0.025), 2.020018), (1.0, 2.0)]
)
def test_acceptance_limits_of_a_plumb_window(ratio: float, limit: float) -> None:
    """Limit 3.0 mm, u 0.5 mm."""
    assert acceptance_limits(guard_band(0.5, ratio), upper=3.0).upper == pytest.approx(limit, abs=5e-7)


@pytest.mark.parametrize(
    ("value_mm", "probability"),
    [(2.17, 0.951543), (2.18, 0.949497), (2.50, 0.841345), (3.00, 0.5), (3.82, 0.050503), (3.83, 0.048457)],
)
def test_probabilities_of_a_plumb_window(value_mm: float, probability: float) -> None:
    """Limit 3.0 mm, u 0.5 mm: between 2.18 and 3.82 mm neither verdict has 95 %."""
    assert conformance_probability(value_mm, 0.5, upper=3.0) == pytest.approx(probability, abs=5e-7)


@pytest.mark.parametrize(
    ("width_mm", "probability", "conforms"),
    [(11.60, 0.945201, False), (11.65, 0.950529, True), (15, 0.999999, True)],
)
def test_probabilities_of_a_joint(width_mm: float, probability: float, conforms: bool) -> None:
    """Joint of 10 to 20 mm, u 1 mm."""
    found = conformance_probability(width_mm, 1.0, lower=10, upper=20)
    assert found == pytest.approx(probability, abs=5e-7)
    assert (found >= 0.95) is conforms


def test_a_joint_is_undecided_alike_at_both_ends() -> None:
    assert conformance_probability(18.30, 1.0, lower=10, upper=20) >= 0.95
    assert conformance_probability(18.36, 1.0, lower=10, upper=20) < 0.95


@pytest.mark.parametrize(("margin_k", "probability"), [(3.5, 0.841345), (3.82, 0.949497), (3.83, 0.951543)])
def test_probabilities_of_a_margin_over_dew_point(margin_k: float, probability: float) -> None:
    """3 K as lower limit, u 0.5 K."""
    assert conformance_probability(margin_k, 0.5, lower=3.0) == pytest.approx(probability, abs=5e-7)


def test_a_level_with_a_millimetre_scale() -> None:
    """Permitted error 0.7 mm, scale 1 mm."""
    assert rectangular(0.7) == pytest.approx(0.40415, abs=5e-6)
    assert from_resolution(1.0) == pytest.approx(0.28868, abs=5e-6)
    u = combined(rectangular(0.7), from_resolution(1.0))
    assert u == pytest.approx(math.hypot(0.40415, 0.28868), abs=1e-5)
    assert expanded(u) == pytest.approx(0.99331, abs=5e-6)
