"""The structure of a store, file by file: what lacks, what was changed, what somebody put there."""

import json
import shutil
from collections.abc import Callable
from pathlib import Path

import pytest
from tests.archive.archives import FIRST, SECOND, add

from revealbook.archive.fixity import root_faults, structure
from revealbook.archive.inventory import sidecar
from revealbook.archive.store import Archive


@pytest.fixture
def archive(tmp_path: Path) -> Archive:
    """Two versions of one site; the pack changed between them."""
    archive = Archive.create(tmp_path / "archive")
    add(archive, FIRST)
    add(archive, SECOND)
    return archive


def site(archive: Archive) -> Path:
    return archive.path / "store" / "s"


def told(archive: Archive) -> list[tuple[str, str]]:
    found = structure(archive.path, "s")
    return [(fault.path, fault.what) for fault in found.faults]


def test_what_was_filed_has_no_fault_and_all_its_content_is_to_be_hashed(archive: Archive) -> None:
    found = structure(archive.path, "s")
    assert found.faults == ()
    assert found.present == (
        "v1/content/openings/W 1.yaml", "v1/content/packs/s.pdf", "v1/content/site.yaml",
        "v2/content/packs/s.pdf",
    )  # fmt: skip
    assert list(root_faults(archive.path)) == []


def test_a_missing_file_is_told_with_what_it_held(archive: Archive) -> None:
    (site(archive) / "v1/content/openings/W 1.yaml").unlink()
    first, second = structure(archive.path, "s").faults
    assert (first.path, first.what) == ("s/v1/content/openings", "is an empty folder")
    assert (second.path, second.what) == ("s/v1/content/openings/W 1.yaml", "is missing")
    assert second.holds == "record of opening W 1, versions 1 to 2"
    assert len(second.sha512) == 128


def test_a_file_that_nobody_filed_is_told(archive: Archive) -> None:
    (site(archive) / "v2/content/more.yaml").write_text("more")
    (site(archive) / "note.txt").write_text("note")
    assert [path for path, what in told(archive) if "somebody put it there" in what] == [
        "s/note.txt", "s/v2/content/more.yaml",
    ]  # fmt: skip


def test_links_are_told(archive: Archive, tmp_path: Path) -> None:
    (tmp_path / "elsewhere").write_bytes(b"id: s\n")
    file = site(archive) / "v1/content/site.yaml"
    file.unlink()
    file.symlink_to(tmp_path / "elsewhere")
    assert ("s/v1/content/site.yaml", "is a link, which an archive never holds") in told(archive)
    assert ("s/v1/content/site.yaml", "is missing") in told(archive)


def test_a_damaged_list_of_files_is_told_and_the_latest_version_s_own_serves(archive: Archive) -> None:
    (site(archive) / "inventory.json").write_bytes(b"{}")
    found = structure(archive.path, "s")
    assert [(fault.path, fault.holds) for fault in found.faults] == [
        ("s/inventory.json", "the list of all files"), ("s/inventory.json.sha512", ""),
    ]  # fmt: skip
    assert found.inventory is not None
    assert len(found.inventory.blocks) == 2


def test_without_any_list_of_files_nothing_can_be_hashed(archive: Archive) -> None:
    for file in site(archive).rglob("inventory.json*"):
        file.unlink()
    found = structure(archive.path, "s")
    assert (found.inventory, found.present) == (None, ())
    assert found.faults


def rewritten(archive: Archive, folder: str, change: Callable[[dict[str, dict[str, object]]], None]) -> None:
    """Change an inventory and its digest with it, as somebody would who knows how it works."""
    file = site(archive) / folder / "inventory.json"
    plain = json.loads(file.read_bytes())
    change(plain)
    data = (json.dumps(plain, ensure_ascii=False, indent=1, sort_keys=True) + "\n").encode()
    file.write_bytes(data)
    file.with_name("inventory.json.sha512").write_bytes(sidecar(data))


@pytest.mark.parametrize("folder", ["v1", "v2", "."])
def test_an_earlier_version_told_otherwise_is_found(archive: Archive, folder: str) -> None:
    def change(plain: dict[str, dict[str, object]]) -> None:
        version = plain["versions"]["v1"]
        assert isinstance(version, dict)
        version["message"] = "another reason"

    rewritten(archive, folder, change)
    assert any(what == "tells earlier versions otherwise than the latest one" for _, what in told(archive))


def test_a_damaged_list_of_a_version_is_told(archive: Archive) -> None:
    file = site(archive) / "v1/inventory.json"
    file.write_bytes(file.read_bytes() + b" ")
    assert ("s/v1/inventory.json", "was changed, or its digest was") in told(archive)


def test_a_digest_file_is_held_to_its_last_byte(archive: Archive) -> None:
    file = site(archive) / "v2/inventory.json.sha512"
    file.write_bytes(file.read_bytes().replace(b"json", b"jsom"))
    assert told(archive) == [("s/v2/inventory.json.sha512", "is not the digest of the list beside it")]


def test_a_missing_list_of_a_version_is_told(archive: Archive) -> None:
    (site(archive) / "v1/inventory.json").unlink()
    assert told(archive) == [("s/v1/inventory.json", "is missing")]


def test_a_changed_declaration_is_told(archive: Archive) -> None:
    (site(archive) / "0=ocfl_object_1.1").write_bytes(b"ocfl_object_1.0\n")
    assert told(archive) == [("s/0=ocfl_object_1.1", "was changed")]


# --- the store itself ------------------------------------------------------------------------------------


def root_told(archive: Archive) -> list[tuple[str, str]]:
    return [(fault.path, fault.what) for fault in root_faults(archive.path)]


def test_what_does_not_belong_into_the_store_is_told(archive: Archive) -> None:
    store = archive.path / "store"
    (store / "photos").mkdir()
    (store / "list.txt").write_text("list")
    assert root_told(archive) == [
        ("list.txt", "does not belong to the store"),
        ("photos", "is no site's folder, or has lost what says so"),
    ]


def test_a_site_that_lost_its_declaration_is_told(archive: Archive) -> None:
    (site(archive) / "0=ocfl_object_1.1").unlink()
    assert root_told(archive) == [("s", "is no site's folder, or has lost what says so")]


@pytest.mark.parametrize("name", ["0=ocfl_1.1", "ocfl_layout.json"])
def test_a_changed_root_is_told(archive: Archive, name: str) -> None:
    (archive.path / "store" / name).write_bytes(b"other")
    assert root_told(archive) == [(name, "is missing or was changed")]
    (archive.path / "store" / name).unlink()
    assert root_told(archive) == [(name, "is missing or was changed")]


def test_a_whole_site_taken_out_is_not_seen_here_but_by_a_head(archive: Archive) -> None:
    shutil.rmtree(site(archive))
    assert root_told(archive) == []  # proof.prove is told of it by a head that was noted
