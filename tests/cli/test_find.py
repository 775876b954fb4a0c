"""`revealbook find` and `revealbook index`: openings on 80 columns or for programs."""

import json
from pathlib import Path

import pytest
from tests.archive import archives
from tests.cli.terminal import Run, run
from tests.lookup import archive_of_two
from tests.lookup.filings import facts_file, file_site
from tests.made import Made

from revealbook.archive.store import Archive


@pytest.fixture
def archive(tmp_path: Path) -> Path:
    return archive_of_two.make(tmp_path).path


def find(archive: Path, *asked: str | Path) -> Run:
    return run("find", "--archive", archive, "--index", archive.parent / "index.sqlite", *asked)


def test_an_opening_is_found_by_words_and_told_with_its_pack(archive: Path) -> None:
    shown = find(archive, "bedroom", "house", "B", "second", "floor")
    assert shown.status == 0, shown.err
    assert "oak/W-1" in shown.out
    assert "elm" not in shown.out
    assert "packs/oak.pdf" in shown.out.replace("\n", "")
    assert "1 opening" in shown.out


def test_the_table_fits_the_terminal_and_says_how_many_there_are(archive: Path) -> None:
    shown = find(archive, "--most", "2")
    rows = [line for line in shown.out.splitlines() if not line.startswith("  ")]
    assert max(map(len, rows)) <= 80
    assert "3 openings; the first 2 are shown" in shown.out


def test_what_is_filed_later_is_found_at_once(archive: Path) -> None:
    assert find(archive, "--batch", "0999").status == 1
    file_site(Archive.open(archive), "fir", {"F-1": {"frame.bonding.batch": "0999"}})
    assert "fir/F-1" in find(archive, "--batch", "0999").out


def test_nothing_found_is_status_1_with_the_nearest_known_value(archive: Path) -> None:
    shown = find(archive, "--batch", "7741")
    assert (shown.status, shown.out) == (1, "")
    assert "Nothing filed has the batch 7741." in shown.err
    assert "7714" in shown.err


def test_no_archive_is_status_2(tmp_path: Path) -> None:
    assert find(tmp_path / "none").status == 2


def test_programs_get_the_same(archive: Path) -> None:
    told = json.loads(find(archive, "--rule", "frame-overlap", "--format", "json").out)
    assert told["number"] == 1
    assert told["found"][0]["mark"] == "W-2"
    assert told["found"][0]["pack_file"].endswith("elm.pdf")


def test_a_sheet_is_copied_and_said_not_to_be_the_evidence(tmp_path: Path, conforming_pack: Made) -> None:
    made = Archive.create(tmp_path / "archive")
    facts = facts_file("alder-yard", {"W-1.01": {}})
    archives.add(made, {"facts.json": facts, "packs/alder-yard.pdf": conforming_pack.pdf}, "alder-yard")
    shown = find(made.path, "--mark", "W-1.01", "--sheet", tmp_path / "sheets")
    assert shown.status == 0, shown.err
    assert [file.name for file in (tmp_path / "sheets").iterdir()] == ["alder-yard-W-1.01-version-1.pdf"]
    assert "not PDF/A" in " ".join(shown.err.split())


def test_the_index_is_built_anew_and_its_size_told(archive: Path) -> None:
    index = archive.parent / "other.sqlite"
    shown = run("index", "--archive", archive, "--index", index)
    assert shown.status == 0, shown.err
    assert "2 sites, 3 openings in" in shown.out
    assert index.is_file()
