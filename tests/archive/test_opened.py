"""What stands in a pack's PDF, as PDFium reads it."""

from pathlib import Path

import pikepdf
import pypdfium2
import pytest
from tests.made import Made, bare, changed, judged
from tests.site_folders import CONFORMING

from revealbook.archive.opened import NotAPack, open_pack
from revealbook.present.evidence import Carried, evidence


def carrying(target: Path, *names: str) -> Path:
    return bare(tuple(Carried(name, name.encode(), "record") for name in names), target)


def test_a_pack_gives_back_every_file_by_its_path_and_byte_for_byte(tmp_path: Path) -> None:
    carried = evidence(judged(CONFORMING))
    opened = open_pack(bare(carried, tmp_path / "p.pdf"))
    assert opened.carried == {file.path: file.content for file in carried}
    assert opened.carried["openings/W-1.01.yaml"] == (CONFORMING / "openings" / "W-1.01.yaml").read_bytes()
    assert opened.pages == ("",)
    assert opened.repeated == ()


@pytest.mark.parametrize("path", ["openings/A_1.yaml", "openings/A__1.yaml", "openings/_/a%5Fb_.yaml", "a/b"])
def test_paths_with_signs_of_their_own_come_back_as_they_were(tmp_path: Path, path: str) -> None:
    assert path in open_pack(carrying(tmp_path / "p.pdf", "site.yaml", path)).carried


@pytest.mark.slow
def test_the_pages_of_a_rendered_pack_come_with_their_text(conforming_pack: Made) -> None:
    opened = open_pack(conforming_pack.pdf)
    assert len(opened.pages) == conforming_pack.packed.pages
    assert "The only opening conforms." in opened.pages[0]
    assert conforming_pack.packed.pack.short_fingerprint in opened.pages[-1]
    assert set(opened.carried) == {file.path for file in conforming_pack.packed.pack.carried}


def test_a_file_carried_twice_under_one_name_is_told_and_the_first_one_counts(tmp_path: Path) -> None:
    def again(pdf: pikepdf.Pdf) -> None:
        names = pdf.Root.Names.EmbeddedFiles.Names
        other = pikepdf.AttachedFileSpec(pdf, b"id: other", filename="site.yaml")
        names.append(pikepdf.String("site.yaml"))
        names.append(other.obj)

    twice = changed(carrying(tmp_path / "p.pdf", "site.yaml"), tmp_path / "twice.pdf", again)
    with pypdfium2.PdfDocument(twice) as pdf:
        assert pdf.count_attachments() == 2
    opened = open_pack(twice)
    assert opened.repeated == ("site.yaml",)
    assert opened.carried == {"site.yaml": b"site.yaml"}


def test_two_names_that_mean_one_path_are_told(tmp_path: Path) -> None:
    def again(pdf: pikepdf.Pdf) -> None:
        spec = pikepdf.AttachedFileSpec(pdf, b"other", filename="x%5Fy.yaml")
        pdf.attachments["x%5Fy.yaml"] = spec

    twice = changed(carrying(tmp_path / "p.pdf", "site.yaml", "x_y.yaml"), tmp_path / "twice.pdf", again)
    assert open_pack(twice).repeated == ("x_y.yaml",)


def test_a_pack_is_only_read(tmp_path: Path) -> None:
    pack = carrying(tmp_path / "p.pdf", "site.yaml")
    before = pack.read_bytes()
    pack.chmod(0o444)
    open_pack(pack)
    assert pack.read_bytes() == before


@pytest.mark.parametrize(
    "content", [b"", b"no PDF", b"%PDF-1.7\n%%EOF\n", b"\x00" * 100], ids=["empty", "text", "head", "zeros"]
)
def test_what_is_no_pdf_is_no_pack(tmp_path: Path, content: bytes) -> None:
    (tmp_path / "p.pdf").write_bytes(content)
    with pytest.raises(NotAPack, match=r"p\.pdf cannot be opened as a PDF: "):
        open_pack(tmp_path / "p.pdf")


def test_a_file_that_is_not_there_or_is_a_folder_is_no_pack(tmp_path: Path) -> None:
    for path in (tmp_path / "nowhere.pdf", tmp_path):
        with pytest.raises(NotAPack, match="cannot be opened as a PDF"):
            open_pack(path)


def test_a_pdf_behind_a_password_is_no_pack(tmp_path: Path) -> None:
    with pikepdf.open(carrying(tmp_path / "p.pdf", "site.yaml")) as pdf:
        pdf.save(tmp_path / "locked.pdf", encryption=pikepdf.Encryption(owner="a", user="b"))
    with pytest.raises(NotAPack, match="cannot be opened as a PDF"):
        open_pack(tmp_path / "locked.pdf")


def test_half_a_pack_is_no_pack_or_lacks_nothing(tmp_path: Path) -> None:
    """A torn file is either refused or, where the reader mends it, told to lack its site file."""
    whole = carrying(tmp_path / "p.pdf", "site.yaml").read_bytes()
    (tmp_path / "torn.pdf").write_bytes(whole[: len(whole) // 2])
    with pytest.raises(NotAPack):
        open_pack(tmp_path / "torn.pdf")


@pytest.mark.parametrize("names", [(), ("findings.json",), ("sites/site.yaml",)])
def test_a_pdf_without_a_site_file_is_no_pack(tmp_path: Path, names: tuple[str, ...]) -> None:
    with pytest.raises(NotAPack) as told:
        open_pack(carrying(tmp_path / "p.pdf", *names))
    assert str(told.value) == (
        f"{tmp_path / 'p.pdf'} carries no site file; it is no pack, or its evidence was taken out."
    )
