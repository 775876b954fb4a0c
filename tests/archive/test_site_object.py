"""A site's folder: built complete beside the old one, with content stored once."""

from pathlib import Path

import pytest
from tests.archive.archives import FIRST, SECOND, WHEN

from revealbook.archive.disk import digest_of
from revealbook.archive.inventory import Block, Inventory
from revealbook.archive.refusal import Damaged
from revealbook.archive.site_object import build_next, is_object, read_object

NONE = Inventory("s", {}, ())


def block(files: dict[str, bytes]) -> Block:
    return Block(WHEN, "filed", "Ada", {path: digest_of(content) for path, content in files.items()})


def built(tmp_path: Path, old: str, new: str, before: Inventory, files: dict[str, bytes]) -> Inventory:
    return build_next(
        tmp_path / old, tmp_path / new, before, block(files), files, seen=lambda _done, _total, _path: None
    )


def files_of(folder: Path) -> set[str]:
    return {file.relative_to(folder).as_posix() for file in folder.rglob("*") if file.is_file()}


def test_a_first_version_is_a_whole_object(tmp_path: Path) -> None:
    inventory = built(tmp_path, "none", "one", NONE, FIRST)
    assert is_object(tmp_path / "one")
    assert read_object(tmp_path / "one", "s") == inventory
    assert files_of(tmp_path / "one") == {
        "0=ocfl_object_1.1", "inventory.json", "inventory.json.sha512",
        "v1/inventory.json", "v1/inventory.json.sha512",
        *(f"v1/content/{path}" for path in FIRST),
    }  # fmt: skip


def test_a_second_version_holds_the_first_by_links_and_leaves_it_as_it_was(tmp_path: Path) -> None:
    first = built(tmp_path, "none", "one", NONE, FIRST)
    before = {name: (tmp_path / "one" / name).read_bytes() for name in files_of(tmp_path / "one")}
    built(tmp_path, "one", "two", first, SECOND)
    assert {name: (tmp_path / "one" / name).read_bytes() for name in before} == before
    new = files_of(tmp_path / "two") - before.keys()
    assert new == {"v2/inventory.json", "v2/inventory.json.sha512", "v2/content/packs/s.pdf"}
    for name in before.keys() - {"inventory.json", "inventory.json.sha512"}:
        assert (tmp_path / "two" / name).samefile(tmp_path / "one" / name)
    assert (tmp_path / "two" / "inventory.json").read_bytes() != before["inventory.json"]


def test_each_versions_folder_keeps_the_inventory_of_its_day(tmp_path: Path) -> None:
    first = built(tmp_path, "none", "one", NONE, FIRST)
    second = built(tmp_path, "one", "two", first, SECOND)
    assert read_object(tmp_path / "two" / "v1", "s") == first
    assert read_object(tmp_path / "two" / "v2", "s") == second


def test_content_that_is_there_is_not_stored_again_under_another_name(tmp_path: Path) -> None:
    first = built(tmp_path, "none", "one", NONE, {"a": b"same", "b": b"same"})
    second = built(tmp_path, "one", "two", first, {"c": b"same", "d": b"new"})
    assert {name for name in files_of(tmp_path / "two") if "content" in name} == {
        "v1/content/a", "v2/content/d",
    }  # fmt: skip
    assert second.manifest[digest_of(b"same")] == ("v1/content/a",)


def test_what_somebody_put_beside_the_versions_is_kept(tmp_path: Path) -> None:
    first = built(tmp_path, "none", "one", NONE, FIRST)
    (tmp_path / "one" / "logs").mkdir()
    (tmp_path / "one" / "logs" / "moved.txt").write_text("from the old server")
    built(tmp_path, "one", "two", first, SECOND)
    assert (tmp_path / "two" / "logs" / "moved.txt").read_text() == "from the old server"


def test_a_folder_without_declaration_or_inventory_is_no_object(tmp_path: Path) -> None:
    assert not is_object(tmp_path)
    with pytest.raises(FileNotFoundError):
        read_object(tmp_path, "s")
    built(tmp_path, "none", "one", NONE, FIRST)
    (tmp_path / "one" / "inventory.json.sha512").write_text("0")
    with pytest.raises(Damaged, match="its digest is another"):
        read_object(tmp_path / "one", "s")
