"""The sample uses every part of the look; it is made in processes of its own, as a user's run would be."""

import json
import os
import subprocess
import sys
import time
from pathlib import Path
from typing import Any

import pikepdf
import pytest

SCRIPT = Path(__file__).parent / "sample.py"


def made(target: Path, paper: str = "A4", **surroundings: str) -> dict[str, Any]:
    environment = {**os.environ, "PYTHONPATH": os.pathsep.join(filter(None, sys.path)), **surroundings}
    run = subprocess.run(
        [sys.executable, SCRIPT, target, paper], capture_output=True, text=True, check=False, env=environment
    )
    assert run.returncode == 0, run.stderr
    answer: dict[str, Any] = json.loads(run.stdout)
    return answer


def told(program: str, *arguments: object) -> str:
    run = subprocess.run([program, *map(str, arguments)], capture_output=True, text=True, check=True)
    assert run.stderr == "", f"{program} complains"
    return run.stdout


@pytest.fixture(scope="module")
def sample(tmp_path_factory: pytest.TempPathFactory) -> Path:
    target = tmp_path_factory.mktemp("sample") / "sample.pdf"
    assert made(target) == {"pages": 6, "warnings": []}
    return target


def test_two_processes_make_the_same_bytes(sample: Path, tmp_path: Path) -> None:
    time.sleep(1.1)  # fonts are dated to the second
    again = tmp_path / "again.pdf"
    made(again, TZ="Pacific/Auckland", PYTHONHASHSEED="7", SOURCE_DATE_EPOCH="1")
    assert again.read_bytes() == sample.read_bytes()


def test_only_the_shipped_typeface_is_in_the_pdf_and_every_face_is_embedded(sample: Path) -> None:
    faces = [line.split() for line in told("pdffonts", sample).splitlines()[2:]]
    assert len(faces) >= 3
    assert all("+Fira-Sans" in face[0] for face in faces)
    assert all(face[-5] == "yes" for face in faces), "emb"


def test_the_pdf_carries_title_dates_and_tags(sample: Path) -> None:
    said = told("pdfinfo", "-isodates", sample)
    assert "Title:           Sample of every part" in said
    assert "CreationDate:    2026-11-20T09:00:00Z" in said
    assert "Tagged:          yes" in said
    assert "(A4)" in said


def test_letter_paper_is_letter(tmp_path: Path) -> None:
    made(tmp_path / "letter.pdf", "Letter")
    assert "612 x 792 pts (letter)" in told("pdfinfo", tmp_path / "letter.pdf")


def test_running_heads_and_page_numbers_stand_on_every_page_but_heads_not_on_the_cover(sample: Path) -> None:
    pages = told("pdftotext", "-layout", sample, "-").split("\f")[:-1]
    assert all(f"Page {number} of 6" in page for number, page in enumerate(pages, 1))
    assert ["Handover pack, sample site" in page for page in pages] == [False, True, True, True, True, True]
    assert "Opening W-1.01" in pages[5].splitlines()[0], "the section of the page"


def test_a_table_s_head_is_repeated_on_its_next_page(sample: Path) -> None:
    pages = told("pdftotext", "-layout", sample, "-").split("\f")
    assert "Height mm" in pages[2]
    assert "Height mm" in pages[3]


def test_contents_name_the_pages(sample: Path) -> None:
    text = told("pdftotext", "-layout", "-f", 2, "-l", 2, sample, "-")
    listed = [line.split() for line in text.splitlines()]
    assert [line[-1] for line in listed if line and line[0] in ("Register", "Opening", "Signatures")] == [
        "3",
        "5",
        "6",
    ]


def test_headings_are_bookmarks(sample: Path) -> None:
    with pikepdf.open(sample) as pdf, pdf.open_outline() as outline:
        assert [item.title for item in outline.root][1:] == [
            "Contents",
            "Register of openings",
            "Opening W-1.01",
        ]
        assert [item.title for item in outline.root[3].children] == [
            "What does not conform",
            "Photographs",
            "Signatures",
        ]


def test_marks_are_read_aloud_once(sample: Path) -> None:
    """A mark beside its word is decoration; a mark alone carries the word as alternative text."""
    with pikepdf.open(sample) as pdf:
        spoken = [
            str(one.Alt)
            for one in pdf.objects
            if isinstance(one, pikepdf.Dictionary) and one.get("/S") == "/Figure"
        ]
    assert sorted(spoken) == sorted(
        ["conforms", "undecided", "does not apply", "does not conform", "not shown", "conforms"]
        + ["An opening with a bottom piece that is too short at its left"]
        + ["A frame"] * 4
    )
