from dataclasses import replace
from typing import Any

import pytest
from tests.setting_out.followed import SITE, around, before_work, work_on
from tests.setting_out.rules import PRACTICE

from revealbook.measures.work import Work
from revealbook.setting_out.materials import Allowances, Need, needs, quantities
from revealbook.setting_out.plan import OpeningPlan, set_out

PRODUCTS: dict[str, Any] = {
    **SITE["products"],
    "adhesives": [{"id": "frame-bond", "cartridge_ml": 310}],
    "foams": [{"id": "joint-foam", "yield_l": 45}],
    "tapes": [
        {"id": "tight-tape", "sd_m": 40, "roll_m": 25},
        {"id": "open-tape", "sd_m": 0.5, "roll_m": 30},
    ],
}
NONE = Allowances(adhesive_waste_pct=0, fixing_waste_pct=0, tape_waste_pct=0, foam_waste_pct=0)


def opening(
    record: dict[str, Any] | None = None, products: dict[str, Any] = PRODUCTS
) -> tuple[OpeningPlan, Work]:
    surroundings = around(PRACTICE, {**SITE, "instruments": [], "products": products})
    work = work_on(record or before_work(1230, 1480), surroundings)
    plan = set_out(work, PRACTICE)
    assert isinstance(plan, OpeningPlan), plan
    return plan, work


def wanted(
    record: dict[str, Any] | None = None, products: dict[str, Any] = PRODUCTS, allowances: Allowances = NONE
) -> dict[str, Need]:
    return {need.what: need for need in needs(*opening(record, products), allowances)}


def test_adhesive_is_the_beads_section_along_every_piece_support_and_corner() -> None:
    run_mm = 2 * 1390 + 2 * 1480 + 2 * 150 + 4 * 160  # pieces, supports, corners as deep as the profile
    adhesive = wanted()["adhesive"]
    assert adhesive.net == pytest.approx(2 * run_mm / 1000 * 9 * 9 / 2)
    assert (adhesive.product, adhesive.pack) == ("frame-bond", 310)


def test_a_thicker_bead_takes_more() -> None:
    thick = replace(NONE, bead_width_mm=18)
    assert wanted(allowances=thick)["adhesive"].net == pytest.approx(2 * wanted()["adhesive"].net)


def test_fixings_are_counted_from_the_plan() -> None:
    plan, _ = opening()
    found = wanted()
    assert found["frame fixings"].net == sum(len(piece.holes_mm) for piece in plan.pieces)
    assert found["support fixings"].net == 4
    assert found["bracket fixings"].net == 3
    assert found["window fixings"].net == 12


def test_tape_runs_round_the_window_and_laps_at_each_corner() -> None:
    found = wanted()
    assert found["inner tape"].net == pytest.approx((2 * 1206 + 2 * 1456 + 4 * 50) / 1000)
    assert found["outer tape"].net == found["inner tape"].net


def test_as_long_as_the_window_has_no_size_tape_runs_round_the_opening_and_there_is_no_foam() -> None:
    found = wanted({**before_work(1230, 1480), "window": {}})
    assert found["inner tape"].net == pytest.approx((2 * 1230 + 2 * 1480 + 4 * 50) / 1000)
    assert "foam" not in found
    assert "window fixings" not in found


def test_of_two_tapes_the_tighter_one_goes_inside() -> None:
    found = wanted()
    assert (found["inner tape"].product, found["outer tape"].product) == ("tight-tape", "open-tape")
    assert (found["inner tape"].pack, found["outer tape"].pack) == (25, 30)


def test_tapes_that_the_record_names_go_before_and_between_three_nobody_guesses() -> None:
    three = {**PRODUCTS, "tapes": [*PRODUCTS["tapes"], {"id": "third-tape", "sd_m": 5}]}
    assert wanted(products=three)["inner tape"].product is None
    events = [{"step": "inner tape", "product": "third-tape"}]
    named = wanted(before_work(1230, 1480, seals={"events": events}), three)
    assert (named["inner tape"].product, named["outer tape"].product) == ("third-tape", None)


def test_foam_fills_the_joint_between_opening_and_window() -> None:
    foam = wanted(before_work(1230, 1480, plinth={"used": False}))["foam"]
    assert foam.net == pytest.approx(12 * 70 * (2 * 1206 + 2 * 1456) / 1e6)
    assert foam.pack == pytest.approx(45 * 0.6)


def test_plinth_profile_and_packers_are_no_joint_to_fill() -> None:
    # 24 mm of joint above and below are left of 96 mm: 60 mm are the profile, 12 mm the packers
    plinth = {"used": True, "packers": {"height_needed_mm": 12}}
    foam = wanted(before_work(1230, 1480, plinth=plinth, window={"width_mm": 1206, "height_mm": 1384}))[
        "foam"
    ]
    assert foam.net == pytest.approx(12 * 70 * (2 * 1206 + 2 * 1384) / 1e6)


def test_a_window_as_large_as_its_opening_leaves_no_joint_to_fill() -> None:
    assert "foam" not in wanted(before_work(1230, 1480, window_gap_mm=0))


@pytest.mark.parametrize("kind", ["adhesives", "foams", "tapes"])
def test_without_a_known_product_the_quantity_stands_and_the_packs_do_not(kind: str) -> None:
    record = before_work(1230, 1480, plinth={"used": False})
    found = quantities(wanted(record, {**PRODUCTS, kind: []}).values(), NONE)
    unnamed = [one for one in found if one.product is None and one.unit != "number"]
    assert unnamed
    assert all(one.packs is None and one.net > 0 for one in unnamed)


def test_waste_is_added_once_and_packs_are_whole() -> None:
    beads = Need("adhesive", "frame-bond", 600, "ml", 310)
    (found,) = quantities([beads], replace(NONE, adhesive_waste_pct=10))
    assert found.gross == pytest.approx(660)
    assert (found.net, found.packs) == (600, 3)


def test_a_site_buys_for_all_openings_together_and_not_a_pack_for_each() -> None:
    beads = [Need("adhesive", "frame-bond", 320, "ml", 310)] * 10
    (together,) = quantities(beads, NONE)
    (alone,) = quantities(beads[:1], NONE)
    assert (together.net, together.packs) == (3200, 11)
    assert alone.packs == 2


def test_different_products_are_not_added_up() -> None:
    two = [Need("adhesive", "frame-bond", 1, "ml", 310), Need("adhesive", "cold-bond", 1, "ml", 310)]
    assert [one.product for one in quantities(two, NONE)] == ["frame-bond", "cold-bond"]


def test_spare_fixings_are_whole() -> None:
    (found,) = quantities(
        [Need("frame fixings", None, 14, "number", None)], replace(NONE, fixing_waste_pct=2)
    )
    assert (found.gross, found.packs) == (15, None)


def test_one_waste_can_stand_for_all() -> None:
    given = Allowances().with_waste(0)
    assert given == replace(
        Allowances(), adhesive_waste_pct=0, fixing_waste_pct=0, tape_waste_pct=0, foam_waste_pct=0
    )
    assert Allowances().with_waste(None) == Allowances()


@pytest.mark.parametrize(("width_mm", "height_mm"), [(1230, 1456), (1206, 1480), (1240, 1456), (1206, 1490)])
def test_a_window_as_wide_or_as_high_as_its_opening_leaves_no_joint_to_fill(
    width_mm: float, height_mm: float
) -> None:
    window = {"width_mm": width_mm, "height_mm": height_mm}
    assert "foam" not in wanted(before_work(1230, 1480, plinth={"used": False}, window=window))


def test_joints_of_different_widths_are_filled_each_for_itself() -> None:
    window = {"width_mm": 1190, "height_mm": 1456}
    foam = wanted(before_work(1230, 1480, plinth={"used": False}, window=window))["foam"]
    assert foam.net == pytest.approx(70 * (20 * 2 * 1456 + 12 * 2 * 1190) / 1e6)


def test_allowances_of_practice_where_nobody_states_others() -> None:
    stated = Allowances()
    assert (stated.bead_width_mm, stated.bead_height_mm, stated.tape_lap_mm) == (9, 9, 50)
    assert (stated.foam_depth_mm, stated.foam_in_joint_pct) == (70, 60)
    wastes = (
        stated.adhesive_waste_pct,
        stated.fixing_waste_pct,
        stated.tape_waste_pct,
        stated.foam_waste_pct,
    )
    assert wastes == (10, 2, 5, 20)
