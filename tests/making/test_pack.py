"""One pack: what its making takes from the site, its date and its templates."""

import io
from datetime import UTC, datetime
from pathlib import Path

import pikepdf
import pypdfium2
import pytest
from tests.made import judged
from tests.site_folders import change, own_templates, small_site

from revealbook.making.pack import NEVER_DATED, Packed, make_pack, pack_of, photographs
from revealbook.present.evidence import path_of
from revealbook.present.words import words_in
from revealbook.render.failure import RenderFailed
from revealbook.render.photos import Photo


@pytest.fixture
def site(tmp_path: Path) -> Path:
    return own_templates(small_site(tmp_path / "site", {"A-1": ("A", "1"), "B-1": ("B", "1")}))


def scaled(site: Path, cache: Path) -> dict[str, Photo]:
    found = photographs(judged(site), site, cache)
    assert isinstance(found, dict), found
    return found


def make(site: Path, made: datetime | None = None) -> Packed:
    cache = site.parent / "cache"
    return make_pack(pack_of(judged(site)), scaled(site, cache), site, cache, made)


def text(packed: Packed) -> str:
    with pypdfium2.PdfDocument(packed.pdf) as pdf:
        return " ".join(page.get_textpage().get_text_bounded() for page in pdf)


def info(packed: Packed) -> dict[str, str]:
    with pikepdf.open(io.BytesIO(packed.pdf)) as pdf:
        return {str(key): str(value) for key, value in pdf.docinfo.items()}


def test_a_pack_shows_what_was_presented_and_says_how_many_pages(site: Path) -> None:
    packed = make(site)
    with pypdfium2.PdfDocument(packed.pdf) as pdf:
        assert len(pdf) == packed.pages
    assert "A-1: " in text(packed)
    assert "B-1: " in text(packed)
    assert packed.pack == pack_of(judged(site))
    assert packed.warnings == ()


COVER = """\
{% extends "base.html" %}
{% import "macros.html" as parts with context %}
{% block title %}{{ pack.site.name }}{% endblock %}
{% block body %}{% include "cover.html" %}{% endblock %}
"""


def test_the_first_page_counts_what_the_site_changed_and_says_who_accepted_it(site: Path) -> None:
    (site / "report_templates" / "pack.html").write_text(COVER, encoding="utf-8")
    said = " ".join(text(make(site)).split())
    retired = len(judged(site).rule_set.retired)
    assert f"{retired} of {retired + 2} rules retired (" in said
    assert "of them critical)" in said
    assert "accepted by Cleo Reveal on 2026-11-02" in said


def test_it_carries_its_evidence_with_relationship_type_and_date(site: Path) -> None:
    made = datetime(2026, 12, 1, 8, tzinfo=UTC)
    packed = make(site, made)
    with pikepdf.open(io.BytesIO(packed.pdf)) as pdf:
        inside = {path_of(name): spec for name, spec in pdf.attachments.items()}
        assert {path: spec.get_file().read_bytes() for path, spec in inside.items()} == {
            file.path: file.content for file in packed.pack.carried
        }
        for file in packed.pack.carried:
            spec = inside[file.path]
            assert spec.obj.AFRelationship == f"/{file.relationship}"
            assert spec.get_file().mime_type == file.media_type
            assert str(spec.obj.EF.F.Params.ModDate).startswith("D:20261201080000")


def test_it_is_dated_by_its_maker_or_by_the_last_entry_or_never(site: Path) -> None:
    assert info(make(site, datetime(2027, 1, 2, 3, tzinfo=UTC)))["/CreationDate"].startswith(
        "D:20270102030000"
    )
    assert info(make(site))["/CreationDate"].startswith("D:20261119090000"), "10:00 with +01:00"
    for mark in ("A-1", "B-1"):
        (site / "openings" / f"{mark}.yaml").write_text(f"opening: {{mark: {mark}}}\n", encoding="utf-8")
    assert pack_of(judged(site)).last_entry is None
    assert info(make(site))["/CreationDate"].startswith(f"D:{NEVER_DATED:%Y%m%d}")


def test_the_same_inputs_give_the_same_bytes(site: Path) -> None:
    assert make(site).pdf == make(site).pdf


def test_a_pack_that_names_volumes_is_an_index(site: Path) -> None:
    from revealbook.present.volumes import VolumeLine, index_of

    line = VolumeLine("building A", "alder-yard-building-A.pdf", 1, 9, "0a" * 32, "1b" * 32)
    index = index_of(pack_of(judged(site)), [line], words_in("en"))
    change(site / "report_templates" / "index.html", "{% block body %}", "{% block body %}<p>the index</p>")
    packed = make_pack(index, {}, site, site.parent / "cache", None)
    assert "the index" in text(packed)
    assert "alder-yard-building-A.pdf" in text(packed)
    assert "the index" not in text(make(site))


def test_a_site_without_templates_of_its_own_has_those_shipped(site: Path) -> None:
    (site / "report_templates" / "pack.html").unlink()
    (site / "report_templates" / "cover.html").write_text("<h1>own cover</h1>", encoding="utf-8")
    for part in ("summary", "sheet", "sources"):
        (site / "report_templates" / f"{part}.html").write_text("", encoding="utf-8")
    assert "own cover" in text(make(site))


def test_the_words_are_those_of_the_sites_language(site: Path) -> None:
    change(
        site / "report_templates" / "pack.html", "<h1>", "<p>{{ words.number(1.5) }} {{ look.paper }}</p><h1>"
    )
    assert "1.5 A4" in text(make(site))
    change(site / "site.yaml", "\nname:", "\nlanguage: de\npaper: Letter\nname:")
    assert "1,5 Letter" in text(make(site))


def test_a_template_that_asks_for_what_is_not_there_fails_with_its_line(site: Path) -> None:
    change(site / "report_templates" / "pack.html", "{{ sheet.mark }}", "{{ sheet.marc }}")
    with pytest.raises(RenderFailed, match=r"pack\.html, line 4"):
        make(site)


def test_photographs_are_scaled_once_for_each_name(site: Path) -> None:
    change(site / "openings" / "B-1.yaml", "B-1.jpg", "A-1.jpg")
    found = scaled(site, site.parent / "cache")
    assert list(found) == ["A-1.jpg"]
    assert found["A-1.jpg"].original == site / "photos" / "A-1.jpg"
    assert len(list((site.parent / "cache").glob("*.jpg"))) == 1


def test_a_photograph_that_cannot_be_used_is_a_problem_wherever_it_is_named(site: Path) -> None:
    change(site / "openings" / "B-1.yaml", "B-1.jpg", "A-1.jpg")
    checked = judged(site)
    (site / "photos" / "A-1.jpg").write_bytes(b"no picture")
    found = photographs(checked, site, site.parent / "cache")
    assert isinstance(found, tuple)
    assert [(one.code, str(one.place).split(":")[0]) for one in found] == [
        ("photo_unusable", "openings/A-1.yaml"), ("photo_unusable", "openings/B-1.yaml"),
    ]  # fmt: skip
    assert all("no JPEG, PNG, WebP or HEIC" in str(one.facts["why"]) for one in found)
