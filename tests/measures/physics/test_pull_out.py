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


def test_a_load_of_less_than_a_newton_is_a_load() -> None:
    assert characteristic_resistance_n([0.5, 0.5, 0.5]) == 0.5


@pytest.mark.parametrize(("trials", "factor"), [(3, 3.37), (4, 2.63), (5, 2.33), (6, 2.18), (10, 1.92)])
def test_factors_of_the_table_of_unknown_scatter(trials: int, factor: float) -> None:
    """EN 1990:2002 table D.1, V unknown (published values, from memory), to a hundredth."""
    assert fractile_factor(trials) == pytest.approx(factor, abs=0.008)
