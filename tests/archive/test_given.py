"""A pack given for filing: what it gives, and why it is refused."""

from collections.abc import Callable
from hashlib import sha256, sha512
from pathlib import Path

import pikepdf
import pytest
from tests.archive.plain_packs import in_volumes, whole_pack
from tests.made import changed, file_changed
from tests.site_folders import small_site

from revealbook import __version__
from revealbook.archive.given import read_pack
from revealbook.archive.refusal import Refused

RECORD = "openings__A-1.yaml"


@pytest.fixture
def site(tmp_path: Path) -> Path:
    return small_site(tmp_path / "site", {"A-1": ("A", "1")})


def refused(pack: Path, target: Path, change: Callable[[pikepdf.Pdf], None]) -> list[str]:
    """Change a pack and give the lines with which it is refused."""
    with pytest.raises(Refused) as reason:
        read_pack(changed(pack, target, change))
    return str(reason.value).splitlines()


def test_a_pack_that_agrees_gives_its_digests_files_and_judgement(site: Path) -> None:
    pack = whole_pack(site)
    given = read_pack(pack)
    assert given.file == (pack, sha512(pack.read_bytes()).hexdigest())
    assert given.sha256 == sha256(pack.read_bytes()).hexdigest()
    assert given.carried["site.yaml"] == (site / "site.yaml").read_bytes()
    assert [opening.mark for opening in given.judged.openings] == ["A-1"]
    assert (given.name, given.volumes, given.made_with) == ("alder-yard.pdf", None, None)


def test_an_index_gives_the_volumes_it_names(site: Path) -> None:
    volume, index = in_volumes(site)
    volumes = read_pack(index).volumes
    assert volumes is not None
    assert [(line.file, line.sha256) for line in volumes] == [
        (volume.name, sha256(volume.read_bytes()).hexdigest())
    ]


def test_findings_that_the_records_do_not_give_are_told_by_opening_and_rule(
    site: Path, tmp_path: Path
) -> None:
    lied = file_changed("findings.json", b'conforms","rule"', b'undecided","rule"')
    first, *lines = refused(whole_pack(site), tmp_path / "p.pdf", lied)
    assert first == f"{tmp_path / 'p.pdf'} is refused: it does not agree with itself."
    assert any(line.startswith("  findings: A-1 ") and " -> " in line for line in lines)


def test_pages_that_say_something_else_are_told(site: Path, tmp_path: Path) -> None:
    def emptied(pdf: pikepdf.Pdf) -> None:
        del pdf.pages[1:]

    _, *lines = refused(whole_pack(site), tmp_path / "p.pdf", emptied)
    assert all(line.startswith(("  pages: ", "  and ")) for line in lines)
    assert len(lines) == 6
    assert lines[-1].endswith(" more")


def test_records_that_cannot_be_judged_are_told_with_their_place(site: Path, tmp_path: Path) -> None:
    wrong = file_changed(RECORD, b"width_mm: 900", b"width_mm: wide")
    first, *lines = refused(whole_pack(site), tmp_path / "p.pdf", wrong)
    assert first.endswith("is refused: what it carries cannot be judged.")
    assert lines[0].startswith("  openings/A-1.yaml:1:")


def test_a_pack_of_another_version_is_taken_if_findings_and_fingerprint_agree(
    site: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    with monkeypatch.context() as then:
        then.setattr("revealbook.present.export.__version__", "0.0.9")
        pack = whole_pack(site)
    given = read_pack(pack)
    assert (given.made_with, __version__ != "0.0.9") == ("0.0.9", True)
    lied = file_changed("findings.json", b'conforms","rule"', b'undecided","rule"')
    lines = refused(pack, tmp_path / "p.pdf", lied)
    assert any("findings: A-1" in line for line in lines)
    assert any("pages: the pack" in line for line in lines)  # the fingerprint is another now


@pytest.mark.parametrize("content", [None, b"no PDF"])
def test_what_is_no_pack_is_refused(tmp_path: Path, content: bytes | None) -> None:
    file = tmp_path / "p.pdf"
    if content is None:
        with pikepdf.new() as pdf:
            pdf.add_blank_page()
            pdf.save(file)
    else:
        file.write_bytes(content)
    with pytest.raises(Refused, match=r"p\.pdf (cannot be opened as a PDF|carries no site file)"):
        read_pack(file)


def test_a_pack_that_is_not_there_is_the_systems_own_error(tmp_path: Path) -> None:
    with pytest.raises(FileNotFoundError):
        read_pack(tmp_path / "nowhere.pdf")
