import gc
import io
import logging
import os
import re
from datetime import UTC, datetime
from pathlib import Path

import pikepdf
import pytest

from revealbook.render.failure import RenderFailed
from revealbook.render.pdf import Rendered, typeset

MADE = datetime(2026, 11, 20, tzinfo=UTC)
PAGE = '<html lang="en"><title>t</title><body style="font-family: Fira Sans">'


def page(root: Path, html: str, made: datetime = MADE) -> Rendered:
    return typeset(html, roots=(root,), attachments=(), made=made)


def test_pages_are_counted(tmp_path: Path) -> None:
    assert page(tmp_path, PAGE + '<p>a<p style="break-before: page">b').pages == 2


def test_the_pdf_says_that_it_is_pdf_a_and_pdf_ua_in_one_description(tmp_path: Path) -> None:
    with pikepdf.open(io.BytesIO(page(tmp_path, PAGE).pdf)) as pdf:
        xmp = pdf.Root.Metadata.read_bytes().decode()
    assert xmp.count("<rdf:RDF") == 1
    inside = xmp[xmp.index("<rdf:RDF") : xmp.index("</rdf:RDF>")]
    assert 'pdfaid:part="3"' in inside
    assert "<pdfuaid:part>1</pdfuaid:part>" in inside
    assert "<pdfaSchema:prefix>pdfuaid</pdfaSchema:prefix>" in inside


def test_equal_input_gives_equal_bytes_and_the_date_reaches_the_fonts(tmp_path: Path) -> None:
    assert page(tmp_path, PAGE + "a") == page(tmp_path, PAGE + "a")


def state() -> tuple[object, ...]:
    log = logging.getLogger("weasyprint")
    return log.level, log.propagate, list(log.handlers), gc.get_threshold(), gc.get_freeze_count()


def test_the_process_is_left_as_it_was_found(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    page(tmp_path, PAGE)
    before = state()
    monkeypatch.setenv("SOURCE_DATE_EPOCH", "12")
    page(tmp_path, PAGE)
    assert os.environ["SOURCE_DATE_EPOCH"] == "12"
    monkeypatch.delenv("SOURCE_DATE_EPOCH")
    with pytest.raises(RenderFailed):
        page(tmp_path, PAGE + '<img alt="a" src="none.png">')
    assert "SOURCE_DATE_EPOCH" not in os.environ
    assert state() == before


def test_a_document_is_collected_as_soon_as_it_is_written(tmp_path: Path) -> None:
    long = f"{PAGE}<table>{'<tr><th scope=row>a</th><td>b</td></tr>' * 300}</table>"
    page(tmp_path, long)
    gc.collect()
    before = len(gc.get_objects())
    gc.disable()  # from here on nothing but what typesetting itself collects
    try:
        page(tmp_path, long)
        left = len(gc.get_objects()) - before
    finally:
        gc.enable()
    assert left < 50


def test_what_a_program_set_aside_from_collecting_stays_so(tmp_path: Path) -> None:
    page(tmp_path, PAGE)
    gc.freeze()
    try:
        kept = gc.get_freeze_count()
        page(tmp_path, PAGE)
        assert kept > 0
        assert gc.get_freeze_count() > 0.9 * kept  # some of it came to its end by itself
    finally:
        gc.unfreeze()


@pytest.mark.parametrize(
    ("html", "problem"),
    [
        ("<html><title>t</title><p>a", 'Missing required "lang" attribute'),
        (PAGE + '<a href="#nowhere">a</a>', "nowhere"),
        (
            PAGE + "<img src=\"data:image/svg+xml,<svg xmlns='http://www.w3.org/2000/svg'/>\">",
            "no required alt",
        ),
        (PAGE + '<img alt="a" src="none.png">', re.escape("none.png cannot be found.")),
        (PAGE + '<img alt="a" src="broken.png">', "Failed to load image"),
    ],
)
def test_what_the_typesetter_only_logs_as_an_error_fails(tmp_path: Path, html: str, problem: str) -> None:
    (tmp_path / "broken.png").write_bytes(b"no picture")
    with pytest.raises(RenderFailed, match=problem):
        page(tmp_path, html)


def test_an_error_is_heard_when_the_host_has_silenced_the_log(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(logging.getLogger("weasyprint"), "level", logging.CRITICAL)
    with pytest.raises(RenderFailed):
        page(tmp_path, "<title>t</title><p>a")


def test_a_warning_is_handed_back_once(tmp_path: Path) -> None:
    misspelt = '<p style="colour: red">a</p>'
    (warning,) = page(tmp_path, PAGE + misspelt + misspelt).warnings
    assert "colour" in warning


def test_a_time_without_zone_is_refused(tmp_path: Path) -> None:
    with pytest.raises(ValueError, match="has no zone"):
        page(tmp_path, PAGE, made=datetime(2026, 11, 20))  # noqa: DTZ001 - that is the point
