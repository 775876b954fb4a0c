import pytest
from pydantic import ValidationError

from revealbook.records.survey import Survey


def test_a_survey_may_be_half_filled_in() -> None:
    survey = Survey.model_validate({"widths_mm": {"top": 1232}, "sound": True})
    assert survey.widths_mm is not None
    assert (survey.widths_mm.top, survey.widths_mm.bottom) == (1232, None)
    assert survey.dry is None


@pytest.mark.parametrize("size", [1.232, 99, 12_001, -1232])
def test_sizes_that_cannot_be_meant_are_refused(size: float) -> None:
    with pytest.raises(ValidationError):
        Survey.model_validate({"heights_mm": {"left": size}})
