"""The step: a question to the openings that answer it."""

# ruff: noqa: S608 - statements are put together from this module's own texts and place holders alone

import json
from collections.abc import Mapping, Sequence
from typing import Any

from revealbook.lookup.conditions import Conditions, conditions, wanted
from revealbook.lookup.database import Database, Row, listed
from revealbook.lookup.question import Answer, Found, Question
from revealbook.lookup.unknown import unknown, unknown_words
from revealbook.present.facts_record import Later
from revealbook.rules.finding import Outcome

MOST = 50
_MANY = 2000
"""A term of more openings than this is not where a search starts if there are words to start from."""
_SHOWN = (
    "o.id, o.site, o.mark, o.serial, o.building, o.floor, o.room, o.elevation, o.outcome, o.first, o.last,"
    " o.since, o.until, o.latest, o.pack, o.later, o.terms"
)
_AT_ONCE = 500
"""So many numbers stand in one statement."""
_ORDER = " ORDER BY o.site, o.mark, o.since"


def find(database: Database, question: Question, most: int = MOST) -> Answer:
    """Find openings.

    Args:
        database: the index.
        question: what is asked.
        most: so many are given at most; how many there are is told.

    Raises:
        NoIndex: the index cannot be read.
    """
    asked = conditions(database, question)
    if asked.unknown:
        return Answer((), 0, unknown(database, question, asked), asked.place)
    rows, number = _answer(database, asked, most)
    if rows:
        return Answer(tuple(map(_found, rows)), number, (), asked.place)
    strange = unknown_words(database, asked.words)
    rest = asked.without([one.asked for one in strange])
    if strange and (rest.words or rest.shared or len(rest.plain) > 1):
        rows, number = _answer(database, rest, most)
    lacking = () if rows else unknown(database, question, asked)
    return Answer(tuple(map(_found, rows)), number, (*strange, *lacking), asked.place)


def _answer(database: Database, asked: Conditions, most: int) -> tuple[list[Row], int]:
    """Give the first rows in order, and how many there are."""
    body, values = _body(database, asked)
    rows = database.rows(f"SELECT {_SHOWN} {body}{_ORDER} LIMIT ?", (*values, most + 1))
    if len(rows) <= most:
        return rows, len(rows)
    [(number,)] = database.rows(f"SELECT count(*) {body}", values)
    return rows[:most], int(number)


def _body(database: Database, asked: Conditions) -> tuple[str, list[Any]]:
    """Give the statement from FROM on; it starts from what the fewest openings have."""
    named = any(column in text for text, _ in asked.plain for column in ("o.mark_key", "o.serial_key"))
    start = None if named else _start(database, asked)
    values: list[Any] = []
    if start is not None:
        values += start
        once = "DISTINCT " if len(start) > 1 else ""
        source = f"FROM (SELECT {once}opening AS id FROM held WHERE term IN ({listed(start)})) d"
    elif asked.words and not named:
        statement, match = database.said(wanted(database, asked.words))
        values.append(match)
        source = f"FROM ({statement}) d"
    else:
        source = ""
    tests = ["o.id = d.id"] if source else []
    for text, given in asked.plain:
        tests.append(text)
        values += given
    for one in asked.shared:
        if one.terms != start:
            tests.append(
                f"EXISTS (SELECT 1 FROM held h WHERE h.term IN ({listed(one.terms)}) AND h.opening = o.id)"
            )
            values += one.terms
    if asked.words and (named or start is not None):
        statement, match = database.said(wanted(database, asked.words))
        tests.append(f"o.id IN ({statement})")
        values.append(match)
    source = f"{source} CROSS JOIN opening o" if source else "FROM opening o"
    return f"{source} WHERE {' AND '.join(tests) or '1 = 1'}", values


def _start(database: Database, asked: Conditions) -> tuple[int, ...] | None:
    """Give the terms that the fewest openings hold, or None if the words should narrow the search first."""
    if len(asked.shared) == 1 and not asked.words:
        return asked.shared[0].terms
    numbers = {one.terms: _number(database, one.terms) for one in asked.shared}
    if not numbers or (asked.words and min(numbers.values()) >= _MANY):
        return None
    return min(numbers, key=numbers.__getitem__)


def _number(database: Database, terms: Sequence[int]) -> int:
    """Count openings that hold a term, up to many."""
    [(number,)] = database.rows(
        f"SELECT count(*) FROM (SELECT 1 FROM held WHERE term IN ({listed(terms)}) LIMIT {_MANY}) counted",
        terms,
    )
    return int(number)


def _found(row: Row) -> Found:
    later = tuple(Later(*one) for one in json.loads(row[15])) if row[15] else ()
    return Found._make((*row[:8], Outcome(row[8]), *row[9:13], bool(row[13]), row[14], later, row[16]))


def terms_of(database: Database, found: Sequence[Found]) -> Mapping[int, tuple[tuple[str, str], ...]]:
    """Give kind and name of the terms that openings hold, by the openings' numbers."""
    held = {one.id: json.loads(one.terms) for one in found}
    numbers = sorted({number for of_opening in held.values() for number in of_opening})
    named: dict[int, tuple[str, str]] = {}
    for at in range(0, len(numbers), _AT_ONCE):
        some = numbers[at : at + _AT_ONCE]
        rows = database.rows(f"SELECT id, kind, name FROM term WHERE id IN ({listed(some)})", some)
        named |= {number: (kind, name) for number, kind, name in rows}
    return {id_: tuple(named[number] for number in of_opening) for id_, of_opening in held.items()}
