"""A question as conditions on the index. Values stand apart from statements and never in them."""

# ruff: noqa: S608 - statements are put together from this module's own texts and place holders alone

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from typing import Any, NamedTuple

from revealbook.lookup.database import Database, Wanted, listed
from revealbook.lookup.keys import building_key, key, pieces, words
from revealbook.lookup.place import understood
from revealbook.lookup.question import Question, Unknown
from revealbook.lookup.rooms import ALSO
from revealbook.lookup.terms import ANY_BATCH, FIXING, PERSON, PRODUCT, RULES, SPELT

_IDLE = frozenset({
    "a", "an", "and", "at", "in", "of", "on", "the", "to", "with", "window", "opening",
    "am", "auf", "bei", "das", "dem", "den", "der", "die", "ein", "eine", "fenster", "im", "mit", "offnung",
    "und", "von", "vom", "zu", "zum",
})  # fmt: skip
"""Words of a question that no record is told apart by."""
_BEGINNINGS = 20
"""So many longer words are looked for instead of a shorter one."""


class Shared(NamedTuple):
    """A condition that an opening holds one of some terms.

    Attributes:
        what: which part of the question it is.
        asked: as it was asked.
        kinds: kinds of these terms.
        terms: their numbers; none if nothing is called so.
    """

    what: str
    asked: str
    kinds: tuple[str, ...]
    terms: tuple[int, ...]


@dataclass(frozen=True, slots=True)
class Conditions:
    """What must hold of an opening.

    Attributes:
        plain: conditions on its own columns, each with its values.
        shared: conditions on its terms.
        words: words that must occur in what was written of it, as keys.
        place: key of building and floor, as far as asked.
    """

    plain: tuple[tuple[str, tuple[Any, ...]], ...]
    shared: tuple[Shared, ...]
    words: tuple[str, ...]
    place: dict[str, str]

    @property
    def unknown(self) -> tuple[Shared, ...]:
        """Conditions that nothing can satisfy, because nothing is called so."""
        return tuple(one for one in self.shared if not one.terms)

    def without(self, left_out: Sequence[str]) -> "Conditions":
        """Give the same without some words."""
        return replace(self, words=tuple(word for word in self.words if word not in left_out))


def conditions(database: Database, question: Question) -> Conditions:
    """Give what a question asks of an opening; a word of place is understood where it names one."""

    def is_building(name: str) -> bool:
        return bool(database.rows("SELECT 1 FROM opening WHERE building_key = ? LIMIT 1", (name,)))

    asked = words(f"{question.place or ''} {question.words}")
    place = understood(asked, is_building)
    named = {"building": place.building, "floor": place.floor}
    named_place = {name: value for name, value in named.items() if value is not None}
    return Conditions(
        plain=(*_plain(question), *((f"o.{name}_key = ?", (value,)) for name, value in named_place.items())),
        shared=tuple(_shared(database, question)),
        words=tuple(dict.fromkeys(word for word in place.words if word not in _IDLE)),
        place=named_place,
    )


def _plain(question: Question) -> Iterator[tuple[str, tuple[Any, ...]]]:
    if not question.all_versions:
        yield "o.latest = 1", ()
    if question.site:
        yield "o.site = ?", (question.site,)
    if question.mark:
        yield "o.mark_key = ?", (key(question.mark),)
    if question.serial:
        yield "o.serial_key = ?", (key(question.serial),)
    if question.since:
        yield "o.last >= ?", (question.since.isoformat(),)
    if question.until:
        yield "o.first <> '' AND o.first <= ?", (question.until.isoformat(),)
    if question.outcome and not question.rule:
        yield "o.outcome = ?", (question.outcome.value,)


def _shared(database: Database, question: Question) -> Iterator[Shared]:
    of_product = None
    if question.product:
        of_product = _called(database, "product", question.product, (PRODUCT,))
        yield of_product
    if question.batch:
        yield _of(database, _called(database, "batch", question.batch, ANY_BATCH), of_product)
    if question.fixing:
        yield _called(database, "fixing", question.fixing, (FIXING,))
    if question.person:
        yield _called(database, "person", question.person, (PERSON,))
    if question.rule:
        kinds = (RULES[question.outcome],) if question.outcome in RULES else tuple(RULES.values())
        yield _called(database, "rule", question.rule, kinds)


def _called(database: Database, what: str, asked: str, kinds: tuple[str, ...]) -> Shared:
    found = database.rows(
        "SELECT DISTINCT t.id FROM term_key k JOIN term t ON t.id = k.term"
        f" WHERE k.key = ? AND k.kind IN ({listed(kinds)})",
        (key(asked), *kinds),
    )
    return Shared(what, asked, kinds, tuple(number for (number,) in found))


def _of(database: Database, batches: Shared, product: Shared | None) -> Shared:
    """Keep the batches of a product: two makers may print the same number."""
    if product is None or not (batches.terms and product.terms):
        return batches
    products = database.rows(f"SELECT key FROM term WHERE id IN ({listed(product.terms)})", product.terms)
    own = [f"{name} {key(batches.asked)}" for (name,) in products]
    found = database.rows(
        f"SELECT id FROM term WHERE id IN ({listed(batches.terms)}) AND key IN ({listed(own)})",
        (*batches.terms, *own),
    )
    return batches._replace(terms=tuple(number for (number,) in found))


def wanted(database: Database, asked: Sequence[str]) -> Wanted:
    """Give how words are looked for: as they stand or in the other language, letters also as a beginning."""
    return [
        [_parts(database, other) for other in dict.fromkeys((word, *ALSO.get(word, ())))] for word in asked
    ]


def _parts(database: Database, word: str) -> list[list[str]]:
    """`south_west` are two words that must occur; `w_2_07` is one, because its parts alone say little."""
    parts = pieces(word)
    if not all(part.isalpha() for part in parts):
        return [[word]]
    return [_beginning(database, part) if len(part) >= SPELT else [part] for part in parts]


def _beginning(database: Database, part: str) -> list[str]:
    """Give the words that begin with these letters, the shortest first: few are asked for faster than any."""
    found = database.rows(
        "SELECT word FROM word WHERE begins = ? AND substr(word, 1, ?) = ?"
        " ORDER BY length(word), word LIMIT ?",
        (part[:SPELT], len(part), part, _BEGINNINGS),
    )
    return [word for (word,) in found] or [part]


def unknown_place(database: Database, place: dict[str, str]) -> Iterator[Unknown]:
    """Name a building that nothing filed has; the nearest is told by its name as recorded."""
    building = place.get("building")
    if building is None or database.rows("SELECT 1 FROM opening WHERE building_key = ? LIMIT 1", (building,)):
        return
    names = [name for (name,) in database.rows("SELECT DISTINCT building FROM opening")]
    near = next((name for name in names if building_key(name)[:1] == building[:1]), None)
    yield Unknown("building", building, near)
