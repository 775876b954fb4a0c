import pytest
from pydantic import ValidationError

from revealbook.records.supports import Plinth, Supports


def test_a_window_without_supports_says_so() -> None:
    assert Supports.model_validate({"called_for": False}).called_for is False
    assert Supports.model_validate({"placed": []}).placed == ()
    assert Supports.model_validate({}).placed is None


@pytest.mark.parametrize("screws", ["self-drilling metal screws", "wood screws", "other", "none"])
def test_a_plinth_profile_says_what_it_was_screwed_with(screws: str) -> None:
    assert Plinth.model_validate({"screws": screws}).screws == screws


def test_packers_of_no_height_are_a_reading() -> None:
    plinth = Plinth.model_validate({"packers": {"height_needed_mm": 0}})
    assert plinth.packers is not None
    assert plinth.packers.height_needed_mm == 0
    with pytest.raises(ValidationError):
        Plinth.model_validate({"packers": {"height_needed_mm": -1}})
