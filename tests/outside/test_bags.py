"""Bags held against the BagIt library of the Library of Congress, which is not ours (RFC 8493)."""

import os
import random
from collections.abc import Iterator
from pathlib import Path

import bagit
import pytest
from tests.archive.archives import WHEN
from tests.archive.plain_packs import in_volumes, whole_pack
from tests.site_folders import small_site

from revealbook.archive.bag import check_bag, write_bag
from revealbook.archive.file import Filing, file_packs
from revealbook.archive.join import join
from revealbook.archive.later import LaterRecord
from revealbook.archive.refusal import Refused
from revealbook.archive.store import Archive
from revealbook.archive.zipped import unpack

SITE = "alder-yard"
FLIPS = 200 if os.environ.get("REVEALBOOK_FULL") else 40
PLACES = {"A-1": ("A", "1"), "B-1": ("B", "1")}


@pytest.fixture(scope="module")
def bags(tmp_path_factory: pytest.TempPathFactory) -> list[Path]:
    """Unpacked bags of every version of a site: one pack, volumes with their index, a claim joined later."""
    path = tmp_path_factory.mktemp("bags")
    site = small_site(path / "site", PLACES)
    filing = Filing("Ada", WHEN, photos=site / "photos")
    archive = Archive.create(path / "archive")
    file_packs(archive, [whole_pack(site)], filing)
    file_packs(archive, in_volumes(site), filing)
    join(archive, LaterRecord(SITE, "A-1", "claim-1", "claim", b"kind: claim\n"), filing)
    return [bag_of(archive, number, path) for number in (1, 2, 3)]


def bag_of(archive: Archive, number: int, path: Path) -> Path:
    write_bag(archive, SITE, number, path / f"{number}.zip")
    folder = path / f"bag-{number}"
    folder.mkdir()
    unpack(path / f"{number}.zip", folder)
    return next(folder.iterdir())


def outside_says_valid(bag: Path) -> bool:
    """Whether the library accepts a bag; a byte that is no text makes it stop with a ValueError."""
    try:
        return bool(bagit.Bag(str(bag)).validate())
    except (bagit.BagError, ValueError):
        return False


def we_say_valid(bag: Path) -> bool:
    try:
        return bool(check_bag(bag))
    except Refused:
        return False


def test_the_library_accepts_every_bag_and_reads_its_site_version_and_head(bags: list[Path]) -> None:
    for number, bag in enumerate(bags, 1):
        assert outside_says_valid(bag)
        assert we_say_valid(bag)
        info = bagit.Bag(str(bag)).info
        assert (info["External-Identifier"], info["Revealbook-Version"]) == (SITE, str(number))
        assert info["Revealbook-Head"] == check_bag(bag).head


def flipped(bags: list[Path]) -> Iterator[tuple[Path, str]]:
    """Change one byte of one file in a bag after the other, and put it back."""
    chance = random.Random(8493)
    for _ in range(FLIPS):
        bag = chance.choice(bags)
        file = chance.choice(sorted(one for one in bag.rglob("*") if one.is_file()))
        whole = file.read_bytes()
        place, change = chance.randrange(len(whole)), chance.randrange(1, 256)
        file.write_bytes(whole[:place] + bytes([whole[place] ^ change]) + whole[place + 1 :])
        yield bag, f"{file.relative_to(bag)}, byte {place} ^ {change}"
        file.write_bytes(whole)


@pytest.mark.slow
def test_one_changed_byte_anywhere_is_refused_by_the_library_and_by_us(bags: list[Path]) -> None:
    unseen = [where for bag, where in flipped(bags) if outside_says_valid(bag) or we_say_valid(bag)]
    assert unseen == []
    assert all(outside_says_valid(bag) and we_say_valid(bag) for bag in bags), "the bags were not put back"
