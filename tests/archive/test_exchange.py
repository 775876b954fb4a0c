"""Exchanging folders: at once where the system can, by two renames and a repair where it cannot."""

import sys
from pathlib import Path

import pytest

from revealbook.archive.exchange import never, put_back, replace_folder, swap


def folder(path: Path, holds: str) -> Path:
    path.mkdir(parents=True)
    (path / "file").write_text(holds)
    return path


def read(path: Path) -> str:
    return (path / "file").read_text()


@pytest.mark.skipif(sys.platform not in {"linux", "darwin"}, reason="no such call")
def test_folders_are_exchanged(tmp_path: Path) -> None:
    one, other = folder(tmp_path / "ä one", "1"), folder(tmp_path / "other", "2")
    assert swap(one, other)
    assert (read(one), read(other)) == ("2", "1")


@pytest.mark.skipif(sys.platform not in {"linux", "darwin"}, reason="no such call")
def test_a_folder_that_is_not_there_is_told_with_its_name(tmp_path: Path) -> None:
    one = folder(tmp_path / "one", "1")
    with pytest.raises(FileNotFoundError, match="one"):
        swap(one, tmp_path / "nowhere")
    assert read(one) == "1"


@pytest.mark.parametrize("how", [swap, never])
def test_a_new_folder_takes_the_old_ones_place(tmp_path: Path, how: object) -> None:
    new, target = folder(tmp_path / "work" / "new", "2"), folder(tmp_path / "store" / "s", "1")
    replace_folder(new, target, never if how is never else swap)
    assert read(target) == "2"
    left = tmp_path / "work" / ("old" if how is never else "new")
    assert read(left) == "1"


def test_where_there_is_none_the_new_folder_just_moves(tmp_path: Path) -> None:
    new, target = folder(tmp_path / "new", "1"), tmp_path / "s"
    replace_folder(new, target, lambda _one, _other: pytest.fail("nothing to exchange"))
    assert (read(target), new.exists()) == ("1", False)


def test_a_folder_that_stepped_aside_is_put_back(tmp_path: Path) -> None:
    folder(tmp_path / "work" / "old", "1")
    assert put_back(tmp_path / "work", tmp_path / "s")
    assert read(tmp_path / "s") == "1"


def test_an_old_folder_is_not_put_back_over_a_new_one(tmp_path: Path) -> None:
    folder(tmp_path / "work" / "old", "1")
    folder(tmp_path / "s", "2")
    assert not put_back(tmp_path / "work", tmp_path / "s")
    assert read(tmp_path / "s") == "2"


def test_where_nothing_stepped_aside_nothing_is_put_back(tmp_path: Path) -> None:
    assert not put_back(tmp_path, tmp_path / "s")
