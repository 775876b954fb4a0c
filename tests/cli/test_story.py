"""`revealbook story`: how one opening was fixed, on 80 columns or for programs."""

import json
from pathlib import Path

import pytest
from tests.archive import archives
from tests.cli.terminal import run
from tests.made import Made, judged

from revealbook.archive.store import Archive
from revealbook.present.evidence import findings_json


@pytest.fixture
def archive(tmp_path: Path, conforming_pack: Made) -> Path:
    content = {
        "packs/p.pdf": conforming_pack.pdf.read_bytes(),
        "findings/p.json": findings_json(judged(conforming_pack.site)),
    }
    archives.add(Archive.create(tmp_path / "archive"), content, "alder-yard")
    return tmp_path / "archive"


def test_the_story_leads_to_the_pack_and_its_page_and_fits_the_terminal(archive: Path) -> None:
    shown = run("story", "--archive", archive, "alder-yard/W-1.01")
    assert shown.status == 0, shown.err
    assert shown.out.startswith("alder-yard/W-1.01\n")
    assert "batch 0412" in shown.out
    assert "Version 1: p.pdf, page" in shown.out
    assert "\u00a0" not in shown.out
    prose = [line for line in shown.out.splitlines() if not line.startswith("  /")]
    assert max(map(len, prose)) < 80
    assert shown.out.rstrip().endswith("practice.")


def test_programs_get_the_sentences_with_the_record_and_the_versions(archive: Path) -> None:
    shown = run("story", "--archive", archive, "alder-yard/W-1.01", "--format", "json")
    told = json.loads(shown.out)
    assert told["record"]["frame"]["bonding"][0]["batches"][0]["number"] == "0412"
    assert told["versions"][0]["holds_opening"] is True
    assert told["pack_agrees_with_itself"] is True
    assert [part["key"] for part in told["parts"]][-2:] == ["versions", "later"]
    assert told["pages"][0]["pack"] == "p.pdf"
    assert "indicative" in told["caution"]


def test_the_story_speaks_german_if_asked(archive: Path) -> None:
    shown = run("story", "--archive", archive, "alder-yard/W-1.01", "--language", "de")
    assert "Montagerahmen" in shown.out
    assert "Mounting frame" not in shown.out


@pytest.mark.parametrize(
    ("asked", "said"),
    [
        ("alder-yard", "names no opening; write SITE/MARK"),
        ("alder-yard/W-1.02", "alder-yard has no opening W-1.02. Did you mean W-1.01?"),
        ("elm-yard/W-1.01", "The archive holds no site 'elm-yard'."),
    ],
)
def test_what_is_not_there_is_refused_in_a_sentence(archive: Path, asked: str, said: str) -> None:
    shown = run("story", "--archive", archive, asked)
    assert shown.status == 2
    assert said in " ".join(shown.err.split())
    assert shown.out == ""
