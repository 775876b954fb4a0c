"""What is used of an archive is held against its digest first."""

from pathlib import Path

import pytest
from tests.archive import archives

from revealbook.archive.refusal import Damaged, Refused
from revealbook.archive.store import Archive
from revealbook.archive.unchanged import unchanged


@pytest.fixture
def archive(tmp_path: Path) -> Archive:
    archive = Archive.create(tmp_path / "archive")
    archives.add(archive, {"facts.json": b"facts", "packs/p.pdf": b"%PDF"})
    return archive


def test_content_that_is_what_was_filed_is_given(archive: Archive) -> None:
    assert unchanged(archive, "s", archive.version("s"), "facts.json").read_bytes() == b"facts"


def test_content_of_the_same_length_that_was_changed_is_refused(archive: Archive) -> None:
    content = archive.content("s", 1, "facts.json")
    content.chmod(0o644)
    content.write_bytes(b"fates")
    with pytest.raises(Damaged, match=r"facts\.json of s, version 1, is not what was filed"):
        unchanged(archive, "s", archive.version("s"), "facts.json")


def test_content_that_is_gone_is_refused(archive: Archive) -> None:
    archive.content("s", 1, "facts.json").unlink()
    with pytest.raises(Damaged, match=r"cannot be read: No such file"):
        unchanged(archive, "s", archive.version("s"), "facts.json")


def test_a_file_that_was_never_filed_is_refused(archive: Archive) -> None:
    with pytest.raises(Refused, match=r"holds no notes\.txt"):
        unchanged(archive, "s", archive.version("s"), "notes.txt")
