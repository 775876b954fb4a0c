"""What was asked of an archive, in words."""

from dataclasses import fields
from datetime import date

from revealbook.lookup.question import Question
from revealbook.present.asked import asked
from revealbook.present.words import words_in
from revealbook.rules.finding import Outcome

ENGLISH = words_in("en")


def test_the_parts_are_said_one_after_the_other() -> None:
    parts = {"words": "kitchen", "since": date(2026, 11, 2), "outcome": Outcome.NOT_SHOWN}
    assert asked(parts, ENGLISH) == "words kitchen; worked on from 2026-11-02; outcome not shown"


def test_every_part_of_a_question_has_words() -> None:
    for field in fields(Question):
        assert asked({field.name: "x"}, ENGLISH)


def test_who_asks_for_nothing_gets_everything() -> None:
    assert asked({}, ENGLISH) == "everything"
