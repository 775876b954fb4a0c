"""Statements are put together from place holders; what a database does, both do alike."""

import pytest

from revealbook.lookup.database import Database, NoIndex, Token, insert, listed

WORDS = {1: ("sill", "water", "w_2_07"), 2: ("sill", "board"), 3: ("silicone",)}


def said(database: Database, *wanted: list[list[Token]]) -> list[int]:
    statement, match = database.said(wanted)
    return sorted(number for (number,) in database.rows(statement, (match,)))


@pytest.fixture
def filled(database: Database) -> Database:
    with database.building():
        database.add_said(WORDS.items())
    return database


def test_place_holders_hold_no_values() -> None:
    assert listed(("'; DROP TABLE opening", 2)) == "?, ?"
    assert insert("site", ("site", "name"), missing=False) == "INSERT INTO site (site, name) VALUES (?, ?)"
    assert insert("word", ("word",), missing=True).endswith("ON CONFLICT DO NOTHING")


def test_all_words_must_occur_and_one_of_their_alternatives(filled: Database) -> None:
    sill, water, board = ([Token(word, begins=False)] for word in ("sill", "water", "board"))
    assert said(filled, [sill]) == [1, 2]
    assert said(filled, [sill], [water]) == [1]
    assert said(filled, [water, board]) == [1, 2]
    assert said(filled, [[*sill, *board]]) == [2]


def test_a_beginning_is_found_only_if_asked(filled: Database) -> None:
    assert said(filled, [[Token("sil", begins=True)]]) == [1, 2, 3]
    assert said(filled, [[Token("sil", begins=False)]]) == []


def test_a_mark_is_one_token(filled: Database) -> None:
    assert said(filled, [[Token("w_2_07", begins=False)]]) == [1]


def test_what_is_forgotten_is_not_found(filled: Database) -> None:
    filled.forget_said(1)
    assert said(filled, [[Token("sill", begins=False)]]) == [2]


def test_rows_whose_key_is_there_are_left_out_if_asked(filled: Database) -> None:
    filled.add("word", [("sill",)])
    filled.add("word", [("sill",), ("board",)], missing=True)
    assert filled.rows("SELECT word FROM word ORDER BY word") == [("board",), ("sill",)]


def test_what_fails_is_undone_as_a_whole(filled: Database) -> None:
    def stopped() -> None:
        with filled.writing():
            filled.add("word", [("sill",)])
            raise KeyError

    with pytest.raises(KeyError):
        stopped()
    assert filled.rows("SELECT word FROM word") == []


def test_an_empty_database_holds_no_index_and_says_so(database: Database) -> None:
    assert not database.is_made()
    with pytest.raises(NoIndex):
        database.rows("SELECT mark FROM opening")
