"""Openings are found by everything that was filed of them, the same in both databases."""

from datetime import date
from pathlib import Path
from typing import Any

import pytest
from tests.lookup import archive_of_two
from tests.lookup.filings import file_site

from revealbook.lookup.database import Database
from revealbook.lookup.find import find, terms_of
from revealbook.lookup.index import refresh
from revealbook.lookup.question import Answer, Question
from revealbook.rules.finding import Outcome

ALL = ["elm/W-1", "elm/W-2", "oak/W-1"]
SHORT_ONES, OAK = ["elm/W-2"], ["oak/W-1"]


def names(answer: Answer) -> list[str]:
    return [f"{one.site}/{one.mark}" for one in answer.found]


@pytest.mark.parametrize(
    ("asked", "found"),
    [
        ({}, ALL),
        ({"mark": "w 2"}, SHORT_ONES),
        ({"serial": "lc77"}, OAK),
        ({"site": "oak"}, OAK),
        ({"batch": "7714"}, OAK),
        ({"batch": "0412"}, ["elm/W-1", "elm/W-2"]),
        ({"batch": "7714", "product": "frame-bond"}, OAK),
        ({"product": "Example Frame Bond"}, ALL),
        ({"person": "ada"}, ALL),
        ({"place": "block B, second floor"}, OAK),
        ({"words": "bedroom house B"}, OAK),  # written there as Schlafzimmer
        ({"words": "schlafzi"}, OAK),
        ({"words": "Werkstatt"}, ["elm/W-1", "elm/W-2"]),  # written there as workshop
        ({"words": "7714"}, OAK),
        ({"words": "water sill board"}, OAK),
        ({"words": "sill", "batch": "7714"}, OAK),
        ({"rule": "frame-overlap"}, SHORT_ONES),
        ({"rule": "frame-overlap", "outcome": Outcome.DOES_NOT_CONFORM}, SHORT_ONES),
        ({"outcome": Outcome.DOES_NOT_CONFORM}, SHORT_ONES),
        ({"outcome": Outcome.CONFORMS}, ["elm/W-1", "oak/W-1"]),
        ({"since": date(2026, 1, 1), "until": date(2026, 12, 31)}, ALL),
        ({"since": date(2027, 1, 1)}, []),
        ({"until": date(2025, 1, 1)}, []),
        ({"mark": "W-2", "batch": "7714"}, []),
    ],
)
def test_what_is_asked_is_found(index: Database, asked: dict[str, Any], found: list[str]) -> None:
    assert names(find(index, Question(**asked))) == found


def test_how_many_there_are_is_told_even_if_few_are_given(index: Database) -> None:
    answer = find(index, Question(), most=1)
    assert (names(answer), answer.number) == (ALL[:1], 3)


def test_an_opening_is_told_with_its_pack_claims_and_terms(index: Database) -> None:
    answer = find(index, Question(batch="7714"))
    [one] = answer.found
    assert (one.building, one.floor, one.room, one.pack) == ("Haus B", "2. OG", "Schlafzimmer", "oak.pdf")
    assert [later.kind for later in one.later] == ["claim"]
    assert ("adhesive batch", "Example Frame Bond, batch 7714") in terms_of(index, answer.found)[one.id]


def test_what_was_understood_of_a_place_is_told(index: Database) -> None:
    assert find(index, Question("Haus B, 2. OG")).understood == {"building": "b", "floor": "2"}


def test_a_word_that_nobody_wrote_is_left_out_and_said(index: Database) -> None:
    answer = find(index, Question("7714 schlafzimmr"))
    assert names(answer) == OAK
    assert [(one.asked, one.nearest, one.left_out) for one in answer.unknown] == [
        ("schlafzimmr", "schlafzimmer", True)
    ]


@pytest.mark.parametrize(
    "nasty", ["'; DROP TABLE opening; --", '" OR "1', "x' & !y | (", "%", "NEAR(*)", "\\"]
)
def test_signs_of_a_query_language_are_only_words(index: Database, nasty: str) -> None:
    for name in ("words", "mark", "batch", "product", "person", "rule", "site", "place"):
        asked: dict[str, Any] = {name: nasty}
        find(index, Question(**asked))
    assert names(find(index, Question())) == ALL


def test_earlier_versions_are_found_only_if_asked(tmp_path: Path, database: Database) -> None:
    archive = archive_of_two.make(tmp_path)
    file_site(archive, "elm", {"W-1": {}, "W-2": {}})
    refresh(archive, database)
    question: dict[str, Any] = {"outcome": Outcome.DOES_NOT_CONFORM, "site": "elm"}
    assert find(database, Question(**question)).found == ()
    [earlier] = find(database, Question(**question, all_versions=True)).found
    assert (earlier.mark, earlier.since, earlier.until, earlier.latest) == ("W-2", 1, 1, False)
