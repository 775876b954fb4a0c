"""What was asked for that nothing filed has, and the nearest name that something has."""

# ruff: noqa: S608 - statements are put together from this module's own texts and place holders alone

from collections.abc import Iterator, Sequence

from revealbook.lookup.conditions import Conditions, Shared, unknown_place, wanted
from revealbook.lookup.database import Database, listed
from revealbook.lookup.keys import key
from revealbook.lookup.question import Question, Unknown
from revealbook.source.nearest import nearest

_LENGTHS = 2
"""A misspelled name is so many letters longer or shorter at most."""
_LOOKED_AT = 20_000


def unknown(database: Database, question: Question, asked: Conditions) -> tuple[Unknown, ...]:
    """Name what nothing filed has; nothing if each part is known and only no opening has them all."""
    found = [_term(database, one) for one in asked.unknown]
    found += unknown_place(database, asked.place)
    found += _columns(database, question)
    return tuple(found)


def unknown_words(database: Database, words: Sequence[str]) -> tuple[Unknown, ...]:
    """Name the words that occur nowhere, each with the nearest that does."""
    return tuple(_word(database, word) for word in words if not _occurs(database, word))


def _occurs(database: Database, word: str) -> bool:
    statement, match = database.said(wanted(database, [word]))
    return bool(database.rows(f"{statement} LIMIT 1", (match,)))


def _word(database: Database, word: str) -> Unknown:
    known = _of_like_length(database, "SELECT word FROM word WHERE", "word", word)
    return Unknown("word", word, nearest(word, known), left_out=True)


def _term(database: Database, one: Shared) -> Unknown:
    kinds = listed(one.kinds)
    statement = f"SELECT DISTINCT key FROM term_key WHERE kind IN ({kinds}) AND"
    near = nearest(key(one.asked), _of_like_length(database, statement, "key", key(one.asked), one.kinds))
    if near is None:
        return Unknown(one.what, one.asked, None)
    names = database.rows(
        "SELECT t.name FROM term_key k JOIN term t ON t.id = k.term"
        f" WHERE k.key = ? AND k.kind IN ({kinds}) ORDER BY t.name LIMIT 1",
        (near, *one.kinds),
    )
    return Unknown(one.what, one.asked, names[0][0] if names else None)


def _columns(database: Database, question: Question) -> Iterator[Unknown]:
    if question.site and not database.rows("SELECT 1 FROM site WHERE site = ?", (question.site,)):
        sites = [site for (site,) in database.rows("SELECT site FROM site")]
        yield Unknown("site", question.site, nearest(question.site, sites))
    for column, asked in (("mark", question.mark), ("serial", question.serial)):
        if asked and not database.rows(
            f"SELECT 1 FROM opening WHERE {column}_key = ? LIMIT 1", (key(asked),)
        ):
            statement = f"SELECT DISTINCT {column} FROM opening WHERE substr({column}_key, 1, 2) = ? AND"
            known = _of_like_length(database, statement, column, asked, (key(asked)[:2],))
            yield Unknown(column, asked, nearest(asked, known))


def _of_like_length(
    database: Database, statement: str, column: str, asked: str, values: Sequence[str] = ()
) -> list[str]:
    found = database.rows(
        f"{statement} length({column}) BETWEEN ? AND ? LIMIT ?",
        (*values, len(asked) - _LENGTHS, len(asked) + _LENGTHS, _LOOKED_AT),
    )
    return [name for (name,) in found]
