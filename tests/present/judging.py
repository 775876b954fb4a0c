"""The conforming record, changed and judged as a whole site, with every value's line."""

import copy
import json
from collections.abc import Mapping
from typing import Any

from tests.rules.changes import CONFORMING, RECORD, common_practice, plain, put

from revealbook.measures.measure import measure
from revealbook.measures.reading import Detail, Missing, Reading, Subject, Value
from revealbook.measures.work import Surroundings, Work
from revealbook.present.words import words_in
from revealbook.records.opening import Opening
from revealbook.records.record import Record, Sheet, SiteFile
from revealbook.records.site import Site
from revealbook.rules.finding import Finding, Judgement, Outcome
from revealbook.rules.judge import judge
from revealbook.rules.judged import JudgedOpening, JudgedSite
from revealbook.rules.limit import Limit
from revealbook.rules.rule_set import RuleSet
from revealbook.source.read import Document, read_bytes

ENGLISH = words_in("en")
PEOPLE = {"ada": "Ada Fensterlein", "ben": "Ben Jamb", "cleo": "Cleo Reveal"}
Changes = Mapping[str, Any]


def document(data: Any, file: str) -> Document:
    """Plain data as a file: what JSON says, YAML says as well."""
    read = read_bytes(json.dumps(data, indent=1).encode(), file)
    assert isinstance(read, Document), read
    return read


def opening(
    changes: Changes | None = None, *, mark: str = "W-1.01", rules: RuleSet | None = None
) -> JudgedOpening:
    """Judge the conforming record after changes, under another mark if asked."""
    return site({mark: changes or {}}, rules=rules).openings[0]


def site(by_mark: Mapping[str, Changes], *, rules: RuleSet | None = None, **changes: Any) -> JudgedSite:
    """Judge a site with a record for each mark, each with its changes; further ones change the site file."""
    rules = rules or common_practice()
    stated = {**copy.deepcopy(plain(CONFORMING / "site.yaml")), **changes}
    held = Site.model_validate(stated)
    around = Surroundings.of(held, rules.method)
    openings = tuple(_judged(mark, changed, rules, around) for mark, changed in by_mark.items())
    return JudgedSite(SiteFile(held, Sheet.of(document(stated, "site.yaml"))), rules, openings)


def _judged(mark: str, changes: Changes, rules: RuleSet, around: Surroundings) -> JudgedOpening:
    data = copy.deepcopy(plain(RECORD))
    for path, value in {"opening.mark": mark, **changes}.items():
        put(data, path, copy.deepcopy(value))
    read = document(data, f"openings/{mark}.yaml")
    record = Record(Opening.model_validate(read.data), Sheet.of(read))
    return JudgedOpening(record, judge(rules, measure(Work(record.opening, around), rules.measures)))


def judgement(rule: str, changes: Changes | None = None) -> Judgement:
    """One rule on the changed record."""
    return next(one for one in opening(changes).judgements if one.rule_id == rule)


def taken(
    value: Value,
    limit: Limit | None = None,
    *,
    subject: Subject = (),
    details: tuple[Detail, ...] = (),
    uncertainty: float | None = None,
    **finding: Any,
) -> Finding:
    """A finding about a value, written for a test."""
    reading = Reading(subject, value, ("survey",), uncertainty, details)
    return Finding(finding.pop("outcome", Outcome.CONFORMS), subject, reading, limit, **finding)


def lacking(what: str, *path: str | int, subject: Subject = (), details: tuple[Detail, ...] = ()) -> Finding:
    """A finding about what is missing."""
    return Finding(Outcome.NOT_SHOWN, subject, Missing(subject, what, path, details))


def evening() -> dict[str, Any]:
    """Changes that leave the conforming opening as it stands in the evening after it was foamed."""
    record = plain(RECORD)
    return {
        "seals.events": record["seals"]["events"][:2],
        "seals.photos": [],
        "tests": None,
        "hold_points": record["hold_points"][:4],
        "sign_offs": None,
        "covering": None,
    }
