import pytest
from pydantic import ValidationError

from revealbook.records.glass import GlassSafety


def test_everything_may_be_missing_and_nothing_is_filled_in() -> None:
    assert set(GlassSafety().model_dump().values()) == {None}


def test_metres_where_millimetres_are_asked_for_stay_inside_and_a_negative_height_does_not() -> None:
    with pytest.raises(ValidationError):
        GlassSafety.model_validate({"sill_above_floor_mm": -1})
