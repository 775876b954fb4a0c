"""How one opening was fixed, collected from everything that is filed of it."""

import json
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path, PurePath
from typing import Any

from revealbook.archive.again import judge_for_use
from revealbook.archive.file import FINDINGS, PACKS
from revealbook.archive.later import later_files, load_later
from revealbook.archive.refusal import Damaged, no_opening
from revealbook.archive.store import Archive, Version
from revealbook.archive.unchanged import unchanged
from revealbook.present.agreement import compare_findings
from revealbook.present.story import Told, story
from revealbook.present.story_filed import Filing, tell_filings, tell_later
from revealbook.present.words import Words
from revealbook.records.afterwards import Claim, Repair
from revealbook.records.remeasurement import Remeasurement
from revealbook.rules.judged import JudgedOpening
from revealbook.source.problem import Problem


@dataclass(frozen=True, slots=True)
class Story:
    """The story of an opening.

    Attributes:
        site: its site.
        mark: its mark.
        parts: what is told, part by part.
        judged: its record, as judged again from its pack.
        filings: the site's versions, seen from this opening.
        later: claims and repairs that joined it.
        pack: its latest pack, as a file in the archive.
        agrees: whether that pack agrees with itself.
    """

    site: str
    mark: str
    parts: tuple[Told, ...]
    judged: JudgedOpening
    filings: tuple[Filing, ...]
    later: tuple[Claim | Repair, ...]
    pack: Path
    agrees: bool


def story_of(archive: Archive, site: str, mark: str, words: Words) -> Story:
    """Collect the story of an opening from the archive.

    Its record is that of the latest version that holds it, judged again by the rules in its pack.

    Args:
        archive: where it is filed.
        site: its site.
        mark: its mark.
        words: the reader's language.

    Raises:
        Refused: the archive holds no such site or opening, or its pack cannot be judged.
        Damaged: what the archive holds is not what was written.
    """
    versions = archive.versions(site)
    findings = [_findings(archive, site, version) for version in versions]
    pack = _latest_pack(archive, site, mark, versions, findings)
    again = judge_for_use(pack)
    judged = next(one for one in again.judged.openings if one.mark == mark)
    filings = tuple(_filings(versions, findings, mark))
    later, unread = _later(archive, site, mark, versions[-1])
    parts = (
        *story(judged, again.judged.site.site, words),
        tell_filings(filings, words),
        tell_later(later, unread, words),
    )
    return Story(site, mark, parts, judged, filings, later, pack, again.agrees)


_Findings = Mapping[str, Mapping[str, Any]]
"""What findings.json says, by the name of its pack without ending."""


def _findings(archive: Archive, site: str, version: Version) -> _Findings:
    read = {}
    for path in sorted(version.state):
        if path.startswith(FINDINGS):
            content = unchanged(archive, site, version, path).read_bytes()
            try:
                read[PurePath(path).stem] = json.loads(content)
            except ValueError as error:
                raise Damaged(f"{path} of {site} cannot be read: {error}.") from error
    return read


def _opening(findings: Mapping[str, Any], mark: str) -> Mapping[str, Any] | None:
    return next((one for one in findings["openings"] if one["mark"] == mark), None)


def _latest_pack(
    archive: Archive, site: str, mark: str, versions: Sequence[Version], findings: Sequence[_Findings]
) -> Path:
    """Give the smallest pack of the latest version that holds an opening: a volume, not the index."""
    for version, by_pack in zip(reversed(versions), reversed(findings), strict=True):
        holding = [name for name, said in by_pack.items() if _opening(said, mark)]
        if holding:
            name = min(holding, key=lambda one: len(by_pack[one]["openings"]))
            return unchanged(archive, site, version, f"{PACKS}{name}.pdf")
    marks = {one["mark"] for by_pack in findings for said in by_pack.values() for one in said["openings"]}
    raise no_opening(site, mark, marks)


def _filings(versions: Sequence[Version], findings: Sequence[_Findings], mark: str) -> Iterator[Filing]:
    before: bytes | None = None
    for version, by_pack in zip(versions, findings, strict=True):
        now = _alone(by_pack, mark)
        changes = compare_findings(before, now) if before and now else ()
        changed = tuple(one for one in changes if one.mark == mark and one.kept != one.now)
        yield Filing(version.number, version.created, version.user, version.message, now is not None, changed)
        before = now or before


def _alone(by_pack: _Findings, mark: str) -> bytes | None:
    """Give findings that tell of one opening only; None if no pack holds it."""
    for said in by_pack.values():
        if (opening := _opening(said, mark)) is not None:
            return json.dumps({**said, "site": "", "outcome": "", "openings": [opening]}).encode()
    return None


def _later(
    archive: Archive, site: str, mark: str, version: Version
) -> tuple[tuple[Claim | Repair, ...], list[str]]:
    """Read the later records that join an opening, and name those of it that are neither claim nor repair."""
    found: list[Claim | Repair] = []
    unread = []
    for path in later_files(version.state):
        record = load_later(unchanged(archive, site, version, path))[0]
        if isinstance(record, Claim | Repair) and record.mark == mark:
            found.append(record)
        elif isinstance(record, Problem) or (isinstance(record, Remeasurement) and record.mark == mark):
            unread.append(path)
    return tuple(sorted(found, key=lambda one: one.at)), unread
