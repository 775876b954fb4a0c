"""RECEIVE: a zipped bag looked through, unpacked, checked, its packs judged again, and filed."""

from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass, replace
from pathlib import Path

from revealbook.archive.bag import PAYLOAD, Bag, opened_bag
from revealbook.archive.disk import digest_of
from revealbook.archive.file import AFTERWARDS, FINDINGS, PACKS, PHOTOS, SAME, Filing, file_given
from revealbook.archive.given import GivenPack, read_pack
from revealbook.archive.join import PHOTOS as LATER_PHOTOS
from revealbook.archive.join import join
from revealbook.archive.later import LaterRecord, later_files, read_later
from revealbook.archive.refusal import Refused
from revealbook.archive.store import Archive, Filed, Version
from revealbook.archive.together import Together, put_together


@dataclass(frozen=True, slots=True)
class Received:
    """A bag that is whole, with packs that agree with themselves and with each other.

    Attributes:
        bag: the bag; its folder is there as long as it is used.
        packs: its packs, judged again.
        later: its claims, repairs and re-measurements.
        lacking: photographs that its records name, but that did not come with it.
    """

    bag: Bag
    packs: tuple[GivenPack, ...]
    later: tuple[LaterRecord, ...]
    lacking: tuple[str, ...]


@contextmanager
def received(file: Path) -> Iterator[Received]:
    """Unpack and check what was sent; it lies in a temporary folder while it is used.

    Raises:
        Refused: the zip, the bag, a pack or a later record is not what was sent; the message names the file.
    """
    with opened_bag(file) as bag:
        content = bag.folder / PAYLOAD
        paths = sorted(bag.state)
        packs = tuple(read_pack(content / path) for path in paths if path.startswith(PACKS))
        if not packs:
            raise Refused(f"{file} holds no pack.")
        if sorted(pack.fingerprint for pack in packs) != sorted(bag.fingerprints):
            raise Refused(f"{file}: the packs inside have other fingerprints than the bag says.")
        together = put_together(packs)
        if together.site != bag.site:
            raise Refused(f"{file} says that it is of {bag.site}, but its packs are of {together.site}.")
        if strange := sorted(_strange(bag, together)):
            raise Refused("\n".join([f"{file} is not what its packs carry:", *strange]))
        later = tuple(_later(bag, content, path) for path in later_files(paths))
        named = [f"{PHOTOS}{name}" for name in together.photos]
        named += [f"{LATER_PHOTOS}{name}" for record in later for name in record.photos]
        yield Received(bag, packs, later, tuple(path for path in named if path not in bag.state))


def _strange(bag: Bag, together: Together) -> Iterator[str]:
    """Say which files a bag holds besides its packs that are not inside them, or other ones."""
    apart = (PACKS, FINDINGS, PHOTOS, AFTERWARDS)
    beside = {path for path in bag.state if not path.startswith(apart)} - SAME
    for path in beside ^ together.carried.keys():
        yield f"  {path} is {'in no pack' if path in beside else 'missing beside the packs'}"
    for path in beside & together.carried.keys():
        if bag.state[path] != digest_of(together.carried[path]):
            yield f"  {path} is another than in its pack"


def _later(bag: Bag, content: Path, path: str) -> LaterRecord:
    record = read_later(content / path)
    if record.site != bag.site:
        raise Refused(f"{path} in the bag is of {record.site}, not of {bag.site}.")
    return record


def file_received(archive: Archive, got: Received, filing: Filing) -> Filed:
    """File what was received: its packs as one version, then each later record that is new as one more.

    Args:
        archive: where; if a version of it holds the same already, nothing changes.
        got: what was received.
        filing: who and when; photographs come from the bag.

    Raises:
        Refused: photographs lack, or the archive holds another later record under the same name.
        Busy: another filer had the site all the time.
        Damaged: what the archive holds of the site is not what was written.
    """
    bag, content = got.bag, got.bag.folder / PAYLOAD
    if held := _held(archive, bag):
        return Filed(bag.site, held, new=False, before=None)
    note = filing.note or f"received version {bag.version} with head {bag.head[:16]}"
    filed = file_given(archive, got.packs, replace(filing, note=note, photos=content / PHOTOS))
    for record in got.later:
        said = f"{record.kind} {record.id}, {note}"
        joined = join(archive, record, replace(filing, note=said, photos=content / LATER_PHOTOS))
        filed = replace(joined, new=joined.new or filed.new, before=filed.before)
    return filed


def _held(archive: Archive, bag: Bag) -> Version | None:
    """Find a version that holds the same files, but for those that tell of the filing."""
    if bag.site not in archive.sites():
        return None
    sent = bag.state.items() - {(path, bag.state.get(path)) for path in SAME}
    for version in archive.versions(bag.site):
        if {one for one in version.state.items() if one[0] not in SAME} == sent:
            return version
    return None
