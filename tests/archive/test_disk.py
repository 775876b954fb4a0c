"""Files on the disk: digests, copies, links, and what is brought to the disk."""

import os
from hashlib import sha512
from pathlib import Path

import pytest

from revealbook.archive.disk import Digested, digest_of, flush, flush_one, link_tree, store_file
from revealbook.archive.refusal import Refused


def test_the_digest_of_bytes_and_of_a_file_is_the_same(tmp_path: Path) -> None:
    content = bytes(range(256)) * 9000  # more than is read at once
    (tmp_path / "file").write_bytes(content)
    assert digest_of(content) == digest_of(tmp_path / "file") == sha512(content).hexdigest()


def test_a_digest_that_was_taken_is_not_taken_again(tmp_path: Path) -> None:
    assert digest_of(Digested(tmp_path / "nowhere", "ab")) == "ab"


@pytest.mark.parametrize("as_file", [False, True])
def test_a_file_is_stored_below_new_folders(tmp_path: Path, as_file: bool) -> None:
    (tmp_path / "source").write_bytes(b"text")
    source = tmp_path / "source" if as_file else b"text"
    store_file(source, digest_of(source), tmp_path / "a" / "b" / "file")
    assert (tmp_path / "a" / "b" / "file").read_bytes() == b"text"


def test_a_file_that_is_not_what_it_was_is_refused(tmp_path: Path) -> None:
    (tmp_path / "source").write_bytes(b"before")
    digest = digest_of(tmp_path / "source")
    (tmp_path / "source").write_bytes(b"after!")
    with pytest.raises(Refused, match="source was changed while"):
        store_file(tmp_path / "source", digest, tmp_path / "target")


def tree(tmp_path: Path) -> Path:
    old = tmp_path / "old"
    (old / "v1").mkdir(parents=True)
    for name in ("top", "left-out", "v1/inside", "v1/left-out"):
        (old / name).write_text(name)
    return old


def test_a_folder_is_linked_and_only_top_names_are_left_out(tmp_path: Path) -> None:
    old, new = tree(tmp_path), tmp_path / "new"
    assert link_tree(old, new, ["left-out"]) == []
    found = {file.relative_to(new).as_posix() for file in new.rglob("*") if file.is_file()}
    assert found == {"top", "v1/inside", "v1/left-out"}
    assert (new / "v1" / "inside").samefile(old / "v1" / "inside")


def test_where_links_are_impossible_files_are_copied_and_named(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def refuse(source: str, target: str) -> None:
        raise PermissionError(1, "Operation not permitted", source, None, target)

    old, new = tree(tmp_path), tmp_path / "new"
    monkeypatch.setattr(os, "link", refuse)
    copied = link_tree(old, new, [])
    assert {file.relative_to(new).as_posix() for file in copied} == {
        "top", "left-out", "v1/inside", "v1/left-out",
    }  # fmt: skip
    assert (new / "v1" / "inside").read_text() == "v1/inside"
    assert not (new / "v1" / "inside").samefile(old / "v1" / "inside")


def flushed(root: Path, new: list[Path], monkeypatch: pytest.MonkeyPatch) -> list[Path]:
    """Give what is brought to the disk one by one."""
    seen: list[Path] = []
    monkeypatch.setattr("revealbook.archive.disk.flush_one", seen.append)
    flush(root, new)
    return seen


def test_new_files_and_all_folders_are_brought_to_the_disk(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    old = tree(tmp_path)
    assert flushed(old, [old / "top"], monkeypatch) == [old / "top", old, old / "v1"]


@pytest.mark.parametrize("able", [True, False])
def test_many_files_are_brought_there_by_one_call_if_the_system_has_one(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, able: bool
) -> None:
    asked: list[Path] = []

    def whole(root: Path) -> bool:
        asked.append(root)
        return able

    monkeypatch.setattr("revealbook.archive.disk._flush_file_system", whole)
    files = [tmp_path / str(number) for number in range(100)]
    assert flushed(tmp_path, files, monkeypatch) == ([] if able else [*files, tmp_path])
    assert asked == [tmp_path]


def test_files_folders_and_a_whole_file_system_can_be_brought_to_the_disk(tmp_path: Path) -> None:
    old = tree(tmp_path)
    flush_one(old)
    flush_one(old / "top")
    flush(old, [old / "top"] * 100)
    with pytest.raises(FileNotFoundError):
        flush_one(old / "nowhere")
