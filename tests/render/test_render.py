import os
import subprocess
import sys
from datetime import UTC, datetime
from pathlib import Path

import pytest

from revealbook.render.failure import RenderFailed
from revealbook.render.look import Look
from revealbook.render.render import render_html, render_pdf

MADE = datetime.fromisoformat("2026-11-20T10:00:00+01:00")
PAGE = (
    '{% extends "base.html" %}{% block title %}t{% endblock %}{% block body %}<p>{{ text }}</p>{% endblock %}'
)


@pytest.fixture
def look(tmp_path: Path) -> Look:
    (tmp_path / "page.html").write_text(PAGE)
    return Look(override=tmp_path)


def test_the_page_is_dated_by_the_data_in_universal_time(look: Look) -> None:
    assert 'content="2026-11-20T09:00:00Z"' in render_html("page.html", {"text": "a"}, look=look, made=MADE)


def test_what_no_font_shows_is_spelt_out_and_reported(look: Look) -> None:
    context = {"text": "漢 and 漢"}
    assert "[U+6F22] and [U+6F22]" in render_html("page.html", context, look=look, made=MADE)
    rendered = render_pdf("page.html", context, look=look, made=MADE)
    assert rendered.warnings == ("No font shows '漢'; it is printed as [U+6F22].",)
    assert rendered.pdf.startswith(b"%PDF-1.7")


def test_an_ordinary_page_gives_no_warning(look: Look) -> None:
    assert render_pdf("page.html", {"text": "Ø 8 mm"}, look=look, made=MADE).warnings == ()


def test_a_page_that_lacks_something_fails(look: Look) -> None:
    with pytest.raises(RenderFailed, match="'text' is undefined"):
        render_pdf("page.html", {}, look=look, made=MADE)


def test_a_time_without_zone_is_refused(look: Look) -> None:
    with pytest.raises(ValueError, match="has no zone"):
        render_html("page.html", {"text": ""}, look=look, made=datetime(2026, 11, 20))  # noqa: DTZ001 - the point


def test_an_unknown_outcome_fails_because_its_mark_is_missing(look: Look) -> None:
    assert look.override is not None
    page = PAGE.replace(
        "<p>", '{% import "macros.html" as parts %}{{ parts.mark_alone("perhaps", "perhaps") }}<p>'
    )
    (look.override / "page.html").write_text(page)
    with pytest.raises(RenderFailed, match=r"marks/perhaps\.svg cannot be found"):
        render_pdf("page.html", {"text": ""}, look=look, made=datetime(2026, 11, 20, tzinfo=UTC))


def test_importing_the_room_does_not_load_the_typesetter() -> None:
    modules = sorted(file.stem for file in Path(render_html.__code__.co_filename).parent.glob("[a-z]*.py"))
    imports = "; ".join(f"import revealbook.render.{module}" for module in modules)
    code = f"{imports}; import sys; raise SystemExit('weasyprint' in sys.modules)"
    surroundings = {**os.environ, "PYTHONPATH": os.pathsep.join(filter(None, sys.path))}
    assert subprocess.run([sys.executable, "-c", code], check=False, env=surroundings).returncode == 0
