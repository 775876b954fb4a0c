import pytest

from revealbook.measures.physics.fixing_resistance import Interaction, combined, fixings_needed, utilisation


def test_the_worked_example_of_the_docs() -> None:
    """docs/calculations/loads.md: 1569 N of tension, 785 N of shear; one fixing is good for 600 and 900 N."""
    assert fixings_needed(1569.06, 784.532, 600, 900) == 4
    assert utilisation(1569.06 / 4 / 600, 784.532 / 4 / 900) == pytest.approx(0.8717, abs=5e-5)
    assert utilisation(1569.06 / 3 / 600, 784.532 / 3 / 900) > 1


def test_the_straight_line_is_the_default() -> None:
    assert combined(0.6, 0.5) == combined(0.6, 0.5, Interaction.LINEAR) == pytest.approx(1.1)
    assert fixings_needed(100, 100, 100, 100) == fixings_needed(100, 100, 100, 100, Interaction.LINEAR) == 2


def test_the_rule_up_to_1_2_admits_more_of_the_same_sum() -> None:
    assert utilisation(0.6, 0.5, Interaction.LINEAR) > 1
    assert utilisation(0.6, 0.5, Interaction.LINEAR_TO_1_2) == pytest.approx(1.1 / 1.2)
    assert Interaction.LINEAR_TO_1_2.limit == 1.2


@pytest.mark.parametrize("rule", list(Interaction))
def test_tension_alone_and_shear_alone_are_admitted_up_to_their_resistance(rule: Interaction) -> None:
    assert utilisation(1, 0, rule) == utilisation(0, 1, rule) == 1
    assert utilisation(1.001, 0, rule) > 1
    assert utilisation(0, 1.001, rule) > 1


def test_tension_alone_is_not_excused_by_the_factor_of_bolts() -> None:
    assert combined(1.2, 0, Interaction.BOLT) < 1
    assert utilisation(1.2, 0, Interaction.BOLT) == 1.2
    assert fixings_needed(1.2, 0, 1, 1, Interaction.BOLT) == 2


@pytest.mark.parametrize("rule", list(Interaction))
def test_the_number_found_holds_and_one_fewer_does_not(rule: Interaction) -> None:
    needed = fixings_needed(3400, 2900, 600, 900, rule)
    assert utilisation(3400 / needed / 600, 2900 / needed / 900, rule) <= 1
    fewer = needed - 1
    assert utilisation(3400 / fewer / 600, 2900 / fewer / 900, rule) > 1


def test_a_load_that_fits_exactly_asks_for_no_spare_fixing() -> None:
    assert fixings_needed(0.3, 0, 0.1, 1) == 3


def test_without_load_one_fixing_still_stands() -> None:
    assert fixings_needed(0, 0, 600, 900) == 1


@pytest.mark.parametrize(
    ("numbers", "sentence"),
    [
        ((-1, 0, 1, 1), "tension_n must not be below zero"),
        ((0, -1, 1, 1), "shear_n must not be below zero"),
        ((1, 1, 0, 1), "tension_resistance_n must be above zero"),
        ((1, 1, 1, 0), "shear_resistance_n must be above zero"),
        ((float("nan"), 1, 1, 1), "tension_n must be a finite number"),
    ],
)
def test_nonsense_is_refused(numbers: tuple[float, float, float, float], sentence: str) -> None:
    with pytest.raises(ValueError, match=sentence):
        fixings_needed(*numbers)


def test_a_negative_use_is_refused() -> None:
    with pytest.raises(ValueError, match="tension_use must not be below zero"):
        combined(-0.1, 0.5)
    with pytest.raises(ValueError, match="shear_use must not be below zero"):
        utilisation(0.1, -0.5)


@pytest.mark.parametrize(
    ("rule", "tension", "shear", "sum_", "limit"),
    [
        (Interaction.LINEAR, 0.6, 0.5, 1.1, 1),
        (Interaction.LINEAR_TO_1_2, 0.6, 0.5, 1.1, 1.2),
        (Interaction.POWER_1_5, 0.36, 0.64, 0.728, 1),
        (Interaction.POWER_2, 0.6, 0.5, 0.61, 1),
        (Interaction.BOLT, 0.7, 0.4, 0.9, 1),
    ],
)
def test_each_rule_adds_tension_and_shear_in_its_own_way(
    rule: Interaction, tension: float, shear: float, sum_: float, limit: float
) -> None:
    """By hand from the rules: 0.36^1.5 = 0.216, 0.64^1.5 = 0.512; 0.7 / 1.4 = 0.5."""
    assert combined(tension, shear, rule) == pytest.approx(sum_)
    assert rule.limit == limit
