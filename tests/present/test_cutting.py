from dataclasses import replace

from tests.present.setting_out import plan_of, site_of
from tests.setting_out.followed import before_work

from revealbook.present.cutting import CuttingSheets, cutting_sheets
from revealbook.present.words import Words, words_in
from revealbook.setting_out.refusal import NotPossible, Reason
from revealbook.setting_out.site import SetOutSite
from revealbook.setting_out.site_cuts import Saw, site_cuts

EN = words_in("en")


def sheets(site: SetOutSite, saw: Saw, words: Words = EN) -> CuttingSheets:
    profiles = site_cuts([("W-1", plan_of(site))], site.openings[0].work.around, saw)
    return cutting_sheets(site, profiles, saw, words)


def test_bars_say_what_to_cut_and_what_to_write_on_it() -> None:
    frame = sheets(site_of(before_work(3600, 1480)), Saw(offcuts_mm={})).profiles[0]
    assert [bar.number for bar in frame.bars] == list(range(1, len(frame.bars) + 1))
    cuts = {cut for bar in frame.bars for cut in bar.cuts}
    assert {("1880", "W-1 bottom 1/2"), ("1480", "W-1 left"), ("150", "W-1 support 1")} <= cuts


def test_offcuts_that_are_worth_keeping_are_marked_and_the_store_is_named() -> None:
    saw = Saw(offcuts_mm={"frame-profile": [1500]}, usable_offcut_mm=500)
    bars = sheets(site_of(), saw).profiles[0].bars
    assert bars[0].stock == "1500, from the store"
    assert all(bar.kept == (int(bar.offcut) >= 500) for bar in bars)


def test_totals_bound_waste_and_method_are_said() -> None:
    facts = {
        name: value.replace("\u00a0", " ")
        for name, value in sheets(site_of(), Saw(offcuts_mm={})).profiles[0].facts
    }
    assert facts["To order"] == "3 of 3000 mm (9 m)"
    assert facts["Proved least order"] == "9 m; no list orders less"
    assert facts["Method"]
    assert facts["Waste, saw's cuts included"].endswith("%")


def test_a_list_above_its_bound_says_by_how_much() -> None:
    site = site_of()
    saw = Saw(offcuts_mm={})
    (frame, _) = site_cuts([("W-1", plan_of(site))], site.openings[0].work.around, saw)
    assert not isinstance(frame.cuts, NotPossible)
    above = replace(frame, cuts=replace(frame.cuts, bound_mm=6000))
    (sheet,) = cutting_sheets(site, (above,), saw, EN).profiles
    assert dict(sheet.facts)["Proved least order"].replace("\u00a0", " ") == "6 m; this list orders 50 % more"


def test_openings_of_nominal_size_and_those_left_out_are_named() -> None:
    found = sheets(site_of(before_work(1230, 1480), before_work(1230, 150)), Saw(offcuts_mm={}))
    assert found.nominal == ("W-1",)
    ((mark, why),) = found.refused
    assert mark == "W-2"
    assert "too short" in why


def test_a_profile_without_stock_says_so() -> None:
    site = site_of()
    saw = Saw(offcuts_mm={})
    (frame, _) = site_cuts([("W-1", plan_of(site))], site.openings[0].work.around, saw)
    bare = replace(frame, cuts=NotPossible(Reason.PRODUCT_FIGURE_MISSING, (), ("frame-profile", "stock_mm")))
    (sheet,) = cutting_sheets(site, (bare,), saw, EN).profiles
    assert "stock_mm" in sheet.refused
    assert sheet.bars == ()


def test_pieces_are_named_in_the_readers_language() -> None:
    shouted = replace(EN, translate=lambda text: text if "{" in text else text.upper())
    frame, plinth = sheets(site_of(), Saw(offcuts_mm={}), shouted).profiles
    labels = {label for bar in (*frame.bars, *plinth.bars) for _, label in bar.cuts}
    assert {"W-1 BOTTOM", "W-1 SUPPORT 2", "W-1 PLINTH PROFILE"} <= labels
