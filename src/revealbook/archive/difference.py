"""What differs between two versions of a site: reading by reading, outcome by outcome, file by file."""

import json
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from enum import StrEnum
from hashlib import sha512
from typing import Any

from revealbook.archive.file import AFTERWARDS, FACTS, FILING, FINDINGS, PACKS, PHOTOS
from revealbook.archive.join import PHOTOS as LATER_PHOTOS
from revealbook.archive.refusal import Damaged
from revealbook.archive.values import said, values_that_differ
from revealbook.present.agreement import compare_findings
from revealbook.records.first_format import in_format_2
from revealbook.records.load import OPENINGS, SITE_FILE
from revealbook.source.problem import Problem
from revealbook.source.read import read_bytes

Files = Mapping[str, bytes]
CONCESSIONS = "concessions"


class About(StrEnum):
    """What a difference is about."""

    RULES = "rules"
    SITE = "site"
    OPENING = "opening"
    READING = "reading"
    CONCESSION = "concession"
    OUTCOME = "outcome"
    PHOTO = "photo"
    LATER = "later record"
    PACK = "pack"
    FILE = "file"


@dataclass(frozen=True, slots=True)
class Change:
    """One thing that is not the same in the later version.

    Attributes:
        about: what kind of thing.
        mark: the opening; empty if it is not about one.
        what: the path of keys in the record, the rule, or the file.
        before: what it was; None if it was not there.
        after: what it is; None if it is not there any more.
    """

    about: About
    mark: str
    what: str
    before: str | None
    after: str | None


def differences(before: Files, after: Files) -> tuple[Change, ...]:
    """Compare two versions of a site.

    Args:
        before: content by logical path; files that are the same in both may be left out of both, but for
            records and findings.
        after: that of the later version.

    Returns:
        What differs, rules and site first, then opening by opening; nothing about facts.json and
        filing.json, which say something of the filing and not of the site.

    Raises:
        Damaged: the findings of one version cannot be read.
    """
    old, new = _records(before), _records(after)
    found = [*_documents(before, after)]
    for mark in sorted(old.keys() | new.keys()):
        found += _record(mark, old.get(mark), new.get(mark))
    found += _outcomes(before, after)
    found += _files(before, after)
    order = list(About)
    return tuple(sorted(found, key=lambda one: (one.mark != "", one.mark, order.index(one.about))))


def _records(files: Files) -> dict[str, bytes]:
    """Give records by the mark of their opening; one that cannot be read by its path."""
    found = {}
    for path, raw in files.items():
        if path.startswith(f"{OPENINGS}/"):
            data = _plain(path, raw)
            opening = data.get("opening") if isinstance(data, dict) else None
            found[str(opening.get("mark", path)) if isinstance(opening, dict) else path] = raw
    return found


def _record(mark: str, old: bytes | None, new: bytes | None) -> Iterator[Change]:
    if old == new:
        return
    if old is None or new is None:
        yield Change(About.OPENING, mark, "record", _there(old), _there(new))
        return
    for path, before, after in _values(mark, old, new):
        about = About.CONCESSION if path.startswith(CONCESSIONS) else About.READING
        yield Change(about, mark, path, before, after)


def _documents(before: Files, after: Files) -> Iterator[Change]:
    """Compare the site file and the rules, value by value."""
    for path in sorted(before.keys() | after.keys()):
        about = About.SITE if path == SITE_FILE else About.RULES
        if path != SITE_FILE and not path.startswith(("rules/", "rule_sets/")):
            continue
        old, new = before.get(path), after.get(path)
        if old is None or new is None:
            yield Change(about, "", path, _there(old), _there(new))
        elif old != new:
            for keys, one, other in _values(path, old, new):
                yield Change(about, "", f"{path} {keys}", one, other)


def _values(path: str, old: bytes, new: bytes) -> Iterator[tuple[str, str | None, str | None]]:
    """Give the values that differ in two YAML files; one line for the text if no value does."""
    found = list(values_that_differ(_plain(path, old), _plain(path, new)))
    yield from found or [("text", "as written before", "written otherwise; every value is the same")]


def _plain(path: str, raw: bytes) -> Any:
    document = read_bytes(raw, path)
    if isinstance(document, Problem):
        return raw.decode(errors="replace")
    of_rules = path.startswith(("rules/", "rule_sets/"))
    upgraded = document if of_rules else in_format_2(document)
    return document.data if isinstance(upgraded, Problem) else upgraded.data


def _outcomes(before: Files, after: Files) -> Iterator[Change]:
    old, new = _judged(before), _judged(after)
    both = old["openings"].keys() & new["openings"].keys()
    for one in compare_findings(_findings(old, both), _findings(new, both)):
        about = About.OUTCOME if one.mark else About.RULES if one.rule == "rule_set" else About.PACK
        yield Change(about, one.mark, one.rule or "findings", one.kept, one.now)


def _judged(files: Files) -> dict[str, Any]:
    """Put the findings of all packs of a version together."""
    judged: dict[str, Any] = {"openings": {}, "made_with": "", "rule_set": "", "outcome": "", "site": ""}
    for path in sorted(files):
        if path.startswith(FINDINGS):
            try:
                plain = json.loads(files[path], object_hook=_without_line)
                judged["made_with"], judged["rule_set"] = plain["made_with"], said(plain["rule_set"])
                judged["openings"] |= {one["mark"]: one["judgements"] for one in plain["openings"]}
            except (ValueError, KeyError, TypeError) as error:
                raise Damaged(f"{path} cannot be read as findings: {error}.") from error
    return judged


def _without_line(plain: dict[str, Any]) -> dict[str, Any]:
    """Leave out where something stands: a line that moved is no difference."""
    return {key: value for key, value in plain.items() if key != "line"}


def _findings(judged: dict[str, Any], marks: set[str]) -> bytes:
    openings = [{"mark": mark, "judgements": judged["openings"][mark]} for mark in sorted(marks)]
    return json.dumps(judged | {"openings": openings}).encode()


def _files(before: Files, after: Files) -> Iterator[Change]:
    """Compare everything that is not read value by value."""
    for path in sorted(before.keys() | after.keys()):
        old, new = before.get(path), after.get(path)
        if old != new and (about := _about(path)):
            mark = _mark_of_later(path, new or old or b"") if about is About.LATER else ""
            yield Change(about, mark, path, _digest(old), _digest(new))


def _about(path: str) -> About | None:
    """Say what a file is; nothing if it is compared elsewhere or not at all."""
    if path in {SITE_FILE, FILING, FACTS} or path.startswith(
        (f"{OPENINGS}/", "rules/", "rule_sets/", FINDINGS)
    ):
        return None
    kinds = {PHOTOS: About.PHOTO, LATER_PHOTOS: About.PHOTO, AFTERWARDS: About.LATER, PACKS: About.PACK}
    return next((about for start, about in kinds.items() if path.startswith(start)), About.FILE)


def _mark_of_later(path: str, raw: bytes) -> str:
    data = _plain(path, raw)
    return str(data.get("mark", "")) if isinstance(data, dict) else ""


def _digest(raw: bytes | None) -> str | None:
    return None if raw is None else f"sha512 {sha512(raw).hexdigest()[:16]}"


def _there(raw: bytes | None) -> str | None:
    return None if raw is None else "there"
