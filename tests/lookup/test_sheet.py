"""The sheet of one opening in its pack: found by the bookmarks, copied page by page."""

from pathlib import Path

import pypdfium2
from tests.lookup import archive_of_two
from tests.lookup.test_find import names
from tests.made import Made

from revealbook.lookup.find import find
from revealbook.lookup.index import open_database, refresh
from revealbook.lookup.question import Question
from revealbook.lookup.sheet import Pages, copy_sheet, pack_of, sheet_name, sheet_pages


def test_the_pages_of_a_sheet_are_found_by_its_bookmark(conforming_pack: Made) -> None:
    pages = sheet_pages(conforming_pack.pdf, "W-1.01")
    assert pages is not None
    with pypdfium2.PdfDocument(conforming_pack.pdf) as pdf:
        assert 1 <= pages.first <= pages.last <= len(pdf)
        assert "W-1.01" in pdf[pages.first - 1].get_textpage().get_text_range()


def test_an_opening_without_a_bookmark_has_no_pages(conforming_pack: Made, tmp_path: Path) -> None:
    assert sheet_pages(conforming_pack.pdf, "W-9.99") is None
    broken = tmp_path / "broken.pdf"
    broken.write_bytes(b"%PDF")
    assert sheet_pages(broken, "W-1.01") is None


def test_a_copy_holds_the_pages_and_nothing_else(conforming_pack: Made, tmp_path: Path) -> None:
    copy = tmp_path / "new" / "sheet.pdf"
    copy_sheet(conforming_pack.pdf, Pages(2, 3), copy)
    with pypdfium2.PdfDocument(copy) as pdf, pypdfium2.PdfDocument(conforming_pack.pdf) as pack:
        assert len(pdf) == 2
        shown, filed = (one.get_textpage().get_text_range() for one in (pdf[0], pack[1]))
        assert shown == filed
        assert pdf.count_attachments() == 0


def test_an_opening_leads_to_its_pack_in_the_archive(tmp_path: Path) -> None:
    archive = archive_of_two.make(tmp_path)
    index = open_database(archive.path, str(tmp_path / "index.sqlite"))
    refresh(archive, index)
    answer = find(index, Question(batch="7714"))
    index.close()
    assert names(answer) == ["oak/W-1"]
    pack = pack_of(archive, answer.found[0])
    assert pack is not None
    assert pack.read_bytes() == b"%PDF"
    assert sheet_name(answer.found[0]) == "oak-W-1-version-2.pdf"
