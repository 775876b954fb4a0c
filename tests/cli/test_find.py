"""`revealbook find` and `revealbook index`: openings on 80 columns or for programs."""

import json
import sys
from pathlib import Path
from time import sleep

import pytest
from tests.archive import archives
from tests.cli.terminal import Run, run
from tests.lookup import archive_of_two
from tests.lookup.filings import facts_file, file_site
from tests.made import Made, judged

from revealbook.archive.store import Archive
from revealbook.present.facts import facts_json


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
    file_site(Archive.open(archive), "fir", {"F-1": {"frame.bonding[0].batches[0].number": "0999"}})
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


viewed = pytest.mark.filterwarnings("ignore::pytest.PytestUnraisableExceptionWarning")
"""The viewer is left to itself when the command ends, as it should be."""
linux = pytest.mark.skipif(sys.platform != "linux", reason="other systems open files in other ways")


def viewer(folder: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """Put a program that opens files into the path: it writes down what it was given."""
    program, given = folder / "bin" / "xdg-open", folder / "opened.txt"
    program.parent.mkdir()
    program.write_text(f'#!/bin/sh\necho "$1" >> {given}\n')
    program.chmod(0o755)
    monkeypatch.setenv("PATH", f"{program.parent}:/usr/bin:/bin")
    return given


def told(given: Path) -> list[str]:
    """Wait for the viewer, which nobody waits for otherwise."""
    for _ in range(100):
        if given.exists():
            break
        sleep(0.05)
    return given.read_text().split()


@linux
@viewed
def test_a_sheet_that_is_found_is_opened_on_request(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, conforming_pack: Made
) -> None:
    given = viewer(tmp_path, monkeypatch)
    state = {
        "packs/p.pdf": conforming_pack.pdf.read_bytes(),
        "facts.json": facts_json(judged(conforming_pack.site)),
    }
    archives.add(made := Archive.create(tmp_path / "archive"), state, "alder-yard")
    shown = find(made.path, "--site", "alder-yard", "--most", "1", "--open")
    assert shown.status == 0, shown.err
    [opened] = told(given)
    assert Path(opened).read_bytes().startswith(b"%PDF")


@linux
@viewed
def test_a_page_of_what_is_found_is_opened_on_request(
    archive: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    given, page = viewer(tmp_path, monkeypatch), tmp_path / "found.html"
    assert find(archive, "--batch", "7714", "--page", page, "--open").status == 0
    assert told(given) == [str(page)]


@linux
@viewed
def test_where_nothing_opens_files_the_place_is_told(
    archive: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("PATH", str(tmp_path))
    shown = find(archive, "--batch", "7714", "--page", tmp_path / "found.html", "--open")
    assert shown.status == 0
    assert "Nothing on this computer opens it" in shown.err
