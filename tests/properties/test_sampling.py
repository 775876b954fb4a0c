"""Laws of sampling plans: more nonconforming openings are never accepted more readily."""

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.stats import binom

from revealbook.measures.physics.sampling import (
    AQLS,
    acceptance_probability_of_lot,
    share_accepted_with,
    single_plan,
)

LOTS = st.integers(2, 5000)
LIMITS = st.sampled_from(AQLS)


@given(LOTS, LIMITS, st.floats(0.01, 0.99), st.floats(0.01, 0.99))
def test_what_is_accepted_less_readily_has_more_that_does_not_conform(
    lot: int, aql: str, one: float, other: float
) -> None:
    plan = single_plan(lot, aql)
    seldom, often = sorted((one, other))
    many, few = (share_accepted_with(plan.sample_size, plan.accept, p) for p in (seldom, often))
    assert many >= few


@given(LOTS, LIMITS, st.data())
def test_acceptance_of_a_lot_falls_with_each_nonconforming_opening(
    lot: int, aql: str, data: st.DataObject
) -> None:
    plan = single_plan(lot, aql)
    number = data.draw(st.integers(0, lot - 1))
    fewer, more = (
        acceptance_probability_of_lot(lot, n, plan.sample_size, plan.accept) for n in (number, number + 1)
    )
    assert fewer >= more - 1e-12


@given(LOTS, LIMITS, st.floats(0.01, 0.99))
def test_the_share_accepted_with_a_probability_is_accepted_with_it(lot: int, aql: str, p: float) -> None:
    plan = single_plan(lot, aql)
    share = share_accepted_with(plan.sample_size, plan.accept, p)
    assert float(binom.cdf(plan.accept, plan.sample_size, share)) == pytest.approx(p, abs=1e-9)


@given(LIMITS, LOTS, LOTS)
def test_a_larger_lot_never_gets_a_smaller_share_of_certainty(aql: str, one: int, other: int) -> None:
    """At the quality limit a plan for a larger lot accepts at least as readily, within the table's steps."""
    small, large = (single_plan(lot, aql) for lot in sorted((one, other)))
    assert small.accept <= large.accept


@given(LOTS)
def test_a_large_lot_is_nearly_binomial(lot: int) -> None:
    plan = single_plan(lot, "2.5")
    bad = lot // 10
    found = acceptance_probability_of_lot(lot, bad, plan.sample_size, plan.accept)
    nearly = float(binom.cdf(plan.accept, plan.sample_size, bad / lot))
    assert found == pytest.approx(nearly, abs=0.5 * plan.sample_size / lot + 1e-9)
