"""The statement as a PDF: heads whole in the text, the proof inside, a name only from what was filed."""

import io
import json
from collections.abc import Sequence
from datetime import datetime
from pathlib import Path

import pikepdf
import pypdfium2
import pytest
from tests.archive.archives import add

from revealbook.archive.proof import prove
from revealbook.archive.proof_data import PROOF_FILE, proof_json
from revealbook.archive.proved import Proved
from revealbook.archive.store import Archive
from revealbook.making.sheets import Sheets
from revealbook.making.statement import make_statement

MADE = datetime.fromisoformat("2026-11-29T05:10+01:00")
FILES = {
    "site.yaml": b"id: s\n",
    "openings/W 1.yaml": b"mark: W 1\n",
    "facts.json": json.dumps({"site_name": "Alder Yard"}).encode(),
}


@pytest.fixture
def archive(tmp_path: Path) -> Archive:
    archive = Archive.create(tmp_path / "archive")
    add(archive, FILES)
    return archive


def made(archive: Archive, *sites: str, language: str = "en") -> Sheets:
    proof = prove(archive, sites, Proved(since=MADE), jobs=1)
    return make_statement(archive, proof, MADE, copies={}, file="heads.pdf", language=language)


def text_of(sheets: Sheets) -> str:
    with pypdfium2.PdfDocument(sheets.pdf) as pdf:
        return " ".join(" ".join(page.get_textpage().get_text_bounded() for page in pdf).split())


def test_a_statement_names_archive_site_and_version_and_gives_the_head_in_groups(archive: Archive) -> None:
    sheets = made(archive)
    said, head = text_of(sheets), archive.versions("s")[0].head
    groups = " ".join(head[start : start + 4] for start in range(0, 64, 4))
    assert groups in said  # to be copied whole, line after line
    for told in (
        "Everything that was looked at is as it was filed.",
        "Archive archive (/",
        "Alder Yard",
        "1, filed 2026-12-01 09:00 UTC+01:00 by ada",
        "1 version, 3 files, 0 packs judged again",
        "Name and role Date Signature",
        f'--head "s={head}"',
    ):
        assert told in said
    assert sheets.warnings == ()


def test_equal_proofs_give_equal_bytes(archive: Archive) -> None:
    assert made(archive).pdf == made(archive).pdf


def test_it_carries_the_proof(archive: Archive) -> None:
    proof = prove(archive, (), Proved(since=MADE), jobs=1)
    sheets = make_statement(archive, proof, MADE, copies={}, file="heads.pdf")
    with pikepdf.open(io.BytesIO(sheets.pdf)) as pdf:
        assert pdf.attachments[PROOF_FILE].get_file().read_bytes() == proof_json(proof, {})


def test_an_unsound_archive_is_told_so_in_german_with_its_faults(archive: Archive) -> None:
    archive.content("s", 1, "openings/W 1.yaml").write_bytes(b"mark: W 2\n")
    said = text_of(made(archive, language="de"))
    assert "Nicht so, wie es abgelegt wurde: 1 Fehler." in said
    assert "Protokoll der Öffnung W 1, Fassung 1 wurde verändert" in said
    assert said.index("wurde verändert") < said.index("Kennung s")
    assert "abgelegt 01.12.2026 09:00 UTC+01:00 von ada" in said


def broken_inventories(archive: Archive) -> None:
    for file in (archive.path / "store" / "s").rglob("inventory.json"):
        file.write_bytes(b"{}")


@pytest.mark.parametrize("sites", [(), ("s",)])
def test_a_site_whose_list_is_lost_stands_there_without_a_head(
    archive: Archive, sites: Sequence[str]
) -> None:
    broken_inventories(archive)
    said = text_of(made(archive, *sites))
    assert "none: its list of files cannot be read" in said
    assert "Not as it was filed" in said
    assert "One head, typed as one line" not in said


def test_a_name_that_was_changed_since_is_not_printed(archive: Archive) -> None:
    archive.content("s", 1, "facts.json").write_bytes(b'{"site_name": "Elsewhere"}')
    said = text_of(made(archive))
    assert "Elsewhere" not in said
    assert "Alder Yard" not in said


@pytest.mark.parametrize("facts", [None, b"{}", b"no JSON", b"[]"])
def test_a_site_without_a_name_goes_by_its_id(tmp_path: Path, facts: bytes | None) -> None:
    archive = Archive.create(tmp_path / "archive")
    add(archive, {"site.yaml": b"id: s\n"} | ({} if facts is None else {"facts.json": facts}))
    assert "s Id s" in text_of(made(archive))


def test_an_empty_archive_has_a_statement_too(tmp_path: Path) -> None:
    assert "Nothing is filed in this archive." in text_of(made(Archive.create(tmp_path / "archive")))


def test_a_site_is_never_parted_by_a_page(archive: Archive) -> None:
    for number in range(12):
        add(archive, FILES, f"s{number}")
    sheets = made(archive)
    whole = {f"Id{site}Latestversion": archive.versions(site)[0].head for site in archive.sites()}
    with pypdfium2.PdfDocument(sheets.pdf) as pdf:
        pages = ["".join(page.get_textpage().get_text_bounded().split()) for page in pdf]
    for name, head in whole.items():
        assert any(name in page and head in page for page in pages), name
    assert 3 < sheets.pages < 8
