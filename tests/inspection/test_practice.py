import pytest
from pydantic import BaseModel, ValidationError

from revealbook.inspection.practice import (
    Agree,
    Entries,
    OnLimit,
    OtherSize,
    Pace,
    Photos,
    Places,
    Practice,
    Repeated,
    fits,
    practice,
)
from revealbook.records.opening import Opening


def test_a_star_stands_for_one_part_and_what_lies_below_fits_too() -> None:
    path = ("frame", "pieces", "left", "fixings", 0, "at_mm", 2)
    assert fits(path, ("frame", "pieces", "*", "fixings", "*", "at_mm"))
    assert fits(path, ("frame",))
    assert not fits(path, ("frame", "pieces", "*", "holes_mm"))
    assert not fits(("frame",), ("frame", "pieces"))


def _patterns() -> list[tuple[str, ...]]:
    stated = practice()
    return [one.at for one in stated.hidden] + [at for block in stated.repeated.blocks for at in block.at]


@pytest.mark.parametrize("pattern", _patterns(), ids=".".join)
def test_every_place_that_practice_names_is_one_of_the_record(pattern: tuple[str, ...]) -> None:
    schema = Opening.model_json_schema()
    here = schema
    for part in pattern:
        here = _inside(here, schema)
        if part == "*":
            choices = here.get("properties")
            here = next(iter(choices.values())) if choices else here["items"]
        else:
            here = here["properties"][part]


def _inside(part: dict, schema: dict) -> dict:  # type: ignore[type-arg]
    if "anyOf" in part:
        part = next(one for one in part["anyOf"] if one.get("type") != "null")
    if "$ref" in part:
        part = schema["$defs"][part["$ref"].rsplit("/", 1)[1]]
    return part


def test_coarser_grids_make_repeats_likelier() -> None:
    for block in practice().repeated.blocks:
        ordered = sorted(block.agree, key=lambda one: one.grid_mm)
        assert [one.chance for one in ordered] == sorted(one.chance for one in ordered)


@pytest.mark.parametrize(
    ("model", "least", "too_little"),
    [
        (OnLimit, {"least_readings": 3, "least_on_limit": 2}, {"least_readings": 2, "least_on_limit": 1}),
        (Places, {"tolerance_min": 0.0}, {"tolerance_min": -0.1}),
        (Entries, {"tolerance_min": 0.0, "late_days": 0.1}, {"tolerance_min": -0.1, "late_days": 0.0}),
        (Photos, {"away_h": 0.1}, {"away_h": 0.0}),
        (Agree, {"grid_mm": 0.1, "chance": 0.01}, {"grid_mm": 0.0, "chance": 0.0}),
        (OtherSize, {"apart_mm": 0.1, "chance": 0.99}, {"apart_mm": 0.0, "chance": 1.0}),
        (
            Pace,
            dict.fromkeys(Pace.model_fields, 0.0),
            dict.fromkeys(Pace.model_fields, -0.1),
        ),
    ],
)
def test_numbers_of_practice_have_a_least_value(
    model: type[BaseModel], least: dict[str, float], too_little: dict[str, float]
) -> None:
    assert model.model_validate(least).model_dump() == least
    for key, value in too_little.items():
        with pytest.raises(ValidationError):
            model.model_validate(least | {key: value})


def test_a_chance_is_less_than_sure_and_a_grid_is_shared_by_more_than_half() -> None:
    stated = practice()
    for wrong in (0.5, 1.1):
        with pytest.raises(ValidationError):
            Repeated.model_validate(stated.repeated.model_dump() | {"on_grid": wrong})
    with pytest.raises(ValidationError):
        Repeated.model_validate(stated.repeated.model_dump() | {"least_readings": 1})
    both = Repeated.model_validate(stated.repeated.model_dump() | {"on_grid": 1.0, "least_readings": 2})
    assert (both.on_grid, both.least_readings) == (1, 2)
    for wrong in (0.0, 1.0):
        with pytest.raises(ValidationError):
            Practice.model_validate(stated.model_dump() | {"false_alarm": wrong})
    with pytest.raises(ValidationError):
        Agree(grid_mm=1, chance=1.0)


def test_a_pattern_as_long_as_the_place_fits_it() -> None:
    assert fits(("frame", "at"), ("frame", "at"))
    assert not fits(("frame",), ("frame", "*"))


def test_the_numbers_are_read_once() -> None:
    assert practice() is practice()
