"""Expected probabilities: recomputed with the normal distribution, not read in a standard."""

from math import inf

import pytest

from revealbook.measures.method import Method
from revealbook.rules.decision import decide
from revealbook.rules.finding import Outcome
from revealbook.rules.limit import Limit

PLUMB = Limit(high=3.0)
JOINT = Limit(low=10, high=20)
GUARDED = Method()
SIMPLE = Method(decision="simple acceptance")
C, U, D = Outcome.CONFORMS, Outcome.UNDECIDED, Outcome.DOES_NOT_CONFORM


@pytest.mark.parametrize(("value", "outcome"), [(2.9, C), (3.0, C), (3.0 + 1e-12, C), (3.001, D), (inf, D)])
def test_without_a_stated_uncertainty_the_limit_itself_decides(value: float, outcome: Outcome) -> None:
    decision = decide(value, None, PLUMB, GUARDED)
    assert decision.outcome == outcome
    assert decision.probability is None


@pytest.mark.parametrize(
    ("value", "outcome"), [(1.9, C), (2.0, C), (2.01, U), (3.0, U), (3.99, U), (4.0, D), (4.1, D)]
)
def test_inside_the_guard_band_it_is_undecided(value: float, outcome: Outcome) -> None:
    assert decide(value, 1.0, PLUMB, GUARDED).outcome == outcome


@pytest.mark.parametrize(
    ("value", "outcome"),
    [(7.9, D), (8.1, U), (11.9, U), (12.0, C), (15.0, C), (18.0, C), (18.1, U), (21.9, U), (22.0, D)],
)
def test_both_ends_have_their_guard_band(value: float, outcome: Outcome) -> None:
    assert decide(value, 2.0, JOINT, GUARDED).outcome == outcome


@pytest.mark.parametrize(("value", "outcome"), [(2.16, C), (2.18, U), (3.82, U), (3.84, D)])
def test_the_width_of_the_band_is_a_share_of_the_uncertainty(value: float, outcome: Outcome) -> None:
    """w = 0.83 U of ISO 14253-1:2017 (secondary source)."""
    assert decide(value, 1.0, PLUMB, Method(guard_band_factor=0.83)).outcome == outcome


def test_simple_acceptance_leaves_the_uncertainty_aside_but_tells_the_probability() -> None:
    decision = decide(2.5, 1.0, PLUMB, SIMPLE)
    assert decision.outcome == C
    assert decision.probability == pytest.approx(0.841345, abs=1e-6)


@pytest.mark.parametrize("uncertainty", [0.0, None])
def test_a_band_without_width_is_simple_acceptance(uncertainty: float | None) -> None:
    assert decide(3.0, uncertainty, PLUMB, GUARDED).outcome == C
    assert decide(3.0, 1.0, PLUMB, Method(guard_band_factor=0)).outcome == C
    assert decide(3.1, 1.0, PLUMB, Method(guard_band_factor=0)).outcome == D


@pytest.mark.parametrize(
    ("limit", "value", "uncertainty", "probability"),
    [
        (PLUMB, 2.17, 1.0, 0.951543),
        (PLUMB, 3.0, 1.0, 0.5),
        (PLUMB, 3.83, 1.0, 0.048457),
        (JOINT, 11.60, 2.0, 0.945201),
        (JOINT, 15.0, 2.0, 0.999999),
        (Limit(low=3.0), 3.82, 1.0, 0.949497),
    ],
)
def test_the_probability_of_conforming_follows_the_normal_distribution(
    limit: Limit, value: float, uncertainty: float, probability: float
) -> None:
    assert decide(value, uncertainty, limit, GUARDED).probability == pytest.approx(probability, abs=1e-6)


def test_the_margin_is_that_of_the_limit_not_of_the_band() -> None:
    assert decide(2.5, 1.0, PLUMB, GUARDED).margin == 0.5


def test_an_instrument_too_coarse_for_the_limit_decides_nothing_inside_it() -> None:
    assert {decide(value, 12.0, JOINT, GUARDED).outcome for value in (10, 12, 15, 20)} == {U}


def test_a_reading_without_its_sign_has_two_ways_of_being_wrong() -> None:
    """Diagonals that differ by 0 mm, U = 2 mm each (k = 2), limit 3 mm: 0.966; one-sided 0.983."""
    spread = 2 * 2**0.5
    assert decide(0, spread, PLUMB, GUARDED, signed=False).probability == pytest.approx(0.966, abs=5e-4)
    assert decide(0, spread, PLUMB, GUARDED, signed=True).probability == pytest.approx(0.983, abs=5e-4)
    assert decide(0, spread, PLUMB, GUARDED, signed=False)[:2] == decide(0, spread, PLUMB, GUARDED)[:2]


def test_a_low_limit_stays_as_it_is_without_a_sign() -> None:
    for limit in (JOINT, Limit(low=80)):
        assert decide(12, 2.0, limit, GUARDED, signed=False) == decide(12, 2.0, limit, GUARDED)


def test_the_first_edition_keeps_its_one_sided_probability() -> None:
    first = Method(computations=1)
    assert decide(0, 2.0, PLUMB, first, signed=False) == decide(0, 2.0, PLUMB, first, signed=True)
