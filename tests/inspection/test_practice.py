import pytest

from revealbook.inspection.practice import fits, practice
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
