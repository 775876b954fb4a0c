"""What is on the disk when a new version takes its place: all of it, so that a power cut loses none.

The disk itself cannot be cut off in a test. What can be held is the order: every file and folder of the new
version was brought to the disk, as it is, before it is exchanged for the old one, and its name after that.
"""

import os
import sys
from dataclasses import dataclass, field, replace
from pathlib import Path

import pytest
from tests.archive import archives

from revealbook.archive import disk, exchange
from revealbook.archive.store import Archive

pytestmark = pytest.mark.skipif(sys.platform == "win32", reason="folders are not brought to the disk there")
Seen = tuple[int, int, int]
"""Number, size and time of change of a file or folder."""


def as_it_is(status: os.stat_result) -> Seen:
    return status.st_ino, status.st_size, status.st_mtime_ns


@dataclass
class Disk:
    """What was brought to the disk, by really doing so and writing it down."""

    monkeypatch: pytest.MonkeyPatch
    safe: set[Seen] = field(default_factory=set)

    def watch(self) -> None:
        one, whole = os.fsync, disk._flush_file_system

        def fsync(opened: int) -> None:
            one(opened)
            self.safe.add(as_it_is(os.fstat(opened)))

        def flush_file_system(root: Path) -> bool:
            if not whole(root):
                return False
            self.safe |= {as_it_is(path.stat()) for path in (root, *root.rglob("*"))}
            return True

        self.monkeypatch.setattr(os, "fsync", fsync)
        self.monkeypatch.setattr(disk, "_flush_file_system", flush_file_system)

    def lacks(self, root: Path) -> list[Path]:
        return [path for path in (root, *root.rglob("*")) if as_it_is(path.stat()) not in self.safe]


@pytest.mark.parametrize("files", [3, 300])
def test_a_version_takes_its_place_only_when_all_of_it_is_on_the_disk(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, files: int
) -> None:
    archive = Archive.create(tmp_path / "archive")
    archives.add(archive, archives.FIRST)
    kept = {as_it_is(path.stat()) for path in archive.folder("s").rglob("*")}
    written, lacking = Disk(monkeypatch, kept), list[list[Path]]()
    written.watch()

    def swap(new: Path, target: Path) -> bool:
        lacking.append(written.lacks(new))
        return exchange.swap(new, target)

    more = {f"photos/{number}.jpg": os.urandom(20) for number in range(files)}
    archives.add(replace(archive, swap=swap), {**archives.SECOND, **more})
    assert lacking == [[]]
    assert written.lacks(archive.folder("s")) == []
    assert as_it_is(archive.folder("s").parent.stat()) in written.safe, "the name of the new version"


def test_the_check_itself_notices_a_file_that_was_not_brought_to_the_disk(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    written = Disk(monkeypatch)
    written.watch()
    (tmp_path / "a").write_bytes(b"a")
    disk.flush(tmp_path, [tmp_path / "a"])
    assert written.lacks(tmp_path) == []
    (tmp_path / "a").write_bytes(b"ab")
    assert written.lacks(tmp_path) == [tmp_path / "a"]
