"""Whether a pack agrees with itself: embedded findings, judged-again findings and page text."""

import json
import re
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from revealbook import __version__
from revealbook.present.present import Pack

_NUMBERED = re.compile(r"(?<!\S)([A-Za-z0-9][\w.+-]*/\d+)(?!\S)")
_WORDS = frozenset({"found", "required", "made_with"})
_INVISIBLE = dict.fromkeys(map(ord, "\u00ad\u200b\u2060\ufeff\ufffe\x02"))


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
    try:
        before, after = json.loads(kept), json.loads(now)
        if before["made_with"] != after["made_with"]:
            before, after = _without_words(before), _without_words(after)
        found = list(_compare(before, after))
    except (ValueError, KeyError, TypeError, AttributeError):
        return (Difference("", "", "findings.json cannot be read", "as judged now"),)
    if not found and before != after:
        found.append(Difference("", "", "findings.json differs", "as judged now"))
    return tuple(found)


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


def expected_text(pack: Pack) -> Iterator[tuple[str, str]]:
    """Give what must stand on the pages, as (opening or empty, text)."""
    yield "", pack.verdict.sentence
    yield "", pack.short_fingerprint
    yield "", pack.fingerprint
    for row in pack.register:
        yield row.mark, row.mark
    for volume in pack.volumes:
        yield "", volume.sha256
    for sheet in pack.sheets:
        yield sheet.mark, sheet.verdict.sentence
    for one in pack.nonconformities:
        yield one.mark, f"{one.number} {one.requirement}"
        for point in one.points:
            yield one.mark, f"{point.found}"
        for concession in one.accepted:
            yield one.mark, concession.reason
    for _, entries in pack.to_do:
        for one in entries:
            yield one.mark, one.requirement


def compare_pages(pages: Sequence[str], pack: Pack) -> tuple[Difference, ...]:
    """Compare the text of a pack's pages with what its evidence gives.

    Args:
        pages: the text of each page.
        pack: the pages as presented from the embedded evidence.
    """
    whole = _squeezed(" ".join(pages))
    missing = dict.fromkeys(
        (mark, text) for mark, text in expected_text(pack) if _squeezed(text) not in whole
    )
    found = [Difference(mark, "", "not on the pages", text) for mark, text in missing]
    known = {one.number for one in pack.nonconformities}
    marks = {sheet.mark for sheet in pack.sheets}
    said = {number for page in pages for number in _NUMBERED.findall(page)}
    extra = sorted(number for number in said - known if number.rsplit("/", 1)[0] in marks)
    found += [
        Difference(number.rsplit("/", 1)[0], "", f"{number} on the pages", "no such nonconformity")
        for number in extra
    ]
    return tuple(found)


def _squeezed(text: str) -> str:
    """Drop what line breaking and hyphenation add: white space, hyphens at line ends, invisible signs."""
    return re.sub(r"\s+", "", text.translate(_INVISIBLE)).replace("-", "").replace("\u2010", "")
