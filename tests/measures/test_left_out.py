from typing import Any

import pytest
from tests.builders import build, reading, value, values

from revealbook.measures.left_out import PIECES, left_out, standing, standing_corner
from revealbook.measures.method import Method
from revealbook.measures.work import Work

SITE = {
    "people": [
        {"id": "ada", "name": "Ada", "roles": ["installer"]},
        {"id": "cleo", "name": "Cleo", "roles": ["clerk of works"]},
    ]
}
STATED = {
    "reason": "shutter box",
    "basis": "drawing",
    "document": "A-402",
    "by": "cleo",
    "at": "2026-11-18T10:00+01:00",
}


def without(
    *whats: str, method: Method | None = None, opening: dict[str, Any] | None = None, **change: Any
) -> Work:
    said = [{"what": what} | STATED | change for what in whats]
    return build({"left_out": said} | (opening or {}), SITE, method)


def test_nothing_is_left_out_unless_it_is_stated() -> None:
    assert left_out(build()) == frozenset()
    assert standing(build()) == PIECES


def test_a_piece_that_is_left_out_takes_its_corners_along() -> None:
    work = without("top piece")
    assert standing(work) == ("bottom", "left", "right")
    assert not standing_corner(work, "top_left", joint=True)
    assert not standing_corner(work, "top_right", joint=False)
    assert standing_corner(work, "bottom_left", joint=True)


def test_a_side_piece_takes_joints_along_but_no_ends_of_other_pieces() -> None:
    work = without("left piece")
    assert not standing_corner(work, "top_left", joint=True)
    assert standing_corner(work, "top_left", joint=False)


def test_measures_over_pieces_leave_out_what_is_left_out() -> None:
    work = without("top piece")
    assert set(values(work, "frame_out_of_line")) == {("bottom",), ("left",), ("right",)}
    assert set(values(work, "corner_sealed")) == {("bottom_left",), ("bottom_right",)}
    assert set(values(work, "empty_holes")) == {("bottom",), ("left",), ("right",)}
    assert values(without("bottom piece"), "frame_overlap") == {}
    assert values(without("bottom piece"), "bottom_surplus") == {}


def test_a_frame_that_is_left_out_takes_its_bonding_along() -> None:
    work = without("mounting frame")
    assert left_out(work) == {"mounting frame", "bonding"}
    assert standing(work) == ()
    assert value(work, "without_frame") is True
    assert value(work, "without_bonding") is True
    assert ("bonding",) not in values(work, "expiry_margin")


def test_a_statement_needs_somebody_entitled_by_the_method() -> None:
    assert left_out(without("bonding", by="ada")) == frozenset()
    assert left_out(without("bonding", method=Method(conceding_roles=("client",)))) == frozenset()
    assert value(without("bonding", by="ada"), "left_out_entitled") is False


@pytest.mark.parametrize("key", STATED)
def test_a_statement_needs_all_its_keys(key: str) -> None:
    work = without("bonding", **{key: None})
    assert left_out(work) == frozenset()
    assert value(work, "left_out_entitled") == f"missing {key} at left_out.0.{key}"


def test_what_is_recorded_is_not_left_out() -> None:
    work = without("top piece", opening={"frame": {"pieces": {"top": {"length_mm": 1390}}}})
    assert standing(work) == PIECES
    found = reading(work, "left_out_entitled")
    assert (found.value, found.path) == (False, ("frame", "pieces", "top"))


def test_conditions_ask_for_every_piece_they_speak_of() -> None:
    assert value(without("left piece"), "without_side_pieces") is False
    work = without("left piece", "right piece")
    assert [value(work, name) for name in ("without_side_pieces", "without_frame")] == [True, False]
    assert value(without("opening function"), "without_opening_function") is True


def test_something_else_is_listed_and_changes_nothing() -> None:
    work = without("something else")
    assert left_out(work) == {"something else"}
    assert standing(work) == PIECES
    assert value(work, "left_out_entitled") is True
