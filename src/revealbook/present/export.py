"""Findings for machines: the same values as the pages, as plain data for JSON."""

import json
from math import isfinite
from typing import Any

from revealbook import __version__
from revealbook.measures.reading import Missing, Reading
from revealbook.present.found import found, required
from revealbook.present.words import Words
from revealbook.rules.finding import Finding, Judgement
from revealbook.rules.judged import JudgedOpening, JudgedSite
from revealbook.rules.limit import Limit

FORMAT = "revealbook-findings-1"


def findings(site: JudgedSite, words: Words) -> dict[str, Any]:
    """Give all judgements of a site as plain data; numbers unrounded, endless ones as null."""
    rule_set = site.rule_set
    return {
        "format": FORMAT,
        "made_with": __version__,
        "site": site.site.site.id,
        "rule_set": {"id": rule_set.id, "edition": rule_set.edition},
        "outcome": str(site.outcome),
        "openings": [_opening(opening, words) for opening in site.openings],
    }


def compact(plain: Any) -> str:
    """Write plain data as JSON on one line, keys in order: same data, same text."""
    return json.dumps(plain, ensure_ascii=False, sort_keys=True, separators=(",", ":"))


def _opening(opening: JudgedOpening, words: Words) -> dict[str, Any]:
    return {
        "mark": opening.mark,
        "file": opening.record.sheet.file,
        "outcome": str(opening.outcome),
        **({"stage": opening.stage} if opening.stage else {}),
        "counts": {str(outcome): number for outcome, number in sorted(opening.counts.items())},
        "judgements": [_judgement(opening, judgement, words) for judgement in opening.judgements],
    }


def _judgement(opening: JudgedOpening, judgement: Judgement, words: Words) -> dict[str, Any]:
    rule = judgement.held.rule
    said: dict[str, Any] = {"rule": rule.id, "grade": rule.grade, "outcome": str(judgement.outcome)}
    if judgement.not_yet_due:
        said["due"] = False
    if judgement.ruled_out_by:
        said["ruled_out_by"] = judgement.ruled_out_by
    if judgement.held.left_out_by:
        said["ruled_out_by_set"] = judgement.held.left_out_by
    named = [
        concession.accepted_by
        for concession in opening.record.opening.concessions
        if concession.rule == rule.id
    ]
    if named:
        said["conceded_by"] = named
    said["findings"] = [_finding(opening, judgement, finding, words) for finding in judgement.findings]
    return said


def _finding(opening: JudgedOpening, judgement: Judgement, finding: Finding, words: Words) -> dict[str, Any]:
    rule, reading = judgement.held.rule, finding.reading
    place = opening.record.sheet.place(reading.path)
    said: dict[str, Any] = {
        "outcome": str(finding.outcome),
        "subject": list(finding.subject),
        "line": place.line,
        "found": found(finding, rule, words),
        "required": required(finding.limit or rule.limit, rule, words),
    }
    if isinstance(reading, Missing):
        return {**said, "missing": reading.what}
    return {**said, **_numbers(reading, finding)}


def _numbers(reading: Reading, finding: Finding) -> dict[str, Any]:
    said: dict[str, Any] = {"value": _finite(reading.value)}
    if reading.uncertainty is not None:
        said["uncertainty_k2"] = reading.uncertainty
    if finding.limit is not None:
        said["limit"] = _limit(finding.limit)
    if finding.margin is not None:
        said["margin"] = _finite(finding.margin)
    if finding.probability is not None:
        said["probability"] = finding.probability
    return said


def _limit(limit: Limit) -> dict[str, Any]:
    stated = {"low": limit.low, "high": limit.high, "equals": limit.equals, "choices": limit.choices}
    return {
        name: list(value) if isinstance(value, tuple) else value
        for name, value in stated.items()
        if value is not None
    }


def _finite(value: object) -> object:
    return None if isinstance(value, float) and not isfinite(value) else value
