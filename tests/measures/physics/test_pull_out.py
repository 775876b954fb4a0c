import pytest

from revealbook.measures.physics.pull_out import characteristic_resistance_n, fractile_factor

LOADS_N = [3900, 4200, 3650, 4050, 3800]


def test_worked_example() -> None:
    """The example in docs/calculations/loads.md: mean 3920 N, s = 213.9 N, k = 2.335."""
    assert characteristic_resistance_n(LOADS_N) == pytest.approx(3420, abs=1)


def test_what_scatters_more_bears_less_at_the_same_mean() -> None:
    assert characteristic_resistance_n([2920, 3420, 3920, 4420, 4920]) < characteristic_resistance_n(LOADS_N)
    assert characteristic_resistance_n([100, 100, 9000]) < 0
    assert characteristic_resistance_n([4000] * 5) == 4000


@pytest.mark.parametrize("loads", [[], [4000, 4100], [4000, 0, 4100], [4000, float("nan"), 4100]])
def test_too_few_trials_and_loads_that_are_none_are_refused(loads: list[float]) -> None:
    with pytest.raises(ValueError, match="trial"):
        characteristic_resistance_n(loads)


def test_more_trials_need_a_smaller_factor() -> None:
    assert fractile_factor(3) > fractile_factor(5) > fractile_factor(15) > 1.64
