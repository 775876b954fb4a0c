"""Pull-out trials: the factors of EN 1990, table D1, and scipy's own fractile."""

import numpy as np
import pytest
from scipy.stats import norm, t

from revealbook.measures.physics.pull_out import characteristic_resistance_n, fractile_factor

PRINTED = {3: 3.37, 4: 2.63, 5: 2.33, 6: 2.18, 8: 2.00, 10: 1.92, 20: 1.76, 30: 1.73}
"""EN 1990:2002, table D1, coefficient of variation unknown; from memory. Some are rounded down in print."""


@pytest.mark.parametrize(("trials", "factor"), PRINTED.items())
def test_the_factor_is_that_of_the_table(trials: int, factor: float) -> None:
    assert fractile_factor(trials) == pytest.approx(factor, abs=0.015)


def test_many_trials_leave_the_plain_fractile() -> None:
    assert fractile_factor(100_000) == pytest.approx(norm.ppf(0.95), abs=1e-3)  # 1.64 in the table


def test_the_next_fixing_comes_out_below_it_once_in_twenty() -> None:
    """What the factor means: drawn many times, the next load lies below the fractile in 5 % of all."""
    drawn = np.random.default_rng(1990).normal(4000, 500, (200_000, 6))
    trials, following = drawn[:, :5], drawn[:, 5]
    factor = t.ppf(0.95, 4) * np.sqrt(1 + 1 / 5)
    below = following < trials.mean(axis=1) - factor * trials.std(axis=1, ddof=1)
    assert below.mean() == pytest.approx(0.05, abs=0.002)
    one = trials[0].tolist()
    assert characteristic_resistance_n(one) == pytest.approx(np.mean(one) - factor * np.std(one, ddof=1))
