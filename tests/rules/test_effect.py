from typing import Any

import pytest

from revealbook.measures.method import Method
from revealbook.rules.effect import _TIGHTER_IF, effect_on_limit, effect_on_method, turned_round
from revealbook.rules.limit import Limit, Step

AT_LEAST, AT_MOST, BETWEEN = Limit(low=80), Limit(high=700), Limit(low=150, high=200)
BY_WIDTH = Limit(by="width", steps=(Step(1000, 10), Step(3000, 12)))


def by_width(*steps: tuple[float, float]) -> Limit:
    return Limit(by="width", steps=tuple(Step(*step) for step in steps))


@pytest.mark.parametrize(
    ("before", "after", "effect"),
    [
        (AT_LEAST, Limit(low=100), "tightened"),
        (AT_LEAST, Limit(low=60), "relaxed"),
        (AT_LEAST, Limit(low=80, high=120), "tightened"),
        (AT_LEAST, Limit(low=60, high=120), "relaxed"),
        (AT_MOST, Limit(high=600), "tightened"),
        (AT_MOST, Limit(high=701), "relaxed"),
        (BETWEEN, Limit(low=160, high=200), "tightened"),
        (BETWEEN, Limit(low=160, high=210), "relaxed"),
        (BETWEEN, Limit(low=150), "relaxed"),
        (AT_MOST, Limit(low=600), "relaxed"),
        (Limit(equals=True), Limit(equals=False), "relaxed"),
        (Limit(choices=("a", "b")), Limit(choices=("a",)), "tightened"),
        (Limit(choices=("a", "b")), Limit(choices=("a", "c")), "relaxed"),
        (BY_WIDTH, by_width((1000, 10), (3000, 11)), "tightened"),
        (BY_WIDTH, by_width((500, 9), (1000, 10), (3000, 12)), "tightened"),
        (BY_WIDTH, by_width((2000, 10), (3000, 13)), "relaxed"),
        (BY_WIDTH, by_width((1000, 10)), "tightened"),
        (BY_WIDTH, by_width((1000, 10), (4000, 12)), "relaxed"),
        (BY_WIDTH, Limit(high=10), "relaxed"),
        (Limit(high=10), BY_WIDTH, "relaxed"),
        (Limit(high=12), BY_WIDTH, "tightened"),
        (BY_WIDTH, Limit(by="height", steps=(Step(3000, 1),)), "relaxed"),
    ],
)
def test_a_limit_that_is_wider_anywhere_is_relaxed(before: Limit, after: Limit, effect: str) -> None:
    assert effect_on_limit(before, after) == effect


@pytest.mark.parametrize(
    ("before", "after", "turned"),
    [
        (AT_LEAST, AT_MOST, True),
        (AT_MOST, AT_LEAST, True),
        (AT_LEAST, BETWEEN, False),
        (BETWEEN, AT_MOST, False),
        (AT_MOST, BY_WIDTH, False),
        (AT_LEAST, BY_WIDTH, True),
        (Limit(equals=True), Limit(equals=False), True),
        (Limit(choices=("a",)), Limit(choices=("b",)), False),
    ],
)
def test_a_least_value_for_a_greatest_one_is_turned_round(before: Limit, after: Limit, turned: bool) -> None:
    assert turned_round(before, after) is turned


@pytest.mark.parametrize(
    ("name", "before", "after", "effect"),
    [
        ("guard_band_factor", 1, 0.83, "relaxed"),
        ("guard_band_factor", 1, 1.5, "tightened"),
        ("hold_points", ("frame",), ("frame", "foam"), "tightened"),
        ("hold_points", ("frame", "foam"), ("frame", "window"), "relaxed"),
        ("conceding_roles", ("client", "supplier"), ("client",), "tightened"),
        ("conceding_roles", ("client",), ("client", "supplier"), "relaxed"),
        ("decision", "guard band", "simple acceptance", "relaxed"),
        ("decision", "simple acceptance", "guard band", "tightened"),
        ("interaction", "linear", "linear to 1.2", "relaxed"),
        ("interaction", "linear", "bolt", "relaxed"),
        ("nobody_knows", 1, 2, "relaxed"),
        ("warmest_dark_c", 79, None, "relaxed"),
        ("warmest_dark_c", 79, 85, "tightened"),
        ("slope_over_at_least_mm", 1000, 1500, "relaxed"),
    ],
)
def test_a_method_parameter_is_tightened_only_where_that_is_known(
    name: str, before: Any, after: Any, effect: str
) -> None:
    assert effect_on_method(name, before, after) == effect


def test_parameters_whose_way_is_known_are_parameters() -> None:
    assert set(_TIGHTER_IF) <= set(Method.model_fields)
