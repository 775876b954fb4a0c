import pytest
from pydantic import ValidationError
from tests.builders import full_opening

from revealbook.records.opening import Opening


def test_only_the_mark_is_asked_for() -> None:
    opening = Opening.model_validate({"opening": {"mark": "W-2.07"}})
    assert opening.mark == "W-2.07"
    assert opening.survey is None
    assert opening.hold_points is None
    assert opening.nonconformities == ()


def test_a_record_without_a_mark_is_refused() -> None:
    with pytest.raises(ValidationError):
        Opening.model_validate({"opening": {}})


def test_the_sections_stand_in_the_order_of_the_work() -> None:
    assert list(Opening.model_fields)[:10] == [
        "format",
        "opening", "survey", "frame", "supports", "plinth", "window", "seals", "tests", "hold_points",
    ]  # fmt: skip


def test_the_conforming_record_fills_every_section_of_the_work() -> None:
    opening = Opening.model_validate(full_opening())
    empty = {name for name in Opening.model_fields if getattr(opening, name) in (None, ())}
    assert empty <= {"tests"}


def test_two_records_of_the_same_content_are_equal_and_one_key_makes_a_difference() -> None:
    changed = full_opening()
    changed["survey"]["dry"] = False
    assert Opening.model_validate(full_opening()) == Opening.model_validate(full_opening())
    assert Opening.model_validate(changed) != Opening.model_validate(full_opening())
