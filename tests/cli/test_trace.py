"""`revealbook trace`: which other openings share a cause, on 80 columns or for programs."""

import json
from pathlib import Path

import pytest
from tests.cli.terminal import Run, run
from tests.lookup import filings

from revealbook.archive.store import Archive


@pytest.fixture
def archive(tmp_path: Path) -> Path:
    made = filings.new_archive(tmp_path)
    other_batch = {"frame.bonding[0].batches[0].number": "0999"}
    filings.file_site(made, "alder-yard", {"W-1": filings.SHORT, "W-2": {}, "W-3": other_batch})
    filings.file_site(made, "elm-yard", {"E-1": {**filings.SHORT, **other_batch}})
    return made.path


def trace(archive: Path, *asked: str) -> Run:
    return run("trace", "--archive", archive, "--index", archive.parent / "index.sqlite", *asked)


def test_openings_of_other_sites_are_traced_with_the_reasons_and_fit_the_terminal(archive: Path) -> None:
    shown = trace(archive, "--opening", "alder-yard/W-1")
    assert shown.status == 0, shown.err
    lines = shown.out.splitlines()
    at = next(number for number, line in enumerate(lines) if line.startswith("elm-yard/E-1"))
    assert "  nonconformity: frame-overlap" in lines[at:]
    assert "adhesive batch: Example Frame Bond, batch 0412: 2 of 4 openings" in lines
    assert "3 openings" in lines
    assert max(map(len, lines)) < 80
    assert "indicative" in shown.out


def test_what_is_filed_later_is_found_at_once(archive: Path) -> None:
    assert "2 openings" in trace(archive, "--batch", "0999").out
    made = Archive.open(archive)
    filings.file_site(made, "fir-yard", {"F-1": {"frame.bonding[0].batches[0].number": "0999"}})
    assert "fir-yard/F-1" in trace(archive, "--batch", "0999").out


def test_a_long_list_is_cut_and_says_so(archive: Path) -> None:
    shown = trace(archive, "--fitter", "ada", "--day", "2026-11-20", "--most", "1")
    assert "4 openings; here the first 1, --most lists more" in shown.out


def test_programs_get_causes_with_weights_and_openings_with_reasons(archive: Path) -> None:
    told = json.loads(trace(archive, "--batch", "0999", "--format", "json").out)
    assert [one["mark"] for one in told["alike"]] == ["W-3", "E-1"]
    assert told["alike"][0]["shared"][0]["name"] == "Example Frame Bond, batch 0999"
    assert (told["openings"], told["number"]) == (4, 2)


@pytest.mark.parametrize(
    ("asked", "said"),
    [
        ((), "Name one of --opening, --batch and --fitter."),
        (("--batch", "1", "--fitter", "ada"), "Name one of --opening, --batch and --fitter."),
        (("--batch", "0412", "--day", "2026-11-20"), "--day goes with --fitter."),
        (("--batch", "4711"), "The index holds no batch 4711."),
        (("--opening", "W-1"), "write SITE/MARK"),
    ],
)
def test_what_cannot_be_traced_is_refused_in_a_sentence(
    archive: Path, asked: tuple[str, ...], said: str
) -> None:
    shown = trace(archive, *asked)
    assert shown.status == 2
    assert said in " ".join(shown.err.split())
    assert shown.out == ""
