"""Loads, supports and fixings against published values and worked statics."""

import math

import pytest

from revealbook.measures.physics.fixing_resistance import Interaction, combined, utilisation
from revealbook.measures.physics.loads import (
    dead_load_n,
    eccentric_moment_nm,
    glass_mass_kg,
    hinge_pull_n,
    moment_tension_n,
    shear_per_fixing_n,
)
from revealbook.measures.physics.support_reactions import PointLoad, SpreadLoad, support_reactions_n


@pytest.mark.parametrize(
    ("panes_mm", "width_m", "height_m", "expected_kg"),
    [((4, 4, 4), 1.2, 1.5, 54.0), ((4, 4, 4), 1.23, 1.48, 54.612), ((4, 4), 0.9, 2.1, 37.8)],
)
def test_glass_mass(panes_mm: tuple[float, ...], width_m: float, height_m: float, expected_kg: float) -> None:
    """2500 kg/m3, EN 572-1 (published)."""
    assert glass_mass_kg(panes_mm, width_m * height_m) == pytest.approx(expected_kg, abs=1e-9)


def test_weight_of_glass_by_its_mass() -> None:
    """54 kg weigh 0.52956 kN; by the 25 kN/m3 of EN 1991-1-1 they would be 0.5400 kN (published)."""
    assert dead_load_n(54) / 1000 == pytest.approx(0.52956, abs=5e-6)
    assert 25 * 1.2 * 1.5 * 0.012 / (dead_load_n(54) / 1000) - 1 == pytest.approx(0.0197, abs=5e-5)


@pytest.mark.parametrize(
    ("partial_factor", "moment_nm", "tension_n", "shear_n"),
    [(1.0, 94.1438, 392.266, 196.133), (1.35, 127.0942, 529.559, 264.780)],
)
def test_eccentric_dead_load(
    partial_factor: float, moment_nm: float, tension_n: float, shear_n: float
) -> None:
    """80 kg, e 0.12 m, n 4, z 0.06 m: textbook statics (from memory), worked by hand."""
    load_n = partial_factor * dead_load_n(80)
    moment = eccentric_moment_nm(load_n, 120)
    assert moment == pytest.approx(moment_nm, abs=5.1e-5)
    assert moment_tension_n(moment, 60, 4) == pytest.approx(tension_n, abs=5.1e-4)
    assert shear_per_fixing_n(load_n, 4) == pytest.approx(shear_n, abs=5.1e-4)


def test_pull_on_the_upper_hinge() -> None:
    """40 kg, 0.8 m wide, hinges 1.2 m apart (worked by hand)."""
    assert hinge_pull_n(40, 800, 1200) == pytest.approx(130.755, abs=5.1e-4)


@pytest.mark.parametrize(
    ("uses", "expected"),
    [
        ((0.6, 0.5), (1.1, 1.1, 0.818311, 0.61, 0.928571)),
        ((0.9, 0.2), (1.1, 1.1, 0.943258, 0.85, 0.842857)),
        ((0.8, 0.5), (1.3, 1.3, 1.069095, 0.89, 1.071429)),
        ((0.63, 0.63), (1.26, 1.26, 1.000094, 0.7938, 1.08)),
        ((1.0, 0.0), (1.0, 1.0, 1.0, 1.0, 0.714286)),
    ],
)
def test_interaction_rules(uses: tuple[float, float], expected: tuple[float, ...]) -> None:
    """ETAG 001 annex C by way of a public manual, EN 1993-1-8 table 3.4 (both published)."""
    rules = (
        Interaction.LINEAR,
        Interaction.LINEAR_TO_1_2,
        Interaction.POWER_1_5,
        Interaction.POWER_2,
        Interaction.BOLT,
    )
    assert tuple(combined(*uses, rule) for rule in rules) == pytest.approx(expected, abs=5.1e-7)


def test_verdicts_of_the_interaction_rules() -> None:
    """The same two uses pass one rule and fail another (worked by hand)."""
    assert utilisation(0.6, 0.5, Interaction.LINEAR) > 1 >= utilisation(0.6, 0.5, Interaction.LINEAR_TO_1_2)
    assert utilisation(0.8, 0.5, Interaction.POWER_1_5) > 1 >= utilisation(0.8, 0.5, Interaction.POWER_2)
    assert utilisation(0.8, 0.5, Interaction.BOLT) > 1
    assert utilisation(0.8, 0.5, Interaction.LINEAR_TO_1_2) > 1
    assert utilisation(0.63, 0.63, Interaction.POWER_1_5) > 1


@pytest.mark.parametrize(
    ("rule", "equal_use"),
    [
        (Interaction.LINEAR, 0.5),
        (Interaction.LINEAR_TO_1_2, 0.6),
        (Interaction.POWER_1_5, 0.629961),
        (Interaction.POWER_2, 0.707107),
    ],
)
def test_the_equal_use_each_rule_admits(rule: Interaction, equal_use: float) -> None:
    assert combined(equal_use, equal_use, rule) / rule.limit == pytest.approx(1, abs=3e-6)


def test_support_reactions_balance_forces_and_moments() -> None:
    """Equilibrium is the outside authority here: it holds for any arrangement of supports."""
    supports_mm = (80, 420, 990, 1310)
    loads: list[PointLoad | SpreadLoad] = [PointLoad(0, 300), PointLoad(700, 120), SpreadLoad(50, 1400, 900)]
    reactions = support_reactions_n(supports_mm, loads)
    assert math.fsum(reactions) == pytest.approx(1320)
    moment = math.fsum(force * at for force, at in zip(reactions, supports_mm, strict=True))
    assert moment == pytest.approx(120 * 700 + 900 * 725)


def test_the_tributary_model_gives_the_middle_of_three_supports_a_fifth_less_than_a_stiff_sill() -> None:
    """A continuous beam over three even supports gives the middle one 5/8 of an even load (textbook)."""
    middle_n = support_reactions_n((0, 500, 1000), [SpreadLoad(0, 1000, 800)])[1]
    assert middle_n == pytest.approx(400)
    assert 800 * 5 / 8 / middle_n == pytest.approx(1.25)
