"""Standard uncertainties, conformance probability and guard bands."""

import math

import pytest

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


def test_worked_example_of_a_level_against_a_plumb_limit() -> None:
    """The example in docs/calculations/uncertainty.md, step by step."""
    u = combined(rectangular(0.7), from_resolution(1.0))
    assert u == pytest.approx(0.49666, abs=5e-6)
    assert expanded(u) == pytest.approx(0.99331, abs=5e-6)
    limits = acceptance_limits(guard_band(u), upper=3.0)
    assert limits.lower is None
    assert limits.upper == pytest.approx(2.00669, abs=5e-6)
    assert conformance_probability(2.2, u, upper=3.0) == pytest.approx(0.9464, abs=5e-5)


def test_an_error_within_bounds_counts_less_than_its_bound() -> None:
    assert rectangular(3.0) == pytest.approx(math.sqrt(3.0))


def test_reading_a_scale_counts_as_half_a_step_within_bounds() -> None:
    assert from_resolution(1.0) == pytest.approx(rectangular(0.5))


def test_contributions_add_as_squares() -> None:
    assert combined(3.0, 4.0) == pytest.approx(5.0)
    assert combined(0.7) == pytest.approx(0.7)


def test_expanded_uncertainty_follows_the_coverage_factor() -> None:
    assert expanded(0.5) == 1.0
    assert expanded(0.5, coverage=3.0) == 1.5


def test_a_value_on_its_limit_conforms_with_even_odds() -> None:
    assert conformance_probability(3.0, 0.5, upper=3.0) == pytest.approx(0.5)
    assert conformance_probability(3.0, 0.5, lower=3.0) == pytest.approx(0.5)


def test_both_limits_leave_less_probability_than_either() -> None:
    both = conformance_probability(11.0, 1.0, lower=10.0, upper=12.0)
    assert both == pytest.approx(0.682689, abs=1e-6)
    assert both < conformance_probability(11.0, 1.0, lower=10.0)


def test_without_uncertainty_the_verdict_is_certain_and_the_limit_conforms() -> None:
    assert conformance_probability(10.0, 0.0, lower=10.0, upper=20.0) == 1.0
    assert conformance_probability(20.0, 0.0, lower=10.0, upper=20.0) == 1.0
    assert conformance_probability(9.999, 0.0, lower=10.0) == 0.0
    assert conformance_probability(20.001, 0.0, upper=20.0) == 0.0


def test_the_guard_band_scales_with_ratio_and_coverage() -> None:
    assert guard_band(0.5) == 1.0
    assert guard_band(0.5, ratio=0.83) == pytest.approx(0.83)
    assert guard_band(0.5, ratio=1.0, coverage=3.0) == 1.5
    assert guard_band(0.5, ratio=0.0) == 0.0


def test_guard_ratio_and_false_acceptance_undo_each_other() -> None:
    assert false_acceptance(guard_ratio(0.02)) == pytest.approx(0.02)
    assert false_acceptance(guard_ratio(0.02, coverage=3.0), coverage=3.0) == pytest.approx(0.02)
    assert guard_ratio(0.5) == pytest.approx(0.0, abs=1e-12)


def test_acceptance_limits_move_inwards_on_both_sides() -> None:
    assert acceptance_limits(2.0, lower=10.0, upper=20.0) == (12.0, 18.0)
    assert acceptance_limits(2.0, lower=10.0) == (12.0, None)


def test_a_guard_band_wider_than_half_the_tolerance_leaves_nothing_to_accept() -> None:
    assert acceptance_limits(5.1, lower=10.0, upper=20.0).empty
    assert not acceptance_limits(5.0, lower=10.0, upper=20.0).empty
    assert not acceptance_limits(100.0, lower=10.0).empty


@pytest.mark.parametrize("wrong", [-0.1, math.nan, math.inf])
def test_an_uncertainty_below_zero_or_no_number_is_refused(wrong: float) -> None:
    for call in (rectangular, from_resolution, combined, expanded, guard_band, false_acceptance):
        with pytest.raises(ValueError, match="zero or more"):
            call(wrong)
    with pytest.raises(ValueError, match="zero or more"):
        conformance_probability(1.0, wrong, upper=2.0)
    with pytest.raises(ValueError, match="zero or more"):
        acceptance_limits(wrong, upper=2.0)


def test_combining_nothing_is_refused() -> None:
    with pytest.raises(ValueError, match="At least one"):
        combined()


@pytest.mark.parametrize("coverage", [0.0, -2.0, math.nan])
def test_a_coverage_factor_that_covers_nothing_is_refused(coverage: float) -> None:
    with pytest.raises(ValueError, match="coverage factor"):
        expanded(0.5, coverage)


def test_a_verdict_without_sensible_limits_is_refused() -> None:
    with pytest.raises(ValueError, match="limit is needed"):
        conformance_probability(1.0, 0.1)
    with pytest.raises(ValueError, match="limit is needed"):
        acceptance_limits(0.1)
    with pytest.raises(ValueError, match="above the upper"):
        conformance_probability(1.0, 0.1, lower=2.0, upper=1.0)
    with pytest.raises(ValueError, match="must be a number"):
        conformance_probability(1.0, 0.1, upper=math.nan)
    with pytest.raises(ValueError, match="must be a number"):
        conformance_probability(math.nan, 0.1, upper=1.0)


@pytest.mark.parametrize("share", [0.0, -0.1, 0.51, math.nan])
def test_a_share_of_false_acceptance_out_of_reach_is_refused(share: float) -> None:
    with pytest.raises(ValueError, match="share of false acceptance"):
        guard_ratio(share)
