"""What is filed of a site, for the index: each opening's facts over the versions, claims and repairs."""

import json
from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import dataclass, replace
from pathlib import PurePath

from revealbook.archive.again import Again, judge_again
from revealbook.archive.file import FACTS, FINDINGS, PACKS
from revealbook.archive.inventory import SIDECAR
from revealbook.archive.later import later_files, load_later
from revealbook.archive.opened import NotAPack
from revealbook.archive.refusal import Damaged
from revealbook.archive.store import Archive, Version
from revealbook.archive.unchanged import unchanged
from revealbook.present.facts import NotFacts, facts_of, read_facts
from revealbook.present.facts_record import Later, OpeningFacts
from revealbook.records.afterwards import Claim, Repair


@dataclass(frozen=True, slots=True)
class Entry:
    """An opening as it was filed in one or several versions that follow each other.

    Attributes:
        facts: its facts.
        since: the first version with these facts.
        until: the last one.
        latest: whether nothing later was filed of it.
        pack: the pack's name in the last of these versions.
        later: claims and repairs that had joined it by then.
    """

    facts: OpeningFacts
    since: int
    until: int
    latest: bool
    pack: str
    later: tuple[Later, ...] = ()


@dataclass(frozen=True, slots=True)
class FiledOpenings:
    """What is filed of a site.

    Attributes:
        site: its id.
        name: its name.
        digest: of its inventory; changes whenever anything is filed.
        versions: how many versions.
        entries: its openings, in order of mark and version.
    """

    site: str
    name: str
    digest: str
    versions: int
    entries: tuple[Entry, ...]


_Openings = Mapping[str, tuple[OpeningFacts, str]]
"""Facts and pack by mark."""


def digest_of(archive: Archive, site: str) -> str:
    """Give the digest that lies beside a site's inventory; empty if it is being replaced or not there."""
    try:
        return (archive.folder(site) / SIDECAR).read_text("ascii").partition(" ")[0]
    except (OSError, UnicodeDecodeError):
        return ""


def filed_openings(archive: Archive, site: str) -> FiledOpenings:
    """Collect what is filed of a site.

    Raises:
        Damaged: an inventory or file is not what was written.
        Refused: the archive holds no such site.
    """
    digest, versions = digest_of(archive, site), archive.versions(site)
    read = _remembering(archive, site)
    later = _later(archive, site, versions[-1]) if versions else {}
    entries: dict[str, list[Entry]] = {}
    for version in versions:
        for mark, (facts, pack) in read(version).items():
            spans = entries.setdefault(mark, [])
            if spans and spans[-1].facts == facts:
                spans[-1] = replace(spans[-1], until=version.number, pack=pack)
            else:
                spans.append(Entry(facts, version.number, version.number, latest=False, pack=pack))
    for mark, spans in entries.items():
        spans[-1] = replace(spans[-1], latest=True, later=tuple(later.get(mark, ())))
    ordered = tuple(one for mark in sorted(entries) for one in entries[mark])
    name = max(ordered, key=lambda one: one.until).facts.site_name if ordered else site
    return FiledOpenings(site, name, digest, len(versions), ordered)


def _remembering(archive: Archive, site: str) -> Callable[[Version], _Openings]:
    """Read versions so that files they share are read once."""
    read: dict[tuple[tuple[str, str], ...], _Openings] = {}

    def openings(version: Version) -> _Openings:
        told_by = tuple(
            sorted(
                (path, digest)
                for path, digest in version.state.items()
                if path == FACTS or path.startswith((PACKS, FINDINGS))
            )
        )
        if told_by not in read:
            read[told_by] = _openings(archive, site, version)
        return read[told_by]

    return openings


def _openings(archive: Archive, site: str, version: Version) -> _Openings:
    packs = sorted(path for path in version.state if path.startswith(PACKS))
    if FACTS in version.state:
        try:
            facts = read_facts(unchanged(archive, site, version, FACTS).read_bytes())
        except NotFacts:
            pass  # of a later version of this program, perhaps: the packs tell the same
        else:
            only = PurePath(packs[0]).name if len(packs) == 1 else ""
            held_by = {} if only else dict(_packs_of(archive, site, version, packs))
            return {one.mark: (one, held_by.get(one.mark, only)) for one in facts}
    return _judged_again(archive, site, version, packs)


def _packs_of(archive: Archive, site: str, version: Version, packs: list[str]) -> Iterator[tuple[str, str]]:
    """Tell which pack holds an opening: of several, the one with the fewest openings, so not the index."""
    holding: list[tuple[list[str], str]] = []
    for pack in packs:
        findings = f"{FINDINGS}{PurePath(pack).stem}.json"
        if findings in version.state:
            content = unchanged(archive, site, version, findings).read_bytes()
            try:
                marks = [one["mark"] for one in json.loads(content)["openings"]]
            except (ValueError, KeyError, TypeError) as error:
                raise Damaged(f"{findings} of {site} cannot be read: {error}.") from error
            holding.append((marks, PurePath(pack).name))
    for marks, pack in sorted(holding, key=lambda one: -len(one[0])):
        yield from ((mark, pack) for mark in marks)


def _judged_again(archive: Archive, site: str, version: Version, packs: Iterable[str]) -> _Openings:
    """Judge the packs of a version that was filed without facts; smaller packs come after the index."""
    judged = []
    for path in packs:
        try:
            again = judge_again(unchanged(archive, site, version, path))
        except NotAPack as reason:
            raise Damaged(f"{path} of {site}, version {version.number}: {reason}") from reason
        if not isinstance(again, Again):
            raise Damaged(f"{path} of {site}, version {version.number}, cannot be judged.")
        judged.append((again.judged, PurePath(path).name))
    judged.sort(key=lambda one: -len(one[0].openings))
    return {
        opening.mark: (facts_of(opening, of_site), pack)
        for of_site, pack in judged
        for opening in of_site.openings
    }


def _later(archive: Archive, site: str, version: Version) -> Mapping[str, list[Later]]:
    """Read claims and repairs by mark; re-measurements are no events of the opening's life."""
    found: dict[str, list[Later]] = {}
    for path in later_files(version.state):
        record = load_later(unchanged(archive, site, version, path))[0]
        if isinstance(record, Claim | Repair):
            found.setdefault(record.mark, []).append(_told(record))
    for one in found.values():
        one.sort(key=lambda later: later.day)
    return found


def _told(record: Claim | Repair) -> Later:
    chief = record.found if isinstance(record, Claim) else record.done
    used = (f"{one.name} {one.batch or ''}" for one in record.products)
    written = filter(None, (chief, record.cause, record.note, record.by, *used))
    said = "; ".join(text.strip().rstrip(".") for text in written)
    return Later(record.kind, record.id, record.at.date().isoformat(), said)
