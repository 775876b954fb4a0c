"""Rows of the index from what is filed, taken to the database in portions."""

import json
from collections.abc import Iterable
from itertools import count

from revealbook.lookup.database import Database, Row
from revealbook.lookup.filed import Entry
from revealbook.lookup.keys import building_key, key
from revealbook.lookup.schema import COLUMNS
from revealbook.lookup.terms import SPELT, Term, found_by, spelt, terms
from revealbook.present.place_words import floor_key

_PORTION = 5000


class Loading:
    """Takes openings into the index, inside a transaction of the database; `empty` if it holds none yet."""

    def __init__(self, database: Database, *, empty: bool = False) -> None:
        self._database, self._empty = database, empty
        self._ids = count(_following(database, "opening"))
        self._term_ids = count(_following(database, "term"))
        self._known: dict[tuple[str, str], int] = {}
        self._words: set[str] = set()
        self._rows: dict[str, list[Row]] = {table: [] for table in COLUMNS}
        self._said: list[tuple[int, Iterable[str]]] = []
        self.openings = 0

    def add(self, entry: Entry) -> None:
        """Take an opening."""
        id_ = next(self._ids)
        held = terms(entry.facts, entry.later)
        numbers = sorted({self._number(term) for term in held})
        said = found_by(entry.facts, entry.later)
        self._rows["opening"].append(_opening(id_, entry, numbers))
        self._rows["held"] += [(number, id_) for number in numbers]
        self._said.append((id_, said))
        new = set(spelt(said - self._words))
        self._words |= new
        self._rows["word"] += [(word, word[:SPELT]) for word in new]
        self.openings += 1
        if len(self._said) >= _PORTION:
            self.flush()

    def site(self, row: Row) -> None:
        """Take a site: id, name, digest, number of versions and of openings."""
        self._rows["site"].append(row)

    def flush(self) -> None:
        """Hand over what was taken so far."""
        for table, rows in self._rows.items():
            if rows:
                self._database.add(table, rows, missing=table in ("word", "term_key"))
                rows.clear()
        if self._said:
            self._database.add_said(self._said)
            self._said.clear()

    def _number(self, term: Term) -> int:
        """Give the number of a term, a new one if the index has none."""
        own = term.kind, term.key
        if (known := self._known.get(own)) is not None:
            return known
        asked = "SELECT id FROM term WHERE kind = ? AND key = ?"
        found = [] if self._empty else self._database.rows(asked, own)
        number = int(found[0][0]) if found else next(self._term_ids)
        if not found:
            self._rows["term"].append((number, *term[:3]))
        self._rows["term_key"] += [(name, term.kind, number) for name in term.keys]
        self._known[own] = number
        return number


def _following(database: Database, table: str) -> int:
    [(last,)] = database.rows(f"SELECT max(id) FROM {table}")  # noqa: S608 - a name of ours
    return (last or 0) + 1


def _opening(id_: int, entry: Entry, numbers: list[int]) -> Row:
    facts = entry.facts
    return (
        id_, facts.site, facts.mark, key(facts.mark), facts.serial or "", key(facts.serial or ""),
        facts.building or "", building_key(facts.building), facts.floor or "", floor_key(facts.floor),
        facts.room or "", facts.elevation or "", facts.outcome.value,
        facts.first.isoformat() if facts.first else "", facts.last.isoformat() if facts.last else "",
        entry.since, entry.until, int(entry.latest), entry.pack, json.dumps(numbers),
        json.dumps(entry.later, ensure_ascii=False) if entry.later else "",
    )  # fmt: skip


def forget(database: Database, site: str) -> None:
    """Take a site's rows out of the index, and the terms that only it had."""
    found = database.rows("SELECT id, terms FROM opening WHERE site = ?", (site,))
    touched = set()
    for id_, numbers in found:
        of_opening = json.loads(numbers)
        touched |= set(of_opening)
        for number in of_opening:
            database.run("DELETE FROM held WHERE term = ? AND opening = ?", (number, id_))
        database.forget_said(id_)
    database.run("DELETE FROM opening WHERE site = ?", (site,))
    database.run("DELETE FROM site WHERE site = ?", (site,))
    for number in touched:
        if not database.rows("SELECT 1 FROM held WHERE term = ? LIMIT 1", (number,)):
            database.run("DELETE FROM term WHERE id = ?", (number,))
