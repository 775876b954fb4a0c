"""An archive's folders, and the page for people in it."""

import json
from pathlib import Path

import pytest

from revealbook.archive.chain import head_text
from revealbook.archive.layout import check_archive, is_made, read_me, write_root
from revealbook.archive.refusal import NotAnArchive


def test_the_root_says_which_standard_and_layout_it_keeps_to(tmp_path: Path) -> None:
    written = write_root(tmp_path)
    assert sorted(written) == sorted(tmp_path.iterdir())
    assert (tmp_path / "0=ocfl_1.1").read_bytes() == b"ocfl_1.1\n"
    layout = json.loads((tmp_path / "ocfl_layout.json").read_bytes())
    assert layout["extension"] == "0002-flat-direct-storage-layout"


@pytest.mark.parametrize("there", [(), ("work",), ("READ-ME.txt", "work")])
def test_an_archive_may_be_made_where_nothing_or_half_an_archive_is(
    tmp_path: Path, there: tuple[str, ...]
) -> None:
    for name in there:
        (tmp_path / name).mkdir()
    assert not is_made(tmp_path)
    assert not is_made(tmp_path / "new")


def test_an_archive_may_not_be_made_where_something_else_is(tmp_path: Path) -> None:
    (tmp_path / "file").write_text("")
    for place in (tmp_path, tmp_path / "file"):
        with pytest.raises(NotAnArchive, match="no archive and not empty"):
            is_made(place)


def test_an_archive_is_known_by_its_declaration(tmp_path: Path) -> None:
    (tmp_path / "store").mkdir()
    assert is_made(tmp_path)
    with pytest.raises(NotAnArchive, match=r"0=ocfl_1\.1 is not there"):
        check_archive(tmp_path)
    write_root(tmp_path / "store")
    check_archive(tmp_path)


def test_the_page_fits_any_terminal_and_is_plain_text() -> None:
    lines = read_me().splitlines()
    assert read_me().isascii()
    assert max(map(len, lines)) <= 78
    assert len(lines) < 90


def test_the_page_tells_a_head_as_it_is_made() -> None:
    """Each line of the text behind a head has its line on the page, in the same order."""
    asked = ["head of the version before", "the site's id", "the version's number", "two blanks, the name"]
    page = read_me().partition("ended\nby")[2]
    places = [page.index(one) for one in asked]
    assert places == sorted(places)
    assert head_text("h", "s", 1, {"n": "d"}).splitlines() == ["h", "s", "1", "d  n"]
    assert "first version 64 zeros" in page
