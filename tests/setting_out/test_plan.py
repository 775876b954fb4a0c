from typing import Any

import pytest
from tests.setting_out.followed import SITE, around, before_work, work_on
from tests.setting_out.rules import PRACTICE, without

from revealbook.rules.rule_set import RuleSet
from revealbook.setting_out.plan import OpeningPlan, set_out
from revealbook.setting_out.plinth import Plinth
from revealbook.setting_out.refusal import NotPossible, Reason
from revealbook.setting_out.window_fixings import WindowFixings

NO_TAPE = {**SITE, "instruments": []}


def plan(
    record: dict[str, Any], rules: RuleSet = PRACTICE, site: dict[str, Any] = NO_TAPE
) -> OpeningPlan | NotPossible:
    return set_out(work_on(record, around(rules, site)), rules)


def planned(record: dict[str, Any], rules: RuleSet = PRACTICE) -> OpeningPlan:
    found = plan(record, rules)
    assert isinstance(found, OpeningPlan), found
    return found


def test_lengths_follow_the_opening_side_by_side() -> None:
    survey = {
        "widths_mm": {"bottom": 1232, "top": 1229},
        "heights_mm": {"left": 1481, "right": 1479},
    }
    found = planned(before_work(1230, 1480, survey=survey))
    assert [piece.length_mm for piece in found.pieces] == [1232 + 160, 1481, 1479, 1229 + 160]
    assert found.sizes.surveyed


def test_the_worked_example_of_the_calculations_page() -> None:
    points = [80, 3130, 6180]
    site = {**NO_TAPE, "products": {"profiles": [{**SITE["products"]["profiles"][0], "stock_mm": 6000}]}}
    record = before_work(6100, 2135, supports={"called_for": True, "load_points_mm": points}, plinth={})
    found = plan(record, site=site)
    assert isinstance(found, OpeningPlan)
    assert [support.start_mm for support in found.supports] == [5, 3055, 6105]
    bottom = found.piece("bottom")
    assert (bottom.parts_mm, bottom.joints_mm) == ((3005, 3255), (3005,))
    assert bottom.holes_mm == (175, 838, 1502, 2166, 2830, 3139, 3721, 4312, 4903, 5494, 6085)
    assert found.piece("left").holes_mm == (175, 770, 1365, 1960)
    assert found.load_points == "as recorded"


def test_holes_of_the_bottom_piece_keep_clear_of_the_supports_holes() -> None:
    found = planned(before_work(1230, 1480))
    below = [hole for support in found.supports for hole in support.holes_mm]
    assert min(abs(hole - other) for hole in found.piece("bottom").holes_mm for other in below) > 40


def test_without_load_points_the_windows_quarter_points_stand_in() -> None:
    found = planned(before_work(1230, 1480))
    assert found.load_points == "quarter points"
    assert [support.load_point_mm for support in found.supports] == [92 + 302, 92 + 1206 - 302]
    unsized = planned({**before_work(1230, 1480), "window": {}})
    assert [support.load_point_mm for support in unsized.supports] == [80 + 308, 80 + 1230 - 308]


def test_where_the_drawing_calls_for_no_supports_there_are_none_and_their_rules_may_be_missing() -> None:
    record = before_work(1230, 1480, supports={"called_for": False})
    found = planned(record, without("support-length", "support-holes"))
    assert (found.supports, found.load_points) == ((), "none")


def test_where_the_record_says_nothing_of_supports_they_are_planned_and_the_plan_says_so() -> None:
    found = planned(before_work(1230, 1480, supports={}))
    assert len(found.supports) == 2
    assert found.supports_asked is None


def test_window_and_plinth_are_set_out_once_the_windows_size_is_recorded() -> None:
    found = planned(before_work(1230, 1480))
    assert isinstance(found.window, WindowFixings)
    assert isinstance(found.plinth, Plinth)
    unsized = planned({**before_work(1230, 1480), "window": {}})
    assert (unsized.window, unsized.plinth) == (None, None)


def test_a_plinth_that_nobody_recorded_is_not_set_out() -> None:
    assert planned(before_work(1230, 1480, plinth={})).plinth is None


def test_a_window_that_cannot_be_set_out_does_not_keep_the_frame_from_it() -> None:
    found = planned(before_work(1230, 1480), without("window-fixing-centres"))
    assert found.window == NotPossible(Reason.NO_RULE, (), ("window-fixing-centres",))
    assert len(found.pieces) == 4


def test_a_plan_is_the_same_after_the_work_as_before_it() -> None:
    before = before_work(1230, 1480)
    frame = {"pieces": {"bottom": {"length_mm": 1400, "holes_mm": [100]}}}
    assert plan({**before, "frame": frame}) == plan(before)


def test_a_side_profile_wider_than_the_overlap_is_refused() -> None:
    wide = [{**SITE["products"]["profiles"][0], "width_mm": 81}]
    refused = plan(before_work(1230, 1480), site={**NO_TAPE, "products": {"profiles": wide}})
    assert isinstance(refused, NotPossible)
    assert (refused.reason, refused.mm("overlap")) == (Reason.SIDE_WIDER_THAN_OVERLAP, 80)


@pytest.mark.parametrize(
    ("record", "reason", "about"),
    [
        ({"opening": {"mark": "W-1.01"}}, Reason.SIZE_NOT_RECORDED, ("width_mm",)),
        (before_work(1230, 150), Reason.PIECE_TOO_SHORT, ("left",)),
        (
            before_work(1230, 1480, supports={"load_points_mm": [2000]}),
            Reason.LOAD_POINT_OFF_PIECE,
            ("supports",),
        ),
        (
            before_work(1230, 1480, supports={"load_points_mm": [400, 450]}),
            Reason.SUPPORTS_OVERLAP,
            ("supports",),
        ),
    ],
)
def test_what_cannot_be_set_out_is_refused_with_its_reason(
    record: dict[str, Any], reason: Reason, about: tuple[str, ...]
) -> None:
    refused = plan(record)
    assert isinstance(refused, NotPossible)
    assert (refused.reason, refused.about) == (reason, about)


def test_where_supports_leave_no_room_for_a_joint_the_joint_goes_first() -> None:
    points = [400, 551, 702, 853, 1004, 1155]
    profiles = [{**SITE["products"]["profiles"][0], "stock_mm": 800}]
    record = before_work(1230, 1480, supports={"load_points_mm": points})
    refused = plan(record, site={**NO_TAPE, "products": {"profiles": profiles}})
    assert isinstance(refused, NotPossible)
    assert refused.reason in {Reason.JOINT_AT_SUPPORT, Reason.SUPPORTS_OVERLAP}


STATED = {
    "reason": "shutter box",
    "basis": "drawing",
    "document": "A-402",
    "by": "cleo",
    "at": "2026-11-18T10:00+01:00",
}
WITH_CLERK = {**NO_TAPE, "people": [{"id": "cleo", "name": "Cleo", "roles": ["clerk of works"]}]}


def test_a_piece_that_is_left_out_is_not_planned() -> None:
    record = before_work(1230, 1480, left_out=[{"what": "top piece"} | STATED])
    found = plan(record, site=WITH_CLERK)
    assert isinstance(found, OpeningPlan), found
    assert [piece.name for piece in found.pieces] == ["bottom", "left", "right"]
    unentitled = planned(record)
    assert [piece.name for piece in unentitled.pieces] == ["bottom", "left", "right", "top"]


def test_an_opening_without_a_frame_is_not_set_out() -> None:
    record = before_work(1230, 1480, left_out=[{"what": "mounting frame"} | STATED])
    assert plan(record, site=WITH_CLERK) == NotPossible(Reason.FRAME_LEFT_OUT)


def test_bottom_and_top_of_a_broken_size_are_rounded_up_and_sides_to_the_nearest() -> None:
    record = before_work(
        1230.2, 1480.6, survey={"heights_mm": {"right": 1481.4}, "widths_mm": {"top": 1231.7}}
    )
    found = planned(record)
    lengths = {piece.name: piece.length_mm for piece in found.pieces}
    assert lengths == {"bottom": 1231 + 160, "left": 1481, "right": 1481, "top": 1232 + 160}


def test_without_the_windows_size_the_quarter_points_are_those_of_the_opening() -> None:
    record = {**before_work(1230, 1480), "window": {}}
    found = planned(record)
    assert found.load_points == "quarter points"
    assert [support.load_point_mm for support in found.supports] == [80 + 308, 80 + 1230 - 308]
    window = planned(before_work(1230, 1480))  # 1206 mm wide: 92 mm from the piece's end to its corner
    assert [support.load_point_mm for support in window.supports] == [92 + 302, 92 + 1206 - 302]


def test_a_joint_of_the_bottom_piece_stands_fifty_millimetres_clear_of_every_support() -> None:
    profiles = [{**SITE["products"]["profiles"][0], "stock_mm": 900}]
    record = before_work(1230, 1480, supports={"load_points_mm": [695]})
    found = plan(record, site={**NO_TAPE, "products": {"profiles": profiles}})
    assert isinstance(found, OpeningPlan), found
    (support,), joints = found.supports, found.piece("bottom").joints_mm
    assert (support.start_mm, support.end_mm) == (620, 770)
    assert joints in {(570,), (820,)}
