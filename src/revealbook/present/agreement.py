"""Whether a pack's findings agree with its records: those inside, and those that judging again gives."""

import json
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Any

from revealbook import __version__

_WORDS = frozenset({"found", "required", "made_with"})


@dataclass(frozen=True, slots=True)
class Difference:
    """Something that is judged or said differently.

    Attributes:
        mark: the opening; empty for the pack as a whole.
        rule: the rule; empty if it is not about one.
        kept: what the pack holds.
        now: what judging gives now.
    """

    mark: str
    rule: str
    kept: str
    now: str


def compare_findings(kept: bytes, now: bytes) -> tuple[Difference, ...]:
    """Compare two sets of findings, opening by opening and rule by rule.

    Args:
        kept: findings.json as embedded.
        now: findings.json as judged again.

    Returns:
        What differs; one difference about the whole if the embedded file cannot be read. Where another
        version made the pack, wording is left aside: only values, limits and outcomes are compared.
    """
    if kept == now:
        return ()
    try:
        before, after = json.loads(kept), json.loads(now)
        other_version = before["made_with"] != after["made_with"]
        if other_version:
            before, after = _without_words(before), _without_words(after)
        found = tuple(_compare(before, after))
    except (ValueError, KeyError, TypeError, AttributeError, RecursionError):
        return (Difference("", "", "findings.json cannot be read", "as judged now"),)
    if found or (other_version and _written(before) == _written(after)):
        return found
    return (Difference("", "", "findings.json differs", "as judged now"),)


def _written(findings: Any) -> str:
    """Write findings one way: `true` and `1` are equal to Python, but not to a reader."""
    return json.dumps(findings, sort_keys=True)


def made_by_another_version(kept: bytes) -> str | None:
    """Give the version that made a pack, if it is not this one."""
    try:
        version = json.loads(kept)["made_with"]
    except (ValueError, KeyError, TypeError):
        return None
    return None if version == __version__ else str(version)


def _without_words(findings: Any) -> Any:
    if isinstance(findings, dict):
        return {key: _without_words(value) for key, value in findings.items() if key not in _WORDS}
    return [_without_words(item) for item in findings] if isinstance(findings, list) else findings


def _compare(before: Mapping[str, Any], after: Mapping[str, Any]) -> Iterator[Difference]:
    for key in ("site", "rule_set", "outcome"):
        if before[key] != after[key]:
            yield Difference("", key, str(before[key]), str(after[key]))
    old, new = _by_mark(before), _by_mark(after)
    for mark in sorted(old.keys() | new.keys()):
        rules = sorted(old.get(mark, {}).keys() | new.get(mark, {}).keys())
        for rule in rules:
            one, other = old.get(mark, {}).get(rule), new.get(mark, {}).get(rule)
            if one != other:
                yield Difference(mark, rule, _said(one, other), _said(other, one))


def _by_mark(findings: Mapping[str, Any]) -> dict[str, dict[str, Any]]:
    return {
        opening["mark"]: {judgement["rule"]: judgement for judgement in opening["judgements"]}
        for opening in findings["openings"]
    }


def _said(judgement: Mapping[str, Any] | None, other: Mapping[str, Any] | None) -> str:
    """Say a judgement's outcome, and what was found where only that differs."""
    if judgement is None:
        return "no such rule"
    outcome = str(judgement["outcome"])
    if other is None or other["outcome"] != outcome:
        return outcome
    values = ", ".join(str(finding.get("found", "")) for finding in judgement["findings"])
    return f"{outcome}: {values}"
