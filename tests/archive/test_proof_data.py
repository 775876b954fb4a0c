"""A proof for machines, and heads read back out of a statement."""

import json
from pathlib import Path

import pikepdf
import pytest
from tests.archive.archives import FIRST, SECOND, add
from tests.archive.packs import MADE

from revealbook import __version__
from revealbook.archive.proof import Proof, prove
from revealbook.archive.proof_data import PROOF_FILE, noted_heads, proof_data, proof_json
from revealbook.archive.proved import Proved
from revealbook.archive.refusal import Refused
from revealbook.archive.store import Archive
from revealbook.making.statement import make_statement

PLAIN = [{path: data for path, data in files.items() if path != "packs/s.pdf"} for files in (FIRST, SECOND)]


@pytest.fixture
def archive(tmp_path: Path) -> Archive:
    """Two sites, the first with two versions."""
    archive = Archive.create(tmp_path / "archive")
    add(archive, PLAIN[0])
    add(archive, PLAIN[1] | {"photos/a.jpg": b"a"})
    add(archive, PLAIN[0], "t")
    return archive


def proof(archive: Archive, *heads: tuple[str, str]) -> Proof:
    return prove(archive, (), Proved(), heads=heads, jobs=1)


def statement(archive: Archive, target: Path) -> Path:
    target.write_bytes(make_statement(archive, proof(archive), MADE, copies={}, file=target.name).pdf)
    return target


def test_the_data_holds_all_heads_and_those_that_were_noted(archive: Archive) -> None:
    heads = [version.head for version in archive.versions("s")]
    data = proof_data(proof(archive, ("s", heads[0])), {})
    assert (data["format"], data["made_with"], data["sound"]) == ("revealbook-proof-1", __version__, True)
    sites = data["sites"]
    assert isinstance(sites, list)
    assert [(site["site"], site["versions_with_noted_heads"]) for site in sites] == [("s", [1]), ("t", [])]
    assert sites[0]["heads"] == heads
    assert json.loads(proof_json(proof(archive), {}))["sites"][0]["heads"] == heads


def test_the_data_names_a_fault_and_a_copy_of_what_is_lost(archive: Archive, tmp_path: Path) -> None:
    archive.content("s", 1, "site.yaml").write_bytes(b"x")
    digest = archive.versions("s")[0].state["site.yaml"]
    sites = proof_data(proof(archive), {digest: tmp_path / "copy"})["sites"]
    assert isinstance(sites, list)
    assert sites[0]["faults"] == [
        {
            "path": "s/v1/content/site.yaml",
            "holds": "the site file, versions 1 to 2",
            "what": "was changed",
            "sha512": digest,
            "copy": str(tmp_path / "copy"),
        }
    ]


def test_a_statement_gives_back_the_latest_heads(archive: Archive, tmp_path: Path) -> None:
    latest = {site: archive.versions(site)[-1].head for site in ("s", "t")}
    assert noted_heads(statement(archive, tmp_path / "s.pdf")) == latest


def test_heads_that_are_not_those_on_the_pages_are_refused(archive: Archive, tmp_path: Path) -> None:
    file, other = statement(archive, tmp_path / "s.pdf"), tmp_path / "other.pdf"
    head = archive.versions("t")[0].head
    with pikepdf.open(file) as pdf:
        inside = pdf.attachments[PROOF_FILE].get_file().read_bytes().replace(head.encode(), b"0" * 64)
        del pdf.attachments[PROOF_FILE]
        pdf.attachments[PROOF_FILE] = pikepdf.AttachedFileSpec(pdf, inside, filename=PROOF_FILE)
        pdf.save(other)
    with pytest.raises(Refused, match=r"The head of t inside .*other\.pdf is not the one printed"):
        noted_heads(other)


@pytest.mark.parametrize("inside", [None, b"{}", b"no JSON", b"[]", b'{"format": "x", "sites": []}'])
def test_a_file_without_a_proof_is_no_statement(tmp_path: Path, inside: bytes | None) -> None:
    with pikepdf.new() as pdf:
        pdf.add_blank_page()
        if inside is not None:
            pdf.attachments[PROOF_FILE] = pikepdf.AttachedFileSpec(pdf, inside, filename=PROOF_FILE)
        pdf.save(tmp_path / "p.pdf")
    with pytest.raises(Refused, match="it is no statement"):
        noted_heads(tmp_path / "p.pdf")


def test_a_file_that_is_no_pdf_is_refused(tmp_path: Path) -> None:
    with pytest.raises(Refused, match="cannot be opened as a PDF"):
        noted_heads(tmp_path / "nowhere.pdf")
