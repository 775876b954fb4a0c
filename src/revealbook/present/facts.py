"""The facts of each opening for looking it up, and the file of them that lies in every filed version.

The file is derived from the records by their rules; with it an index is built without judging again.
"""

import json
from typing import Any

from pydantic import ValidationError

from revealbook.present.export import compact
from revealbook.present.facts_record import FORMAT, Conceded, OpeningFacts, RuleOutcome
from revealbook.present.facts_work import events, fixings, people, products, texts
from revealbook.present.nonconformities import entries
from revealbook.present.words import words_in
from revealbook.records.opening import Opening
from revealbook.records.site import Site
from revealbook.rules.finding import Judgement, Outcome
from revealbook.rules.judged import JudgedOpening, JudgedSite

_WEATHER = frozenset({"air_margin", "surface_margin", "humidity_margin", "dew_point_margin"})
"""Measures of the weather in which a product was used."""
_OPEN = frozenset({Outcome.DOES_NOT_CONFORM, Outcome.UNDECIDED, Outcome.NOT_SHOWN})
_SITE_WIDE = ("site", "site_name")


class NotFacts(ValueError):  # noqa: N818 - it reads as the sentence it is
    """A file that says that it holds facts does not; the message says why."""


def facts_of(judged: JudgedOpening, site: JudgedSite) -> OpeningFacts:
    """Give the facts of one opening; sentences are in the language of the site's packs.

    Args:
        judged: the opening.
        site: its site.
    """
    stated, opening = site.site.site, judged.record.opening
    identity, dated = opening.opening, events(opening)
    by_outcome = {one: tuple(each.rule_id for each in judged.with_outcome(one)) for one in Outcome}
    return OpeningFacts(
        site=stated.id,
        site_name=stated.name,
        mark=judged.mark,
        serial=identity.serial,
        building=identity.building,
        floor=identity.floor,
        elevation=identity.elevation,
        room=identity.room,
        width_mm=identity.width_mm,
        height_mm=identity.height_mm,
        outcome=judged.outcome,
        counts={one: len(rules) for one, rules in by_outcome.items() if rules},
        products=products(opening, stated),
        fixings=fixings(opening, stated),
        fixed_by=opening.window.fixed_by if opening.window else None,
        people=people(opening, stated),
        events=dated,
        first=dated[0].at.date() if dated else None,
        last=dated[-1].at.date() if dated else None,
        rules=tuple(_rule(one) for one in judged.judgements if one.outcome in _OPEN),
        conforms=by_outcome[Outcome.CONFORMS],
        does_not_apply=by_outcome[Outcome.DOES_NOT_APPLY],
        nonconformities=_sentences(judged, stated),
        concessions=_concessions(opening, stated),
        texts=texts(opening),
    )


def _rule(one: Judgement) -> RuleOutcome:
    rule = one.held.rule
    return RuleOutcome(rule=rule.id, outcome=one.outcome, grade=rule.grade, weather=rule.measure in _WEATHER)


def _sentences(judged: JudgedOpening, site: Site) -> tuple[str, ...]:
    found = entries(judged, Outcome.DOES_NOT_CONFORM, words_in(site.language), {})
    return tuple(f"{one.requirement} {'; '.join(one.grouped)}".replace("\u00a0", " ") for one in found)


def _concessions(opening: Opening, site: Site) -> tuple[Conceded, ...]:
    names: dict[str | None, str] = {person.id: person.name for person in site.people}
    return tuple(
        Conceded(
            rule=one.rule,
            reason=one.reason or "",
            by=names.get(one.accepted_by, one.accepted_by),
            at=one.at,
            until=one.until,
        )
        for one in opening.concessions
    )


def facts_json(judged: JudgedSite) -> bytes:
    """Give the facts of all openings of a site as a file: JSON, an opening a line; same site, same bytes.

    The rules of the set stand once, at the top; an opening names those that do not apply or that it does not
    meet, and meets the others.
    """
    site = judged.site.site
    head = {
        "format": FORMAT,
        "site": site.id,
        "site_name": site.name,
        "rules": [held.rule.id for held in judged.rule_set.rules],
    }
    lines = ",\n".join(compact(_plain(facts_of(one, judged))) for one in judged.openings)
    return f'{compact(head)[:-1]},"openings":[\n{lines}\n]}}\n'.encode()


def _plain(facts: OpeningFacts) -> dict[str, Any]:
    left_out = {"conforms", "counts", *_SITE_WIDE}
    plain = facts.model_dump(mode="json", exclude_defaults=True, exclude=left_out)
    return plain | {"counts": {str(one): number for one, number in facts.counts.items()}}


def read_facts(content: bytes) -> tuple[OpeningFacts, ...]:
    """Read a file of facts; keys that this version does not know are left aside.

    Raises:
        NotFacts: it is not such a file.
    """
    try:
        said = json.loads(content)
        if said["format"] != FORMAT:
            raise NotFacts(f"its format is {said['format']!r}, not {FORMAT!r}")
        shared, rules = {key: said[key] for key in _SITE_WIDE}, list(said["rules"])
        return tuple(OpeningFacts.model_validate(_whole(one, shared, rules)) for one in said["openings"])
    except (ValidationError, UnicodeDecodeError, json.JSONDecodeError, KeyError, TypeError) as error:
        raise NotFacts(f"it cannot be read as {FORMAT}: {error}") from error


def _whole(one: dict[str, Any], shared: dict[str, str], rules: list[str]) -> dict[str, Any]:
    other = {each["rule"] for each in one.get("rules", ())} | set(one.get("does_not_apply", ()))
    return {**one, **shared, "conforms": [rule for rule in rules if rule not in other]}
