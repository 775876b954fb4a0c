"""Damage that ocfl-py, the standard's reference validator, refuses is refused here as well, and more.

One byte is changed in each of many files of an archive, one after the other (seeded): 40 in every run, 200
with REVEALBOOK_FULL=1. Our own check must refuse each; it reads some files that the validator does not, as
the description of the layout. The validator is asked about the same damaged store at the same moment.
"""

import os
import random
from pathlib import Path

import pytest
from tests.archive.archives import WHEN, outside_says_valid

from revealbook.archive.proof import prove
from revealbook.archive.proved import Proved
from revealbook.archive.store import Archive

DAMAGED = 200 if os.environ.get("REVEALBOOK_FULL") else 40
UNSEEN = {"ocfl_layout.json"}
"""Files whose every byte counts here, while the standard leaves some of them free."""


@pytest.fixture
def archive(tmp_path: Path) -> Archive:
    """Five sites with up to four versions each."""
    archive, by_chance = Archive.create(tmp_path / "archive"), random.Random(7)
    for number in range(5):
        for version in range(1 + number % 4):
            files = {
                "site.yaml": f"id: site-{number}\n".encode(),
                "findings/p.json": f'{{"version": {version}}}'.encode(),
                **{f"openings/W-{one}.yaml": by_chance.randbytes(300) for one in range(3)},
                **{f"photos/{version}-{one}.jpg": by_chance.randbytes(900) for one in range(2)},
            }
            archive.add(f"site-{number}", files, user="ada", message="filed", created=WHEN)
    return archive


def ours_says_sound(archive: Archive) -> bool:
    return prove(archive, (), Proved(), jobs=1).sound


def theirs_accepts(archive: Archive) -> bool:
    try:
        return outside_says_valid(archive.path)
    except UnicodeDecodeError:
        return False  # the validator itself stops at a list of files that is no text any more


def test_both_accept_what_was_filed(archive: Archive) -> None:
    assert outside_says_valid(archive.path)
    assert ours_says_sound(archive)


def test_one_changed_byte_in_any_file_is_refused(archive: Archive) -> None:
    by_chance = random.Random(20261125)
    files = sorted(file for file in (archive.path / "store").rglob("*") if file.is_file())
    refused = {"ours": 0, "theirs": 0}
    for _ in range(DAMAGED):
        file = by_chance.choice(files)
        sound = file.read_bytes()
        place = by_chance.randrange(len(sound))
        changed = sound[place] ^ by_chance.randint(1, 255)
        file.write_bytes(sound[:place] + bytes([changed]) + sound[place + 1 :])
        theirs = theirs_accepts(archive)
        assert not ours_says_sound(archive), (file, place, changed)
        assert not theirs or file.name in UNSEEN, (file, place, changed)
        refused["ours"] += 1
        refused["theirs"] += not theirs
        file.write_bytes(sound)
    print(f"refused of {DAMAGED}: {refused}")
    assert ours_says_sound(archive)


@pytest.mark.parametrize("name", ["inventory.json", "inventory.json.sha512", "0=ocfl_object_1.1"])
def test_a_lost_file_is_refused_by_both(archive: Archive, name: str) -> None:
    (archive.path / "store" / "site-3" / name).unlink()
    assert not ours_says_sound(archive)
    assert not outside_says_valid(archive.path)
