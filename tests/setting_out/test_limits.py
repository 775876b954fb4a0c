from dataclasses import MISSING, fields, replace

import pytest
from tests.setting_out.practice import PRACTICE

from revealbook.setting_out.limits import Limits, require_whole_mm

# The base rule set's numbers: common practice, no source.


def test_limits_of_practice_have_no_value_of_their_own() -> None:
    with pytest.raises(TypeError, match="overlap_mm"):
        Limits()  # type: ignore[call-arg]


@pytest.mark.parametrize(
    "contradiction",
    [
        {"end_distance_min_mm": 201},
        {"joint_distance_min_mm": 201},
        {"centres_min_mm": 701},
        {"bracket_end_distance_min_mm": 151},
        {"bracket_centres_min_mm": 601},
    ],
)
def test_a_least_distance_above_the_greatest_is_refused(contradiction: dict[str, int]) -> None:
    with pytest.raises(ValueError, match="is greater than"):
        replace(PRACTICE, **contradiction)


@pytest.mark.parametrize(
    ("nonsense", "words"),
    [
        ({"holes_per_part_min": 3}, "is 1 or 2"),
        ({"support_hole_edge_mm": 76}, "too short"),
        ({"centres_min_mm": 0}, "must be at least 1"),
        ({"support_holes": 0}, "must be at least 1"),
        ({"overlap_mm": -80}, "whole number of at least 0"),
    ],
)
def test_limits_that_no_piece_could_keep_are_refused(nonsense: dict[str, int], words: str) -> None:
    with pytest.raises(ValueError, match=words):
        replace(PRACTICE, **nonsense)


def test_shortest_part_holds_an_end_hole_and_a_joint_hole() -> None:
    assert PRACTICE.part_min_mm == 150 + 50 + 50
    assert replace(PRACTICE, holes_per_part_min=1).part_min_mm == 150 + 50


@pytest.mark.parametrize("value", [80.5, 80.0, True, -1])
def test_what_a_tape_does_not_show_is_refused(value: float) -> None:
    with pytest.raises(ValueError, match="width_mm must be a whole number of at least 0"):
        require_whole_mm("width_mm", value)


def test_the_least_allowed_value_is_allowed() -> None:
    require_whole_mm("width_mm", 5, least=5)
    with pytest.raises(ValueError, match="at least 6"):
        require_whole_mm("width_mm", 5, least=6)


def test_a_drill_need_not_be_whole_but_cannot_be_nothing() -> None:
    assert replace(PRACTICE, hole_diameter_mm=7.5).hole_diameter_mm == 7.5
    with pytest.raises(ValueError, match="greater than 0"):
        replace(PRACTICE, hole_diameter_mm=0)


def test_limits_of_supports_may_be_unknown() -> None:
    assert replace(PRACTICE, support_length_mm=None, support_holes=None).support_holes is None


@pytest.mark.parametrize(
    "on_the_border",
    [
        {"end_distance_min_mm": 200}, {"joint_distance_min_mm": 200}, {"centres_min_mm": 700},
        {"bracket_end_distance_min_mm": 150}, {"bracket_centres_min_mm": 600}, {"support_hole_edge_mm": 75},
        {"centres_min_mm": 1}, {"bracket_centres_min_mm": 1}, {"support_holes": 1}, {"holes_per_part_min": 1},
        {"hole_diameter_mm": 0.5}, {"overlap_mm": 0},
    ],
)  # fmt: skip
def test_limits_that_one_layout_can_just_keep_are_allowed(on_the_border: dict[str, float]) -> None:
    kept = replace(PRACTICE, **on_the_border)  # type: ignore[arg-type]
    assert {key: getattr(kept, key) for key in on_the_border} == on_the_border


@pytest.mark.parametrize("value", [0, 3])
def test_a_part_has_one_hole_or_two(value: int) -> None:
    with pytest.raises(ValueError, match="is 1 or 2"):
        replace(PRACTICE, holes_per_part_min=value)


def test_brackets_need_centres_too() -> None:
    with pytest.raises(ValueError, match="must be at least 1"):
        replace(PRACTICE, bracket_centres_min_mm=0)


def test_this_modules_own_assumptions_where_no_rule_says_otherwise() -> None:
    asked = {
        field.name: getattr(PRACTICE, field.name) for field in fields(Limits) if field.default is MISSING
    }
    own = Limits(**asked)
    assert (own.joint_distance_min_mm, own.centres_min_mm, own.holes_per_part_min) == (50, 50, 2)
    assert (own.support_hole_edge_mm, own.support_joint_clear_mm, own.support_offset_max_mm) == (35, 50, None)
    assert (own.bracket_end_distance_min_mm, own.bracket_end_distance_max_mm) == (50, 150)
    assert (own.bracket_centres_min_mm, own.bracket_centres_max_mm) == (100, 600)


def test_a_part_beside_a_joint_keeps_the_greater_of_both_distances() -> None:
    assert replace(PRACTICE, end_distance_min_mm=20).part_min_mm == 50 + 50 + 50
