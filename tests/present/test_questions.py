import json
import re
from datetime import datetime

import pytest
from tests.present.judging import ENGLISH, site

from revealbook.inspection.question import Question, Spot
from revealbook.present.questions import SENTENCES, asked, questions_data, tally
from revealbook.present.words import words_in

AT = datetime.fromisoformat("2026-11-20T09:00+01:00")
FACTS = {
    "same": 33, "compared": 36, "block": "survey", "files": ("a.jpg", "b.jpg"), "person": "ada", "first": AT,
    "second": AT, "minutes": 2.0, "least": 3.0, "entry": AT, "event": AT, "file": "a.jpg",
    "taken": AT, "covered": AT,
    "work": AT, "on": 20, "readings": 48, "rule": "frame-overlap", "limit": 80.0,
}  # fmt: skip
SITE = site({"W-1": {}, "W-2": {}})


def question(code: str, chance: float | None = None, comparisons: int | None = None) -> Question:
    spots = (Spot("W-1", ("frame", "bonding", 0, "laid_at")),)
    return Question("pace", code, ("W-1", "W-2"), spots, FACTS, chance, comparisons)


@pytest.mark.parametrize("code", SENTENCES)
def test_everything_is_a_question_and_nothing_an_accusation(code: str) -> None:
    said = asked(question(code), SITE, ENGLISH).question
    assert re.match(r"(Could|Was|Were|Does|Which) .*?\?", said), said
    assert not re.search(r"\b(fraud|fake|forged|lied|cheat\w*|false)\b", said)
    assert "{" not in said


def test_names_and_times_are_said_in_words() -> None:
    said = asked(question("two_places"), SITE, ENGLISH)
    assert said.question.startswith("Was Ada Laibung at both openings at once")
    assert "2026-11-20 09:00" in said.question
    assert said.openings == "W-1, W-2"
    assert re.fullmatch(
        r"openings/W-1.yaml:\d+:\d+  Mounting frame, adhesive, number 1, when the first bead was laid",
        said.where[0],
    )


def test_the_chance_is_told_with_the_comparisons_it_counts() -> None:
    said = asked(question("records_alike", 0.00123, 91), SITE, ENGLISH)
    assert (
        said.chance == "Chance among honest records at most 0.0012, all 91 comparisons of this kind counted."
    )
    assert "at most < 0.000001" in asked(question("records_alike", 1e-9, 91), SITE, ENGLISH).chance
    assert asked(question("short_bonding"), SITE, ENGLISH).chance.startswith("No model gives the chance")


def test_no_question_proves_nothing_and_a_question_is_no_finding() -> None:
    assert tally((), ENGLISH).endswith("That proves nothing either.")
    assert tally((question("short_bonding"),), ENGLISH).startswith(
        "1 question, about work faster than it can be done."
    )
    assert "no outcome changes" in tally((question("short_bonding"),) * 2, ENGLISH)


def test_machines_get_the_facts_and_the_sentence() -> None:
    data = json.loads(json.dumps(questions_data((question("short_bonding"),), SITE, ENGLISH)))
    (one,) = data["questions"]
    assert (one["kind"], one["facts"]["minutes"], one["facts"]["entry"]) == (
        "pace",
        2,
        "2026-11-20T09:00:00+01:00",
    )
    assert one["question"].startswith("Could the frame have been pressed on within 2\u00a0min")


@pytest.mark.parametrize("code", SENTENCES)
def test_every_question_is_asked_in_german_too(code: str) -> None:
    german = words_in("de")
    assert asked(question(code), SITE, german).question != asked(question(code), SITE, ENGLISH).question
