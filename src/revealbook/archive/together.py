"""Packs of one site that are filed together: whether they agree with one another, and what they give."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from itertools import groupby
from pathlib import Path, PurePath

from revealbook.archive.given import GivenPack
from revealbook.archive.refusal import Refused
from revealbook.present.problems import line
from revealbook.present.sheet import pictures_of
from revealbook.present.words import words_in
from revealbook.records.load import SITE_FILE, look_into
from revealbook.rules.judged import JudgedOpening, JudgedSite
from revealbook.source.problem import Problem

_RULES = ("rules/", "rule_sets/")
_OF_THE_PACK = frozenset({"findings.json", "volumes.json"})
"""What a pack carries about itself."""


@dataclass(frozen=True, slots=True)
class Together:
    """Packs of one site that agree.

    Attributes:
        packs: the packs.
        judged: all their openings, once each.
        carried: site file, records and rules by path.
    """

    packs: tuple[GivenPack, ...]
    judged: JudgedSite
    carried: Mapping[str, bytes]

    @property
    def site(self) -> str:
        """The site's id."""
        return self.judged.site.site.id

    @property
    def photos(self) -> tuple[str, ...]:
        """Names of all photographs that the records name, in order."""
        opened = (opening.record.opening for opening in self.judged.openings)
        return tuple(sorted({photo.file for opening in opened for photo in pictures_of(opening).values()}))


def by_site(packs: Iterable[GivenPack]) -> tuple[tuple[GivenPack, ...], ...]:
    """Divide packs by site, in order of its id."""

    def site(pack: GivenPack) -> str:
        return pack.judged.site.site.id

    return tuple(tuple(group) for _, group in groupby(sorted(packs, key=site), key=site))


def put_together(packs: Sequence[GivenPack]) -> Together:
    """Put packs of one site together.

    Raises:
        Refused: they are of several sites, contradict one another, or are not the volumes that an index
            among them names.
    """
    if not packs:
        raise Refused("There is no pack to file.")
    sites = sorted({pack.judged.site.site.id for pack in packs})
    if len(sites) > 1:
        raise Refused(f"Packs of several sites cannot be filed as one version: {', '.join(sites)}.")
    _refuse_one_name(packs)
    carried: dict[str, bytes] = {}
    for pack in packs:
        _refuse_other_rules(packs[0], pack)
        _take(carried, pack)
    indexes = [pack for pack in packs if pack.volumes is not None]
    for index in indexes:
        _refuse_other_volumes(index, [pack for pack in packs if pack is not index])
    judged = indexes[0].judged if indexes else _all_openings(packs)
    return Together(tuple(packs), judged, carried)


def _refuse_one_name(packs: Sequence[GivenPack]) -> None:
    stems: dict[str, Path] = {}
    for pack in packs:
        first = stems.setdefault(PurePath(pack.name).stem.casefold(), pack.file.path)
        if first != pack.file.path:
            raise Refused(f"{first} and {pack.file.path} have one name; give one of them another.")


def _refuse_other_rules(first: GivenPack, pack: GivenPack) -> None:
    """Refuse a pack judged by other rules than the first: the union of both would be neither's."""
    mine, other = ({path for path in one.carried if path.startswith(_RULES)} for one in (first, pack))
    if mine != other:
        named = ", ".join(sorted(mine ^ other))
        raise Refused(f"{first.name} and {pack.name} were judged by different rules: {named}.")


def _take(carried: dict[str, bytes], pack: GivenPack) -> None:
    for path, raw in pack.carried.items():
        if path not in _OF_THE_PACK and carried.setdefault(path, raw) != raw:
            raise Refused(f"{pack.name} carries another {path} than the packs given with it.")


def _refuse_other_volumes(index: GivenPack, given: Sequence[GivenPack]) -> None:
    """Refuse volumes that are not those that the index names, or do not hold all its records."""
    by_name = {pack.name: pack for pack in given}
    for volume in index.volumes or ():
        pack = by_name.pop(volume.file, None)
        if pack is None:
            raise Refused(f"{index.name} names the volume {volume.file}, which was not given.")
        if pack.sha256 != volume.sha256:
            raise Refused(f"{volume.file} is not the volume that {index.name} names: its SHA-256 is another.")
    if by_name:
        raise Refused(f"{index.name} does not name the volume {', '.join(sorted(by_name))}.")
    shown = {path for pack in given for path in pack.carried}
    if lost := sorted(index.carried.keys() - shown - _OF_THE_PACK):
        raise Refused(f"{index.name} carries records that stand in no volume: {', '.join(lost)}.")


def _all_openings(packs: Sequence[GivenPack]) -> JudgedSite:
    """Give all openings of packs without an index, once each."""
    openings: dict[str, JudgedOpening] = {}
    for pack in packs:
        for opening in pack.judged.openings:
            first = openings.setdefault(opening.mark, opening)
            if first.record.sheet.file != opening.record.sheet.file:
                files = f"{first.record.sheet.file} and {opening.record.sheet.file}"
                raise Refused(f"Two records are of opening {opening.mark}: {files}.")
    return replace(packs[0].judged, openings=tuple(openings.values()))


def differing(site: Path, together: Together) -> tuple[str, ...]:
    """Say which of a site folder's files are no longer those that its packs carry.

    Args:
        site: the site folder.
        together: its pack, or all its volumes.

    Returns:
        A few words for each such file, in order of path.

    Raises:
        Refused: the folder is no site folder.
    """
    folder = look_into(site)
    if isinstance(folder, Problem):
        raise Refused(line(folder, words_in("en")))
    files = (site / SITE_FILE, *folder.records, *folder.overlays)
    now = {folder.shown(file): file.read_bytes() for file in files}
    carried = {path: raw for path, raw in together.carried.items() if not path.startswith("rule_sets/")}
    both = now.keys() & carried.keys()
    said = {path: "changed since" for path in both if now[path] != carried[path]}
    said |= dict.fromkeys(now.keys() - both, "not in the pack")
    said |= dict.fromkeys(carried.keys() - both, "only in the pack")
    return tuple(f"{path}: {said[path]}" for path in sorted(said))
