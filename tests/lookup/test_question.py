"""A question asks nothing until something is named, and cannot change once asked."""

from dataclasses import FrozenInstanceError, fields

import pytest

from revealbook.lookup.question import Answer, Question


def test_a_new_question_asks_for_nothing() -> None:
    assert not any(getattr(Question(), one.name) for one in fields(Question))


def test_a_question_stays_as_it_was_asked() -> None:
    with pytest.raises(FrozenInstanceError):
        Question().mark = "W-1"  # type: ignore[misc]


def test_an_answer_understands_no_place_unless_told() -> None:
    assert dict(Answer((), 0).understood) == {}
