from pathlib import Path

import pytest
from markupsafe import Markup

from revealbook.render import templates
from revealbook.render.failure import RenderFailed
from revealbook.render.look import Look
from revealbook.render.templates import bound, breakable, fill, folders, shipped_folder


@pytest.fixture
def own(tmp_path: Path) -> Path:
    (tmp_path / "page.html").write_text("<p>{{ text }}</p>")
    return tmp_path


def filled(own: Path, template: str, **context: object) -> str:
    (own / "page.html").write_text(template)
    return fill("page.html", context, Look(override=own), {"made_utc": "2026-11-20T09:00:00Z"})


def test_text_is_escaped(own: Path) -> None:
    assert filled(own, "{{ text }}", text="<b> & \"'") == "&lt;b&gt; &amp; &#34;&#39;"
    assert filled(own, "{{ text }}", text=Markup("<b>")) == "<b>"


def test_nothing_undefined_passes_and_the_place_is_told(own: Path) -> None:
    with pytest.raises(RenderFailed, match=r"Template page\.html, line 2: 'nobody' is undefined"):
        filled(own, "<p>\n{{ nobody }}</p>")


def test_a_wrong_template_is_told_with_its_line(own: Path) -> None:
    with pytest.raises(RenderFailed, match=r"Template page\.html, line 3: "):
        filled(own, "<p>\n\n{% if %}</p>")


def test_a_missing_template_is_told() -> None:
    with pytest.raises(RenderFailed, match=r"Template none\.html: "):
        fill("none.html", {}, Look(), {})


def test_a_block_that_must_be_filled_is_missed(own: Path) -> None:
    with pytest.raises(RenderFailed, match="Required block 'title' not found"):
        filled(own, '{% extends "base.html" %}{% block body %}a{% endblock %}')


def test_a_site_s_own_style_stands_in_for_the_shipped_one(own: Path) -> None:
    page = '{% extends "base.html" %}{% block title %}t{% endblock %}{% block body %}a{% endblock %}'
    assert "--accent: #1d3c5e" in filled(own, page)
    (own / "style.css").write_text("p { color: black }")
    assert "--accent" not in filled(own, page)
    assert "p { color: black }" in filled(own, page)


def test_paper_language_and_dates_stand_in_the_page(own: Path) -> None:
    (own / "page.html").write_text(
        '{% extends "base.html" %}{% block title %}t{% endblock %}{% block body %}a{% endblock %}'
    )
    look = Look(paper="Letter", language="de-AT", override=own)
    html = fill("page.html", {}, look, {"made_utc": "2026-11-20T09:00:00Z"})
    assert '<html lang="de-AT">' in html
    assert "@page { size: Letter; }" in html
    assert '<meta name="dcterms.created" content="2026-11-20T09:00:00Z">' in html


@pytest.mark.parametrize(
    "template", ["{{ ''.__class__.__mro__ }}", "{{ text.pop() }}", "{{ cycler.__init__.__globals__ }}"]
)
def test_a_template_from_elsewhere_cannot_reach_python(own: Path, template: str) -> None:
    with pytest.raises(RenderFailed):
        filled(own, template, text=["a"])


def test_a_template_reads_no_file_outside_of_its_folders(own: Path) -> None:
    (own.parent / "secret.html").write_text("secret")
    with pytest.raises(RenderFailed):
        filled(own, '{% include "../secret.html" %}')


def test_shared_names_reach_into_macros(own: Path) -> None:
    (own / "m.html").write_text("{% macro m() %}{{ word }}{% endmacro %}")
    (own / "page.html").write_text('{% import "m.html" as m %}{{ m.m() }}')
    assert fill("page.html", {}, Look(override=own), {"word": "Opening"}) == "Opening"


def test_the_shipped_folder_holds_the_base_and_the_macros() -> None:
    assert {"base.html", "macros.html", "style.css"} <= {file.name for file in shipped_folder().iterdir()}
    assert folders(Look()) == (shipped_folder(),)


def test_a_folder_of_own_templates_that_is_not_there_is_told(tmp_path: Path) -> None:
    with pytest.raises(RenderFailed, match="is not there"):
        folders(Look(override=tmp_path / "none"))


def test_number_and_unit_stay_on_one_line() -> None:
    assert bound("≤ 700 mm") == "≤\u00a0700\u00a0mm"


def test_paths_may_break_after_their_marks_and_stay_escaped() -> None:
    assert breakable("a/b_c<d") == "a/<wbr>b_<wbr>c&lt;d"


def test_a_template_is_compiled_once_in_a_process_and_again_only_when_it_changed(own: Path) -> None:
    def compiled(template: str) -> bytes:
        filled(own, template, text="x")
        (kept,) = [code for key, code in templates._COMPILED.kept.items() if key not in before]
        return kept

    before = set(templates._COMPILED.kept)
    first = compiled("<p>{{ text }}</p>")
    assert compiled("<p>{{ text }}</p>") is first
    assert filled(own, "<b>{{ text }}</b>", text="x") == "<b>x</b>", "never a page of yesterday's template"
    assert compiled("<b>{{ text }}</b>") is not first
