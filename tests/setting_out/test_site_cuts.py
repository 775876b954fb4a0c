import random

import pytest
from tests.setting_out.followed import SITE, around, before_work, work_on
from tests.setting_out.rules import PRACTICE

from revealbook.setting_out.cutting import CuttingList
from revealbook.setting_out.plan import OpeningPlan, set_out
from revealbook.setting_out.refusal import NotPossible, Reason
from revealbook.setting_out.site_cuts import ProfileCuts, Saw, site_cuts

AROUND = around(PRACTICE, {**SITE, "instruments": []})
SAW = Saw(offcuts_mm={})


def plan(width_mm: int, height_mm: int) -> OpeningPlan:
    found = set_out(work_on(before_work(width_mm, height_mm), AROUND), PRACTICE)
    assert isinstance(found, OpeningPlan), found
    return found


def labels(of: ProfileCuts) -> set[tuple[int, str]]:
    assert isinstance(of.cuts, CuttingList)
    return {(cut.length_mm, cut.label) for bar in of.cuts.bars for cut in bar.cuts}


def test_every_piece_of_every_opening_is_cut_from_its_profile_and_marked() -> None:
    frame, plinth = site_cuts([("W-1", plan(1230, 1480)), ("W-2", plan(3600, 1480))], AROUND, SAW)
    assert (frame.profile, frame.stock_mm, frame.pieces) == ("frame-profile", 3000, 14)
    assert labels(frame) >= {
        (1390, "W-1 bottom"), (1390, "W-1 top"), (1480, "W-1 left"), (1480, "W-2 right"),
        (150, "W-1 support 1"), (1880, "W-2 bottom 1/2"), (1880, "W-2 bottom 2/2"),
    }  # fmt: skip
    assert labels(plinth) == {
        (1206, "W-1 plinth"), (1788, "W-2 plinth 1/2"), (1788, "W-2 plinth 2/2"),
    }  # fmt: skip


def test_offcuts_in_the_store_are_used_for_their_own_profile_only() -> None:
    saw = Saw(offcuts_mm={"frame-profile": [1500]})
    frame, plinth = site_cuts([("W-1", plan(1230, 1480))], AROUND, saw)
    assert isinstance(frame.cuts, CuttingList)
    assert isinstance(plinth.cuts, CuttingList)
    assert [bar.stock_mm for bar in frame.cuts.bars if bar.from_store] == [1500]
    assert not any(bar.from_store for bar in plinth.cuts.bars)


def test_kerf_and_usable_offcut_are_those_of_the_saw() -> None:
    coarse = Saw(offcuts_mm={}, kerf_mm=10, usable_offcut_mm=1)
    frame, _ = site_cuts([("W-1", plan(1230, 1480))], AROUND, coarse)
    assert isinstance(frame.cuts, CuttingList)
    assert all(bar.kerf_mm % 10 == 0 for bar in frame.cuts.bars if bar.offcut_mm)
    assert len(frame.cuts.returned_mm) == sum(bar.offcut_mm > 0 for bar in frame.cuts.bars)


def test_a_profile_without_a_stock_length_has_no_list() -> None:
    bare = around(PRACTICE, {**SITE, "products": {"profiles": [{"id": "frame-profile", "kind": "frame"}]}})
    (frame, _) = site_cuts([("W-1", plan(1230, 1480))], bare, SAW)
    assert frame.cuts == NotPossible(Reason.PRODUCT_FIGURE_MISSING, (), ("frame-profile", "stock_mm"))


def test_without_openings_there_is_nothing_to_cut() -> None:
    assert site_cuts([], AROUND, SAW) == ()


@pytest.mark.slow
def test_two_hundred_openings_are_cut_within_a_hundredth_of_the_proved_least() -> None:
    rng = random.Random(7)
    sizes = [
        (rng.choice((885, 1230, 1630, 2010)) + rng.randint(-5, 5), 1480 + rng.randint(-5, 5))
        for _ in range(200)
    ]
    plans = [(f"W-{number:03}", plan(*size)) for number, size in enumerate(sizes)]
    for profile in site_cuts(plans, AROUND, SAW):
        assert isinstance(profile.cuts, CuttingList)
        assert profile.cuts.gap_pct <= 1


def test_a_saw_of_which_nothing_is_said() -> None:
    assert (SAW.kerf_mm, SAW.usable_offcut_mm, SAW.time_limit_s) == (4, 500, 8)


def test_stock_of_a_broken_length_counts_by_its_whole_millimetres() -> None:
    profiles = [{**profile, "stock_mm": 2999.6} for profile in SITE["products"]["profiles"]]
    broken = around(PRACTICE, {**SITE, "instruments": [], "products": {"profiles": profiles}})
    frame, _ = site_cuts([("W-1", plan(1230, 1480))], broken, SAW)
    assert isinstance(frame.cuts, CuttingList)
    assert frame.stock_mm == 2999
    assert {bar.stock_mm for bar in frame.cuts.bars} == {2999}


def test_supports_are_numbered_from_the_left() -> None:
    frame, _ = site_cuts([("W-1", plan(1230, 1480))], AROUND, SAW)
    assert {label for _, label in labels(frame) if "support" in label} == {"W-1 support 1", "W-1 support 2"}
