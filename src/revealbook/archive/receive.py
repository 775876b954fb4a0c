"""RECEIVE: a zipped bag looked through, unpacked, checked, its packs judged again, and filed."""

from collections.abc import Collection, Iterator, Mapping
from contextlib import contextmanager
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Any

from revealbook.archive.bag import PAYLOAD, Bag, opened_bag
from revealbook.archive.disk import Digested, digest_of
from revealbook.archive.file import AFTERWARDS, PACKS, PHOTOS, SAME, Along, Filing, content, file_given
from revealbook.archive.given import GivenPack, read_packs
from revealbook.archive.join import PHOTOS as LATER_PHOTOS
from revealbook.archive.join import add_later
from revealbook.archive.later import LaterRecord, later_files, read_later
from revealbook.archive.refusal import Refused
from revealbook.archive.site_object import Progress
from revealbook.archive.store import Archive, Filed, Version
from revealbook.archive.together import Together, put_together

_NAMED, _SHOWN = 3, 16
"""So many later records are named in the note of a version, and so many digits of the head."""


@dataclass(frozen=True, slots=True)
class Received:
    """A bag that is whole, with packs that agree with themselves and with each other.

    Attributes:
        bag: the bag; its folder is there as long as it is used.
        packs: its packs, judged again.
        later: its claims, repairs and re-measurements.
        lacking: photographs that its records name, but that did not come with it.
        elsewhere: those of its later records whose opening is in none of its packs.
    """

    bag: Bag
    packs: tuple[GivenPack, ...]
    later: tuple[LaterRecord, ...]
    lacking: tuple[str, ...]
    elsewhere: tuple[LaterRecord, ...]


@contextmanager
def received(file: Path, seen: Progress | None = None) -> Iterator[Received]:
    """Unpack and check what was sent; it lies in a temporary folder while it is used.

    Args:
        file: the zipped bag.
        seen: told after each pack that was judged again.

    Raises:
        Refused: the zip, the bag, a pack or a later record is not what was sent; the message names the file.
    """
    with opened_bag(file) as bag:
        folder = bag.folder / PAYLOAD
        paths = sorted(bag.state)
        packs = read_packs([folder / path for path in paths if path.startswith(PACKS)], seen)
        if not packs:
            raise Refused(f"{file} holds no pack.")
        if sorted(pack.fingerprint for pack in packs) != sorted(bag.fingerprints):
            raise Refused(f"{file}: the packs inside have other fingerprints than the bag says.")
        together = put_together(packs)
        if together.site != bag.site:
            raise Refused(f"{file} says that it is of {bag.site}, but its packs are of {together.site}.")
        later = tuple(_later(bag, folder, path) for path in later_files(paths))
        named = [f"{PHOTOS}{name}" for name in together.photos]
        named += [f"{LATER_PHOTOS}{name}" for record in later for name in record.photos]
        beside = {*named, *(record.path for record in later)}
        if strange := sorted(_strange(bag, together, beside)):
            raise Refused("\n".join([f"{file} is not what its packs carry:", *strange]))
        marks = {opening.mark for opening in together.judged.openings}
        yield Received(
            bag,
            packs,
            later,
            lacking=tuple(path for path in named if path not in bag.state),
            elsewhere=tuple(record for record in later if record.mark not in marks),
        )


def _strange(bag: Bag, together: Together, beside: Collection[str]) -> Iterator[str]:
    """Say which files a bag holds that neither come from its packs nor are named, or are other ones."""
    of_packs = content(together)
    sent, expected = bag.state.keys() - SAME, of_packs.keys() - SAME
    for path in (sent - expected).difference(beside):
        yield f"  {path} is in no pack, and no record names it"
    for path in expected - sent:
        yield f"  {path} is missing beside the packs"
    for path in expected & sent:
        if bag.state[path] != digest_of(of_packs[path]):
            yield f"  {path} is another than in its pack"


def _later(bag: Bag, folder: Path, path: str) -> LaterRecord:
    record = read_later(folder / path)
    if record.site != bag.site:
        raise Refused(f"{path} in the bag is of {record.site}, not of {bag.site}.")
    return record


def file_received(archive: Archive, got: Received, filing: Filing) -> Filed:
    """File what was received as one version: whoever is stopped leaves all of it in the archive, or nothing.

    Packs that a version holds already are not filed again; then only later records that are new are added
    to the latest version, even if that holds newer packs.

    Args:
        archive: where; if a version of it holds everything that came, nothing changes.
        got: what was received.
        filing: who and when; photographs come from the bag.

    Raises:
        Refused: photographs lack, or the archive holds another later record under the same name.
        Busy: another filer had the site all the time.
        Damaged: what the archive holds of the site is not what was written.
    """
    bag, folder = got.bag, got.bag.folder / PAYLOAD
    versions = archive.versions_if_any(bag.site)
    holding = [version for version in versions if _holds_packs(version, bag)]
    later = {path: digest for path, digest in bag.state.items() if path.startswith(AFTERWARDS)}
    for version in holding:
        if later.items() <= version.state.items():
            return Filed(bag.site, version, new=False, before=None)
    lacking = [path for path in got.lacking if path.startswith(AFTERWARDS)]
    if lacking and not filing.without_photos:
        raise Refused(f"Later records name photographs that did not come with them: {', '.join(lacking)}.")
    along = Along({path: Digested(folder / path, digest) for path, digest in later.items()}, _told(got))
    note = filing.note or _note(got, versions[-1].state if versions else {})
    filing = replace(filing, note=note, photos=folder / PHOTOS)
    if holding:
        return add_later(
            archive, bag.site, along.later, lambda _before: along.told, filing=filing, message=note
        )
    return file_given(archive, got.packs, filing, along)


def _holds_packs(version: Version, bag: Bag) -> bool:
    """Whether a version's packs are those of a bag, and all photographs that came with them are there."""
    photos = {path: digest for path, digest in bag.state.items() if path.startswith(PHOTOS)}
    same_packs = _of_packs(version.state) == _of_packs(bag.state)
    return same_packs and photos.items() <= version.state.items()


def _of_packs(state: Mapping[str, str]) -> dict[str, str]:
    apart = (PHOTOS, AFTERWARDS, *SAME)
    return {path: digest for path, digest in state.items() if not path.startswith(apart)}


def _note(got: Received, held: Mapping[str, str]) -> str:
    """Say what was received, and which later records the archive did not hold."""
    bag, new = got.bag, [f"{one.kind} {one.id}" for one in got.later if one.path not in held]
    head = f"head {bag.head[:_SHOWN]}"
    what = (
        f"received with {head}, not filed before"
        if bag.only_sent
        else f"received version {bag.version} with {head}"
    )
    named = new if len(new) <= _NAMED else [f"{len(new)} later records"]
    return ", ".join([what, *named])


def _told(got: Received) -> dict[str, Any]:
    """Give what filing.json tells of a bag: whose filing it was, and what came with it."""
    bag = got.bag
    return {
        "received": {
            "head": bag.head,
            "version": None if bag.only_sent else bag.version,
            **{key: str(bag.filing.get(key, "")) for key in ("filed_by", "filed_at", "note")},
            "later_records": [record.path for record in got.later],
            "photos_missing": list(got.lacking),
        }
    }
