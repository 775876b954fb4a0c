"""Statements are put together from place holders; what a database does, both do alike."""

import pytest

from revealbook.lookup.database import Database, NoIndex, Wanted, insert, listed, matching

WORDS = {1: ("sill", "water", "w_2_07"), 2: ("sill", "board"), 3: ("silicone", "\u08b6a", "x" * 100)}


@pytest.fixture
def made(database: Database) -> Database:
    with database.building():
        pass
    return database


def test_place_holders_hold_no_values() -> None:
    assert listed(("'; DROP TABLE opening", 2)) == "?, ?"
    assert insert("site", ("site", "name"), missing=False) == "INSERT INTO site (site, name) VALUES (?, ?)"
    assert insert("word", ("word",), missing=True).endswith("ON CONFLICT DO NOTHING")


def test_words_alternatives_parts_and_spellings_stand_in_their_brackets() -> None:
    wanted = [[[["sill", "sills"]], [["board"], ["wood"]]], [[["w_2_07"]]]]
    expected = "(((('sill' | 'sills')) | (('board') & ('wood'))) & ((('w_2_07'))))"
    assert matching(wanted, "&", "|", "'") == expected


@pytest.mark.parametrize(
    ("wanted", "found"),
    [
        ([[[["sill"]]]], [1, 2]),
        ([[[["sill"]]], [[["water"]]]], [1]),  # all words
        ([[[["water"]], [["board"]]]], [1, 2]),  # one alternative
        ([[[["sill"], ["board"]]]], [2]),  # all its parts
        ([[[["silicone", "board"]]]], [2, 3]),  # one spelling
        ([[[["sil"]]]], []),
        ([[[["w_2_07"]]]], [1]),
        ([[[["\u08b6a"]]]], [3]),  # a letter that not every table of letters knows
        ([[[["x" * 100]]]], [3]),
    ],
)
def test_texts_are_found_as_wanted(made: Database, wanted: Wanted, found: list[int]) -> None:
    made.add_said(WORDS.items())
    statement, match = made.said(wanted)
    assert sorted(number for (number,) in made.rows(statement, (match,))) == found


def test_what_is_forgotten_is_not_found(made: Database) -> None:
    made.add_said(WORDS.items())
    made.forget_said(1)
    statement, match = made.said([[[["sill"]]]])
    assert made.rows(statement, (match,)) == [(2,)]


def test_rows_whose_key_is_there_are_left_out_if_asked(made: Database) -> None:
    made.add("site", [("elm", "E", "d", 1, 1)])
    made.add("site", [("elm", "E", "d", 1, 1), ("oak", "O", "d", 1, 1)], missing=True)
    assert made.rows("SELECT site FROM site ORDER BY site") == [("elm",), ("oak",)]


def test_what_fails_is_undone_as_a_whole(made: Database) -> None:
    def stopped() -> None:
        with made.writing():
            made.add("site", [("elm", "E", "d", 1, 1)])
            raise KeyError

    with pytest.raises(KeyError):
        stopped()
    assert made.rows("SELECT site FROM site") == []


def test_an_empty_database_holds_no_index_and_says_so(database: Database) -> None:
    assert not database.is_made()
    with pytest.raises(NoIndex):
        database.rows("SELECT mark FROM opening")
