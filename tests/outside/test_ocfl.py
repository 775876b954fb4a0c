"""The store held against ocfl-py, which is not ours: whatever archive is made here is valid OCFL 1.1."""

import shutil
import subprocess
from pathlib import Path

import pytest
from tests.archive.archives import FIRST, SECOND, WHEN, add, content_of, outside_objections
from tests.archive.plain_packs import in_volumes, whole_pack
from tests.site_folders import change, small_site

from revealbook.archive.file import Filing, file_packs
from revealbook.archive.store import Archive


@pytest.fixture
def archive(tmp_path: Path) -> Archive:
    return Archive.create(tmp_path / "archive")


def test_an_empty_archive_is_valid(archive: Archive) -> None:
    assert outside_objections(archive.path) == []


def test_packs_filed_whole_and_in_volumes_are_valid(archive: Archive, tmp_path: Path) -> None:
    site = small_site(tmp_path / "site", {"A-1": ("A", "1"), "B-1": ("B", "1")})
    filing = Filing("Ada", WHEN, photos=site / "photos")
    file_packs(archive, [whole_pack(site)], filing)
    change(site / "openings" / "A-1.yaml", "overlap_left_mm: 82", "overlap_left_mm: 83")
    file_packs(archive, in_volumes(site), filing)
    assert len(archive.versions("alder-yard")) == 2
    assert outside_objections(archive.path) == []


def test_many_versions_with_strange_names_and_repeated_content_are_valid(archive: Archive) -> None:
    names = ["a:b.jpg", "W.jpg", "w.jpg", "dot./file", "con.txt", "ü.jpg", "u\u0308.jpg", "x" * 190, "100%"]
    for number in range(4):
        files = {f"photos/{name}": b"%d" % (number % 3 + place) for place, name in enumerate(names)}
        add(archive, {**(FIRST, SECOND)[number % 2], **files})
    assert outside_objections(archive.path) == []
    assert set(content_of(archive, "s", 4)) == {*FIRST, *(f"photos/{name}" for name in names)}


@pytest.mark.parametrize("path", ["v1/content/packs/s.pdf", "inventory.json.sha512", "v1/inventory.json"])
def test_ocfl_py_would_notice_a_change_in_any_kind_of_file(archive: Archive, path: str) -> None:
    add(archive, FIRST)
    file = archive.folder("s") / path
    raw = file.read_bytes()
    file.write_bytes(bytes([raw[0] ^ 1]) + raw[1:])
    assert outside_objections(archive.path) != []


@pytest.mark.skipif(shutil.which("sha512sum") is None, reason="no coreutils here")
def test_the_digest_beside_the_inventory_is_checked_by_coreutils(archive: Archive) -> None:
    add(archive, FIRST)
    command = ["sha512sum", "--check", "--strict", "inventory.json.sha512"]
    done = subprocess.run(command, cwd=archive.folder("s"), capture_output=True, text=True, check=True)
    assert done.stdout == "inventory.json: OK\n"


@pytest.mark.skipif(shutil.which("sha256sum") is None, reason="no coreutils here")
def test_the_head_is_computed_by_hand_as_the_page_in_the_archive_says(archive: Archive) -> None:
    """By a recipe for the shell, of sort and sha256sum."""
    add(archive, FIRST)
    add(archive, SECOND)
    head = "0" * 64
    for version in archive.versions("s"):
        listed = "".join(f"{digest}  {path}\n" for path, digest in version.state.items())
        recipe = f"(printf '{head}\\ns\\n{version.number}\\n'; LC_ALL=C sort -k 2) | sha256sum"
        done = subprocess.run(["sh", "-c", recipe], input=listed, capture_output=True, text=True, check=True)
        head = done.stdout.split()[0]
        assert head == version.head
