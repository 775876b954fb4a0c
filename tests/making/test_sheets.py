from datetime import UTC, datetime
from pathlib import Path

from tests.present.setting_out import plan_of, site_of
from tests.setting_out.followed import before_work

from revealbook.making.sheets import make_cutting_list, make_setting_out
from revealbook.setting_out.site_cuts import Saw, site_cuts

MADE = datetime(2026, 11, 20, tzinfo=UTC)
SAW = Saw(offcuts_mm={})


def test_sheets_are_the_same_bytes_for_the_same_plan_and_date(tmp_path: Path) -> None:
    first, again = (make_setting_out(site_of(), tmp_path, MADE) for _ in range(2))
    assert first == again
    assert first.pdf.startswith(b"%PDF-")
    assert first.warnings == ()


def test_each_opening_adds_its_sheet(tmp_path: Path) -> None:
    two = make_setting_out(site_of(before_work(1230, 1480), before_work(885, 900)), tmp_path, MADE)
    three = make_setting_out(
        site_of(before_work(1230, 1480), before_work(885, 900), before_work(1500, 900)), tmp_path, MADE
    )
    assert three.pages == two.pages + 2


def test_an_opening_that_cannot_be_set_out_has_a_sheet_of_its_own_only_if_it_is_alone(tmp_path: Path) -> None:
    assert make_setting_out(site_of(before_work(1230, 150)), tmp_path, MADE).pages == 1
    with_it = make_setting_out(site_of(before_work(1230, 1480), before_work(1230, 150)), tmp_path, MADE)
    both = make_setting_out(site_of(before_work(1230, 1480), before_work(1230, 400)), tmp_path, MADE)
    assert with_it.pages < both.pages


def test_the_sites_own_template_stands_in(tmp_path: Path) -> None:
    own = tmp_path / "report_templates"
    own.mkdir()
    (own / "cutting.html").write_text(
        "{% extends 'base.html' %}{% block title %}t{% endblock %}{% block body %}<h1>t</h1>{% endblock %}",
        encoding="utf-8",
    )
    site = site_of()
    profiles = site_cuts([("W-1", plan_of(site))], site.openings[0].work.around, SAW)
    shipped = make_cutting_list(site, profiles, SAW, tmp_path / "elsewhere", MADE)
    assert len(make_cutting_list(site, profiles, SAW, tmp_path, MADE).pdf) < len(shipped.pdf)
