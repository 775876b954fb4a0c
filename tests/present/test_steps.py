"""What a step of the work is called."""

import pytest
from tests.present import judging

from revealbook.present.facts import facts_of
from revealbook.present.steps import STEPS, WORK, step
from revealbook.present.words import words_in

ENGLISH, GERMAN = words_in("en"), words_in("de")


@pytest.mark.parametrize(
    ("name", "said"),
    [
        ("bonding", "first bead laid"),
        ("inner tape", "inner tape"),
        ("hold point before covering", "hold point before covering"),
        ("signed as clerk of works", "signed as clerk of works"),
        ("found NC-1", "nonconformity NC-1 found"),
        ("checked NC-1", "correction of NC-1 checked"),
        ("concession frame-overlap", "concession on frame-overlap"),
        ("something new", "something new"),
    ],
)
def test_a_step_is_said_in_words(name: str, said: str) -> None:
    assert step(name, ENGLISH) == said


def test_whom_somebody_signed_as_is_said_in_the_readers_language() -> None:
    assert step("signed as clerk of works", GERMAN) == "unterzeichnet als Bauüberwachung"


def test_every_event_of_a_record_has_words_of_its_own() -> None:
    judged = judging.site({"W-1.01": {}})
    steps = {event.step for event in facts_of(judged.openings[0], judged).events}
    known = {*STEPS, "inner tape", "outer tape", "foam", "trim"}
    assert all(one in known or step(one, GERMAN) != one for one in steps)
    assert steps >= WORK - {"plinth", "supports"}
