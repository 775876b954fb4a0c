from typing import Any

import pytest
from tests.builders import build, full_opening, full_site

from revealbook.inspection.again import put_in, touched
from revealbook.measures.reading import Detail, Missing, Path, Reading
from revealbook.measures.work import look
from revealbook.records.opening import Opening
from revealbook.rules.finding import Finding, Outcome


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


def test_positions_of_another_list_do_not_empty_the_first() -> None:
    left, right = (("frame", "pieces", side, "holes_mm") for side in ("left", "right"))
    new: dict[Path, float] = {(*left, 0): 10.0, (*right, 0): 30.0, (*left, 1): 20.0, (*right, 1): 40.0}
    after = put_in(opening(), new, ())
    assert (look(after, left), look(after, right)) == ((10, 20), (30, 40))


def test_without_an_instrument_a_section_read_again_has_none() -> None:
    data = full_opening()
    after = put_in(Opening.model_validate(data), {("window", "bow_mm"): 1.5}, ())
    assert look(after, ("window", "instruments")) is None
    assert look(after, ("survey", "instruments")) == ("tape-1", "level-1")


def found(value: Any, path: Path = ("window", "bow_mm"), *details: Detail) -> Finding:
    return Finding(Outcome.CONFORMS, (), Reading((), value, path, None, details))


@pytest.mark.parametrize(
    ("new", "before", "rests"),
    [
        ({("window", "bow_mm"): 1.0}, found(1.0), True),
        ({("window", "width_mm"): 1.0}, found(1.0), True),  # named by a detail
        ({("survey", "note"): 1.0}, found(1.0), False),
        ({("survey", "note"): 1.0}, found(1.1), True),
        ({("survey", "note"): 1.0}, None, True),
        ({("window", "bow_mm", 0): 1.0}, found(1.0), True),  # one of a list
        ({("window", "bow_mm", "left"): 1.0}, found(1.0), False),
        ({("survey", "note"): 1.0}, Finding(Outcome.NOT_SHOWN, (), Missing((), "at", ())), True),
    ],
)
def test_a_finding_rests_on_a_new_value_if_it_names_it_or_changes_by_it(
    new: dict[Path, float], before: Finding | None, rests: bool
) -> None:
    detail = Detail("width_mm", 1.0, "mm", ("window", "width_mm"))
    assert touched(found(1.0, ("window", "bow_mm"), detail, Detail("x", 1, "-")), before, new) is rests


def test_what_is_missing_before_and_after_did_not_change() -> None:
    missing = Finding(Outcome.NOT_SHOWN, (), Missing((), "at", ("survey", "at")))
    assert not touched(missing, missing, {("window", "bow_mm"): 1.0})
