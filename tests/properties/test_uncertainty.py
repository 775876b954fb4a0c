"""Laws of standard uncertainty, conformance probability and guard bands."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from revealbook.measures.physics.uncertainty import (
    acceptance_limits,
    combined,
    conformance_probability,
    expanded,
    false_acceptance,
    guard_band,
    guard_ratio,
)

values = st.floats(-1000, 1000)
uncertainties = st.floats(0.01, 100)
widths = st.floats(0, 500)
shares = st.floats(1e-6, 0.5)


@given(values, uncertainties, values)
def test_upper_and_lower_limit_share_the_whole_probability(value: float, u: float, limit: float) -> None:
    below = conformance_probability(value, u, upper=limit)
    above = conformance_probability(value, u, lower=limit)
    assert below + above == pytest.approx(1)


@given(values, uncertainties, values, widths)
def test_probability_lies_between_0_and_1_and_within_each_side(
    value: float, u: float, lower: float, width: float
) -> None:
    both = conformance_probability(value, u, lower=lower, upper=lower + width)
    assert 0 <= both <= 1
    assert both <= conformance_probability(value, u, lower=lower) + 1e-12
    assert both <= conformance_probability(value, u, upper=lower + width) + 1e-12


@given(values, uncertainties, values, widths)
def test_probability_is_the_same_in_the_mirror(value: float, u: float, lower: float, width: float) -> None:
    upper = lower + width
    here = conformance_probability(value, u, lower=lower, upper=upper)
    assert conformance_probability(-value, u, lower=-upper, upper=-lower) == pytest.approx(here, abs=1e-9)


@given(values, uncertainties, values, widths, st.floats(0.01, 1000))
def test_probability_does_not_depend_on_the_unit(
    value: float, u: float, lower: float, width: float, factor: float
) -> None:
    here = conformance_probability(value, u, lower=lower, upper=lower + width)
    there = conformance_probability(
        factor * value, factor * u, lower=factor * lower, upper=factor * (lower + width)
    )
    assert there == pytest.approx(here, abs=1e-6)


@given(values, uncertainties, values, st.floats(0, 100))
def test_moving_away_from_an_upper_limit_never_conforms_less(
    value: float, u: float, limit: float, step: float
) -> None:
    assert conformance_probability(value - step, u, upper=limit) >= conformance_probability(
        value, u, upper=limit
    )


@given(values, shares, uncertainties)
def test_on_the_acceptance_limit_just_the_share_allowed_is_falsely_accepted(
    limit: float, share: float, u: float
) -> None:
    accepted_up_to = acceptance_limits(guard_band(u, guard_ratio(share)), upper=limit).upper
    assert accepted_up_to is not None
    assert 1 - conformance_probability(accepted_up_to, u, upper=limit) == pytest.approx(share, abs=1e-7)


@given(shares, st.floats(0.5, 4))
def test_ratio_and_false_acceptance_are_inverse(share: float, coverage: float) -> None:
    assert false_acceptance(guard_ratio(share, coverage), coverage) == pytest.approx(share, rel=1e-5)


@given(st.lists(st.floats(0, 1000), min_size=1, max_size=6), st.floats(0.01, 100))
def test_combined_uncertainty_grows_with_each_part_and_scales_with_the_unit(
    parts: list[float], factor: float
) -> None:
    whole = combined(*parts)
    assert max(parts) - 1e-9 <= whole <= sum(parts) + 1e-9
    assert combined(*reversed(parts)) == pytest.approx(whole)
    assert combined(*(factor * part for part in parts)) == pytest.approx(factor * whole)
    assert expanded(whole) == 2 * whole


@given(values, widths, st.floats(0, 100), st.floats(0, 100))
def test_a_wider_guard_band_never_accepts_more(lower: float, width: float, guard: float, more: float) -> None:
    narrow = acceptance_limits(guard, lower=lower, upper=lower + width)
    wide = acceptance_limits(guard + more, lower=lower, upper=lower + width)
    assert narrow.lower is not None
    assert narrow.upper is not None
    assert wide.lower is not None
    assert wide.upper is not None
    assert wide.lower >= narrow.lower
    assert wide.upper <= narrow.upper
    assert not (narrow.empty and not wide.empty)
