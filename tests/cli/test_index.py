"""`revealbook index` and what the commands of looking up say of the index."""

from pathlib import Path

import pytest
from tests.cli.terminal import run
from tests.lookup.filings import file_site, new_archive

from revealbook.archive.store import Archive


@pytest.fixture
def archive(tmp_path: Path) -> Archive:
    made = new_archive(tmp_path)
    file_site(made, "elm", {"W-1": {}, "W-2": {}})
    file_site(made, "oak", {"W-1": {}})
    return made


def asked(archive: Archive, *more: str) -> list[str]:
    return ["--archive", str(archive.path), "--index", str(archive.path.parent / "i.sqlite"), *more]


def test_building_tells_how_much_and_how_fast(archive: Archive) -> None:
    shown = run("index", *asked(archive))
    assert shown.status == 0, shown.err
    where, said = shown.out.splitlines()
    assert where.endswith("i.sqlite")
    assert said.startswith("  2 sites, 3 openings in ")
    assert said.endswith(" MB")


def test_an_index_that_was_deleted_is_made_again_and_answers_the_same(archive: Archive) -> None:
    before = run("find", *asked(archive, "--batch", "0412"))
    assert before.status == 0
    (archive.path.parent / "i.sqlite").unlink()
    assert run("find", *asked(archive, "--batch", "0412")) == before


def test_what_was_filed_since_is_found_at_once(archive: Archive) -> None:
    assert run("find", *asked(archive, "--batch", "7714")).status == 1
    file_site(archive, "oak", {"W-1": {"frame.bonding[0].batches[0].number": "7714"}})
    shown = run("find", *asked(archive, "--batch", "7714"))
    assert shown.status == 0
    assert "oak/W-1" in shown.out


def test_a_site_that_cannot_be_read_is_named_and_the_others_are_found(archive: Archive) -> None:
    (archive.path / "store" / "elm" / "inventory.json").write_text("{}")
    shown = run("find", *asked(archive))
    assert shown.status == 1
    assert "elm: not in the index as it is filed" in shown.err
    assert "oak/W-1" in shown.out
    assert run("index", *asked(archive)).status == 2


def test_what_is_no_archive_is_refused(tmp_path: Path) -> None:
    shown = run("index", "--archive", str(tmp_path), "--index", str(tmp_path / "i.sqlite"))
    assert shown.status == 2
    assert "is no archive" in shown.err
    assert not (tmp_path / "i.sqlite").exists()


def test_a_database_that_cannot_be_reached_is_refused_without_its_password(archive: Archive) -> None:
    address = f"postgresql://nobody:secret@/none?host={archive.path}"
    shown = run("index", "--archive", str(archive.path), "--index", address)
    assert shown.status == 2
    assert "cannot be reached" in shown.err
    assert "secret" not in shown.err
