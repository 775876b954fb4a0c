from collections import Counter
from random import Random

import pytest
from scipy.stats import binom

from revealbook.inspection.chance import all_counted, at_least, heaped, worth_counting


def test_a_coincidence_is_held_against_every_comparison_and_is_never_more_than_sure() -> None:
    assert all_counted(0.001, 20) == pytest.approx(0.02)
    assert all_counted(0.2, 20) == 1
    assert all_counted(0.2, 0) == 0.2


@pytest.mark.parametrize(("matches", "trials", "chance"), [(0, 4, 0.3), (3, 10, 0.2), (40, 60, 0.45)])
def test_equal_chances_give_the_binomial_tail(matches: int, trials: int, chance: float) -> None:
    assert at_least(matches, [chance] * trials) == pytest.approx(float(binom.sf(matches - 1, trials, chance)))


def test_unequal_chances_by_hand() -> None:
    assert at_least(1, [0.5, 0.2]) == pytest.approx(1 - 0.5 * 0.8)
    assert at_least(2, [0.5, 0.2]) == pytest.approx(0.1)


def test_a_heap_by_hand() -> None:
    """Two readings, weighted sum 2: (1, 0, 1) in two ways of order, (0, 2, 0) in one."""
    assert heaped(1, 0, 1).chance == pytest.approx(2 / 3)
    assert heaped(0, 2, 0).chance == pytest.approx(1)
    assert heaped(0, 2, 0).least == pytest.approx(2 / 3)


def test_a_heap_held_against_steps_further_in_by_hand() -> None:
    """Three readings, weighted sum 3, reach 3: (2, 0, 1) in three ways of order, (0, 3, 0) in one."""
    assert heaped(2, 0, 1, reach=3).chance == pytest.approx(3 / 4)
    assert heaped(0, 3, 0, reach=3).chance == pytest.approx(1)


@pytest.mark.parametrize("reach", [2, 3, 4])
def test_at_the_bound_the_chance_is_not_smaller_than_it_says(reach: int) -> None:
    """Shares as 1, t, t^r are the most heaped that are still smooth: 5 % of such sites have 5 % or less."""
    random, t = Random(reach), 1.3
    shares = [1, t, t**reach]
    chances = []
    for _ in range(2000):
        drawn = Counter(random.choices(range(3), shares, k=60))
        chances.append(heaped(drawn[0], drawn[1], drawn[2], reach).chance)
    assert 0.01 < sum(chance <= 0.05 for chance in chances) / len(chances) <= 0.06


def test_a_smooth_hump_is_no_heap_and_a_spike_is_one() -> None:
    assert heaped(20, 30, 25).chance > 0.5
    assert heaped(30, 25, 12).chance > 0.05
    assert heaped(40, 2, 12).chance < 1e-5


def test_what_never_varies_tells_nothing() -> None:
    assert heaped(96, 0, 0) == (1, 1)
    assert heaped(0, 0, 0) == (1, 1)


def test_comparisons_that_could_never_be_unlikely_are_not_counted() -> None:
    assert worth_counting([1.0] * 50 + [1e-9] * 3, 0.01) == 3
    assert worth_counting([1e-9] * 7, 0.01) == 7
    assert worth_counting([1.0], 0.01) == 1
    assert worth_counting([], 0.01) == 1


def test_no_comparison_at_all_counts_as_one() -> None:
    assert all_counted(0.3, 1) == 0.3
    assert all_counted(0.3, 2) == 0.6
    assert all_counted(0.0, 5) == 0


def test_more_successes_than_trials_are_impossible_and_none_is_sure() -> None:
    assert at_least(3, [0.5, 0.2]) == 0
    assert at_least(0, [0.5, 0.2]) == pytest.approx(1)
    assert at_least(0, []) == 1
    assert at_least(2, [0.5, 0.2, 0.1]) == pytest.approx(0.09 + 0.04 + 0.01 + 0.01)


def test_a_larger_heap_by_hand() -> None:
    """Four readings, weighted sum 4: (2, 0, 2) in six orders, (1, 2, 1) in twelve, (0, 4, 0) in one."""
    assert heaped(2, 0, 2).chance == pytest.approx(6 / 19)
    assert heaped(1, 2, 1).chance == pytest.approx(18 / 19)
    assert heaped(0, 4, 0).chance == pytest.approx(1)
    assert heaped(1, 2, 1).least == pytest.approx(6 / 19)


def test_comparisons_count_up_to_the_first_number_that_they_do_not_exceed() -> None:
    """At 0.01: two could give 0.004, three 0.009; held against 0.005 there are two."""
    assert worth_counting([0.004, 0.009, 0.004], 0.01) == 2
    assert worth_counting([0.005, 0.005, 0.5], 0.01) == 2
    assert worth_counting([0.0051, 0.0051, 0.5], 0.01) == 2
    assert worth_counting([0.0099], 0.01) == 1
