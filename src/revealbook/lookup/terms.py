"""What an opening is looked up and traced by: its terms, each shared with other openings, and its words."""

from collections.abc import Iterable, Iterator
from datetime import date
from functools import lru_cache
from typing import NamedTuple

from revealbook.lookup.keys import key, tokens, words
from revealbook.present.facts_record import Later, OpeningFacts, RuleOutcome
from revealbook.present.steps import WORK
from revealbook.rules.finding import Outcome

BATCHES = {
    "adhesive": "adhesive batch",
    "foam": "foam batch",
    "inner tape": "tape batch",
    "outer tape": "tape batch",
}
"""Kind of batch by what a product was used for; any other use is a `batch`."""
ANY_BATCH = (*dict.fromkeys(BATCHES.values()), "batch")
PRODUCT, FIXING, PERSON, FITTER_DAY = "product", "fixing", "person", "fitter and day"
WEATHER, NONCONFORMITY, CLAIM = "weather", "nonconformity", "claim"
RULES = {
    Outcome.DOES_NOT_CONFORM: "rule does not conform",
    Outcome.UNDECIDED: "rule undecided",
    Outcome.NOT_SHOWN: "rule not shown",
}
CAUSES = (*ANY_BATCH, FITTER_DAY, WEATHER, NONCONFORMITY)
"""Kinds of terms that openings may share the cause of a defect by."""
_KEPT = 1 << 16
"""So many terms are kept: most openings share theirs with the one before."""
SPELT = 3
"""From so many letters on, a word can be misspelled, and the beginning of a longer one found by it."""


class Term(NamedTuple):
    """Something that openings share.

    Attributes:
        kind: what it is.
        name: as people read it.
        key: what makes it one: two terms of a kind with one key are the same.
        keys: by which of its names it is found.
    """

    kind: str
    name: str
    key: str
    keys: tuple[str, ...]


def terms(facts: OpeningFacts, later: Iterable[Later] = ()) -> tuple[Term, ...]:
    """Give the terms of an opening, once each."""
    return tuple(dict.fromkeys(_terms(facts, later)))


def _terms(facts: OpeningFacts, later: Iterable[Later]) -> Iterator[Term]:
    for used in facts.products:
        if used.id or used.name:
            yield _named(PRODUCT, used.name or used.id or "", used.id)
        if used.batch:
            yield _batch(used.use, used.name or used.id or "", used.batch)
    for fixing in facts.fixings:
        if fixing.id or fixing.name:
            yield _named(FIXING, fixing.name or fixing.id or "", fixing.id)
    for person in facts.people:
        yield _named(PERSON, person.name, person.id)
    yield from _fitter_days(facts)
    for rule in facts.rules:
        yield from _rule(rule)
    if any(one.kind == "claim" for one in later):
        yield Term(CLAIM, "claim", "claim", ("claim",))


def _rule(rule: RuleOutcome) -> Iterator[Term]:
    own = key(rule.rule)
    if rule.outcome in RULES:
        yield Term(RULES[rule.outcome], rule.rule, own, (own,))
    if rule.outcome is Outcome.DOES_NOT_CONFORM:
        yield Term(WEATHER if rule.weather else NONCONFORMITY, rule.rule, own, (own,))


@lru_cache(_KEPT)
def _named(kind: str, name: str, id_: str | None) -> Term:
    """Name a thing by its name and id, and by each word of its name."""
    own = key(name)
    return Term(kind, name, own, tuple(dict.fromkeys((own, *_one(id_), *words(name)))))


def _one(id_: str | None) -> tuple[str, ...]:
    return (key(id_),) if id_ else ()


@lru_cache(_KEPT)
def _batch(use: str, product: str, batch: str) -> Term:
    """A batch number means nothing without its product: two makers may print the same."""
    name = f"{product}, batch {batch}" if product else f"batch {batch}"
    own = key(batch)
    return Term(BATCHES.get(use, "batch"), name, f"{key(product)} {own}", (own,))


def _fitter_days(facts: OpeningFacts) -> Iterator[Term]:
    """Give who worked on which day, by name, so that it is one across sites."""
    names = {person.id: person.name for person in facts.people}
    for event in facts.events:
        if event.by and event.step in WORK:
            yield _worked(names.get(event.by, event.by), event.at.date())


@lru_cache(_KEPT)
def _worked(name: str, day: date) -> Term:
    own = f"{key(name)} {day}"
    return Term(FITTER_DAY, f"{name}, {day}", own, (own,))


def found_by(facts: OpeningFacts, later: Iterable[Later] = ()) -> set[str]:
    """Give all tokens by which free words find an opening: everything that was written of it."""
    written = [
        facts.site, facts.site_name, facts.mark, facts.serial, facts.building, facts.floor, facts.elevation,
        facts.room, facts.fixed_by, *facts.nonconformities, *facts.texts,
    ]  # fmt: skip
    for used in facts.products:
        written += [used.id, used.name, used.batch]
    for fixing in facts.fixings:
        written += [fixing.id, fixing.name]
    written += [person.name for person in facts.people]
    written += [rule.rule for rule in facts.rules]
    for conceded in facts.concessions:
        written += [conceded.rule, conceded.reason, conceded.by]
    for one in later:
        written += [one.kind, one.id, one.said]
    return set[str]().union(*(tokens(text) for text in written if text))


def spelt(tokens_: Iterable[str]) -> Iterator[str]:
    """Give the tokens that are words of letters, among which a misspelled one is looked for."""
    return (one for one in tokens_ if len(one) >= SPELT and one.isalpha())
