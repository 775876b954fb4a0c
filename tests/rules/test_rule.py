from typing import Any

import pytest
from pydantic import ValidationError
from tests.rules.sets import rule

STEPS = [{"up_to": 1000, "limit": 10}]
BY = {"at_most_by": "nominal_width"}


def refusal(**changes: Any) -> tuple[str, tuple[Any, ...]]:
    with pytest.raises(ValidationError) as caught:
        rule(**changes)
    (error,) = caught.value.errors()
    return error["type"], error["loc"]


def test_a_rule_that_says_everything_is_taken() -> None:
    assert rule().id == "frame-overlap"
    assert rule().conditions == ()


@pytest.mark.parametrize(
    "changes",
    [
        {"at_least": None},
        {"at_least": 80, "at_most": 90},
        {"at_least": 80, "equal_to": True},
        {**BY, "at_most": 3, "steps": STEPS},
    ],
)
def test_a_rule_states_exactly_one_kind_of_limit(changes: dict[str, Any]) -> None:
    assert refusal(**changes)[0] == "limit_kinds"


@pytest.mark.parametrize(
    "changes",
    [
        {"between": [200, 150]},
        {"one_of": []},
    ],
)
def test_a_limit_that_nothing_could_meet_is_refused(changes: dict[str, Any]) -> None:
    assert refusal(**changes)[0] == "limit_never_met"


def test_a_span_of_one_value_can_be_met() -> None:
    assert rule(between=[150, 150]).limit.margin(150) == 0


@pytest.mark.parametrize(
    "changes",
    [
        BY,
        {"at_least_by": "nominal_width"},
        {"at_most": 3, "steps": STEPS},
        {**BY, "steps": []},
        {**BY, "steps": [{"up_to": 3000, "limit": 12}, {"up_to": 1000, "limit": 10}]},
        {**BY, "steps": [{"up_to": 1000, "limit": 12}, {"up_to": 1000, "limit": 10}]},
    ],
)
def test_steps_go_with_a_size_and_rise(changes: dict[str, Any]) -> None:
    assert refusal(**changes)[0] == "limit_steps"


def test_limits_may_fall_as_the_size_rises() -> None:
    falling = [{"up_to": 1000, "limit": 12}, {"up_to": 3000, "limit": 10}]
    assert rule(**BY, steps=falling).limit.at_size(2000) is not None


@pytest.mark.parametrize(
    ("key", "value"),
    [
        ("id", "Frame overlap"),
        ("id", "frame_overlap"),
        ("id", "frame-"),
        ("stage", "roof"),
        ("unit", "inch"),
        ("grade", "severe"),
        ("measure", "Frame-Overlap"),
        ("at_least", float("nan")),
        ("at_least", float("inf")),
        ("at_least", "80"),
        ("requirement", ""),
    ],
)
def test_a_key_that_cannot_mean_anything_is_refused(key: str, value: object) -> None:
    assert refusal(**{key: value})[1][0] == key


@pytest.mark.parametrize(
    "key", ["id", "stage", "requirement", "measure", "unit", "grade", "basis", "why", "remedy"]
)
def test_a_rule_without_one_of_its_keys_is_refused(key: str) -> None:
    kind, loc = refusal(**{key: None})
    assert (kind, loc) == ("missing", (key,))


def test_an_expression_is_no_key_of_a_rule() -> None:
    assert refusal(when="width_mm > 1000") == ("extra_forbidden", ("when",))


def test_yes_is_not_taken_for_the_number_one() -> None:
    assert rule(equal_to=True).limit.equals is True
    assert rule(equal_to=1).limit.equals is None


def test_conditions_stand_with_the_answer_they_ask_for() -> None:
    held = rule(applies_when=["plinth_used", "height_made_up"], applies_unless=["insulation_follows"])
    assert held.conditions == (("plinth_used", True), ("height_made_up", True), ("insulation_follows", False))


def test_a_rule_needs_its_measure_its_size_and_its_conditions() -> None:
    held = rule(**BY, steps=STEPS, applies_unless=["insulation_follows"])
    assert held.measures == ("frame_overlap", "nominal_width", "insulation_follows")
