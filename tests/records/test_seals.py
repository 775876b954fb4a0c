import pytest
from pydantic import ValidationError

from revealbook.records.seals import Seals


def test_events_stay_in_the_order_in_which_they_were_entered() -> None:
    seals = Seals.model_validate({"events": [{"step": "trim"}, {"step": "foam"}, {}]})
    assert seals.events is not None
    assert [event.step for event in seals.events] == ["trim", "foam", None]


def test_an_event_at_an_impossible_day_is_refused() -> None:
    with pytest.raises(ValidationError):
        Seals.model_validate({"events": [{"step": "foam", "at": "2026-11-31T10:00+01:00"}]})


def test_an_sd_value_of_nought_is_refused() -> None:
    with pytest.raises(ValidationError):
        Seals.model_validate({"events": [{"step": "inner tape", "sd_m": 0}]})
