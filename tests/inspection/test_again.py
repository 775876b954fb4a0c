from typing import Any

from tests.builders import build, full_opening, full_site

from revealbook.inspection.again import put_in
from revealbook.measures.work import look
from revealbook.records.opening import Opening


def opening() -> Opening:
    return Opening.model_validate(full_opening())


def test_values_are_put_in_their_places_and_the_rest_stays() -> None:
    before = opening()
    after = put_in(before, {("window", "joint_widths_mm", "left", "start"): 9.0}, ("again-1",))
    assert look(after, ("window", "joint_widths_mm", "left", "start")) == 9
    assert look(after, ("window", "joint_widths_mm", "left", "middle")) == 12
    assert look(after, ("window", "instruments")) == ("again-1",)
    assert after.frame == before.frame
    assert look(before, ("window", "joint_widths_mm", "left", "start")) == 12


def test_a_list_of_positions_is_replaced_as_a_whole() -> None:
    path = ("frame", "pieces", "left", "holes_mm")
    after = put_in(opening(), {(*path, 0): 175.0, (*path, 1): 1325.0}, ())
    assert look(after, path) == (175, 1325)


def test_one_fixing_set_is_changed_and_the_others_are_kept() -> None:
    path = ("window", "fixings", 1, "length_mm")
    after = put_in(opening(), {path: 90.0}, ())
    assert [one.length_mm for one in look(after, ("window", "fixings"))] == [112, 90, 112, 112]


def test_a_part_that_the_record_lacks_is_made() -> None:
    bare = Opening.model_validate({"opening": {"mark": "W-1"}})
    new: dict[Any, float] = {
        ("supports", "placed", 1, "gap_mm"): 3.0,
        ("survey", "widths_mm", "top"): 1200.0,
    }
    after = put_in(bare, new, ())
    assert look(after, ("supports", "placed", 1, "gap_mm")) == 3
    assert look(after, ("supports", "placed", 0, "gap_mm")) is None
    assert look(after, ("survey", "widths_mm", "top")) == 1200


def test_the_builders_site_can_judge_what_was_put_in() -> None:
    work = build(full_opening(), full_site())
    assert put_in(work.opening, {}, ()) == work.opening
