"""Which other openings share a cause: batches, a fitter's day, weather below the limit, rules not met.

A shared cause weighs log(N / n): N openings are in the index, n of them have the cause (inverse document
frequency of text search, a textbook formula [from memory]). An opening's rank is the sum over what it shares.
Only what was filed last of an opening counts.
"""

import json
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date
from math import log
from typing import Any

from revealbook.archive.refusal import Refused
from revealbook.lookup.database import Database, listed
from revealbook.lookup.keys import key
from revealbook.lookup.terms import ANY_BATCH, CAUSES, FITTER_DAY, PERSON

_WHOLE = 1_000_000
"""Weights are summed in the database as whole millionths: exact, and alike in every database."""


@dataclass(frozen=True, slots=True)
class Cause:
    """Something that openings share.

    Attributes:
        id: its number in the index.
        kind: what it is, as `adhesive batch`.
        name: which one.
        openings: how many openings have it.
        weight: log(N / n), from 0 (all have it).
    """

    id: int
    kind: str
    name: str
    openings: int
    weight: float


@dataclass(frozen=True, slots=True)
class Alike:
    """Another opening, and why it is listed: what it shares, the rarest first."""

    site: str
    mark: str
    building: str
    floor: str
    room: str
    outcome: str
    pack: str
    rank: float
    shared: tuple[Cause, ...]


@dataclass(frozen=True, slots=True)
class Traced:
    """What a trace found.

    Attributes:
        causes: what was traced, the rarest first.
        openings: how many openings the index holds (N).
        number: how many of them share a cause.
        alike: the first of them, by rank.
    """

    causes: tuple[Cause, ...]
    openings: int
    number: int
    alike: tuple[Alike, ...]


def trace_opening(index: Database, site: str, mark: str, most: int) -> Traced:
    """Find the openings that share causes with one.

    Args:
        index: the index.
        site: the opening's site.
        mark: its mark.
        most: how many to list.

    Raises:
        Refused: the index holds no such opening.
    """
    own = index.rows(
        "SELECT id, terms FROM opening WHERE site = ? AND mark_key = ? AND latest = 1", (site, key(mark))
    )
    if not own:
        raise Refused(f"The index holds no opening {site}/{mark}.")
    [(id_, terms), *_] = own
    return _traced(index, json.loads(terms), most, apart=id_)


def trace_batch(index: Database, batch: str, most: int) -> Traced:
    """Find the openings in which a batch was used, of whatever product bears the number.

    Args:
        index: the index.
        batch: the number as printed.
        most: how many to list.

    Raises:
        Refused: the index holds no such batch.
    """
    terms = index.rows(
        f"SELECT term FROM term_key WHERE key = ? AND kind IN ({listed(ANY_BATCH)})",  # noqa: S608
        (key(batch), *ANY_BATCH),
    )
    if not terms:
        raise Refused(f"The index holds no batch {batch}.")
    return _traced(index, [term for (term,) in terms], most)


def trace_fitter(index: Database, who: str, day: date | None, most: int) -> Traced:
    """Find the openings on which somebody worked, on one day or any.

    Args:
        index: the index.
        who: name, a word of it, or the id in site.yaml.
        day: the day; any if left out.
        most: how many to list.

    Raises:
        Refused: the index holds nobody of that name, or no work by them on that day.
    """
    people = index.rows(
        "SELECT t.key FROM term_key k JOIN term t ON t.id = k.term WHERE k.key = ? AND k.kind = ?",
        (key(who), PERSON),
    )
    if not people:
        raise Refused(f"The index holds nobody called {who}.")
    terms: list[int] = []
    for (person,) in people:
        begins = f"{person} {day.isoformat() if day else ''}"
        found = index.rows(
            "SELECT id FROM term WHERE kind = ? AND substr(key, 1, ?) = ?", (FITTER_DAY, len(begins), begins)
        )
        terms += [term for (term,) in found]
    if not terms:
        raise Refused(f"The index holds no work of {who}" + (f" on {day}." if day else "."))
    return _traced(index, terms, most)


def _traced(index: Database, terms: Iterable[int], most: int, apart: int = 0) -> Traced:
    """Weigh the causes among some terms, and rank the openings that have any, but for one."""
    [(whole,)] = index.rows("SELECT CAST(COALESCE(sum(openings), 0) AS INTEGER) FROM site")
    causes = _weighed(index, terms, whole)
    rows = index.rows(_ranked(causes), (apart, most, most)) if causes else []
    alike = tuple(_alike(row, causes) for row in rows)
    return Traced(causes, whole, rows[0][-1] if rows else 0, alike)


def _weighed(index: Database, terms: Iterable[int], whole: int) -> tuple[Cause, ...]:
    """Count how many openings have each cause; the rarest first."""
    counted = index.rows(
        "SELECT t.id, t.kind, t.name, count(*) FROM term t JOIN held h ON h.term = t.id "  # noqa: S608
        f"JOIN opening o ON o.id = h.opening WHERE t.id IN ({_numbers(terms)}) "
        f"AND t.kind IN ({listed(CAUSES)}) AND o.latest = 1 GROUP BY t.id, t.kind, t.name",
        CAUSES,
    )
    causes = (Cause(id_, kind, name, n, log(whole / n)) for id_, kind, name, n in counted)
    return tuple(sorted(causes, key=lambda one: (-one.weight, one.kind, one.name)))


def _numbers(ids: Iterable[int]) -> str:
    """Write numbers of the index's own into a statement; nobody typed them."""
    return ", ".join(str(int(one)) for one in ids) or "NULL"


def _ranked(causes: Sequence[Cause]) -> str:
    """Sum weights in the database; only rows that may be listed are then read in full."""
    weights = ", ".join(f"({cause.id}, {round(cause.weight * _WHOLE)})" for cause in causes)
    return (
        f"WITH wanted (term, weight) AS (VALUES {weights}), "  # noqa: S608
        "summed (opening, weight) AS (SELECT h.opening, sum(w.weight) FROM wanted w "
        "JOIN held h ON h.term = w.term GROUP BY h.opening), "
        "ranked (opening, weight) AS MATERIALIZED (SELECT s.opening, s.weight FROM summed s "
        "JOIN opening o ON o.id = s.opening WHERE o.latest = 1 AND o.id <> ?), "
        "first (weight) AS (SELECT weight FROM ranked ORDER BY weight DESC LIMIT ?) "
        "SELECT o.site, o.mark, o.building, o.floor, o.room, o.outcome, o.pack, o.terms, "
        "(SELECT count(*) FROM ranked) FROM ranked r JOIN opening o ON o.id = r.opening "
        "WHERE r.weight >= (SELECT min(weight) FROM first) ORDER BY r.weight DESC, o.site, o.mark LIMIT ?"
    )


def _alike(row: Sequence[Any], causes: Sequence[Cause]) -> Alike:
    site, mark, building, floor, room, outcome, pack, terms, _ = row
    held = frozenset(json.loads(terms))
    shared = tuple(cause for cause in causes if cause.id in held)
    rank = sum(cause.weight for cause in shared)
    return Alike(site, mark, building, floor, room, outcome, pack, rank, shared)
