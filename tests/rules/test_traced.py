from tests.builders import full_opening

from revealbook.measures.work import look
from revealbook.records.opening import Opening
from revealbook.records.survey import Survey
from revealbook.rules.traced import Traced


def record() -> tuple[Opening, set[str]]:
    seen: set[str] = set()
    return Traced(Opening.model_validate(full_opening()), seen), seen  # type: ignore[return-value]


def test_a_key_that_is_taken_is_noted_with_those_above_it() -> None:
    opening, seen = record()
    assert look(opening, ("survey", "sound")) is True
    assert seen == {"survey", "survey.sound"}


def test_items_of_a_list_share_a_path() -> None:
    opening, seen = record()
    assert opening.seals is not None
    assert [event.step for event in opening.seals.events or ()]
    assert seen == {"seals", "seals.events", "seals.events.step"}


def test_a_part_passes_for_what_it_stands_for_and_methods_work() -> None:
    opening, seen = record()
    plain = Opening.model_validate(full_opening())
    assert isinstance(opening.survey, Survey)
    assert opening.survey == plain.survey
    assert hash(opening.survey) == hash(plain.survey)
    assert opening.mark == "W-1.01"
    assert "mark" not in seen
