"""The order of the pieces: as told, and never better than the times of their bonding."""

from typing import Any

import pytest
from tests.builders import bonded, build, values

ORDER = ["bottom", "left", "right", "top"]
AT = "2026-11-19T{}+01:00"


def in_order(order: list[str] | None = ORDER, *bonding: dict[str, Any], **more: Any) -> dict[str, Any]:
    work = build({"frame": {"order": order, "bonding": list(bonding)}, **more})
    return {subject[0]: value for subject, value in values(work, "pieces_in_order").items()}


def pressed(*of: str, at: str | None) -> dict[str, Any]:
    return {"of": list(of), "pressed_at": at and AT.format(at)}


@pytest.mark.parametrize(
    ("order", "left", "right", "top"),
    [
        (ORDER, True, True, True),
        (["bottom", "right", "left", "top"], True, True, True),
        (["left", "bottom", "right", "top"], False, True, True),
        (["bottom", "left", "top", "right"], True, True, False),
        (["top", "left", "right", "bottom"], False, False, False),
    ],
)
def test_the_bottom_piece_goes_first_and_the_top_piece_last(
    order: list[str], *, left: bool, right: bool, top: bool
) -> None:
    assert in_order(order) == {"left": left, "right": right, "top": top}


@pytest.mark.parametrize("order", [None, ["bottom", "left", "right"], [*ORDER, "top"]])
def test_an_order_that_does_not_name_each_piece_once_is_not_shown(order: list[str] | None) -> None:
    assert in_order(order)["top"] == "missing order at frame.order"


def test_an_application_to_all_pieces_says_nothing_of_their_order() -> None:
    assert in_order(ORDER, *bonded(pressed_at=AT.format("09:30"))) == dict.fromkeys(
        ("left", "right", "top"), True
    )


def test_times_that_show_another_order_count_more_than_what_was_told() -> None:
    sides = pressed("left", "right", at="09:40")
    found = in_order(ORDER, pressed("bottom", at="09:15"), sides, pressed("top", at="09:30"))
    assert found == {"left": True, "right": True, "top": False}
    found = in_order(None, pressed("bottom", at="09:15"), sides, pressed("top", at="09:30"))
    assert found["top"] is False


def test_times_alone_do_not_show_that_the_order_was_right() -> None:
    one_by_one = [pressed(piece, at=f"09:{10 * number + 10}") for number, piece in enumerate(ORDER)]
    assert set(in_order(None, *one_by_one).values()) == {"missing order at frame.order"}


def test_a_time_left_out_where_pieces_were_bonded_one_by_one_is_not_shown() -> None:
    found = in_order(ORDER, pressed("bottom", "left", "right", at="09:15"), pressed("top", at=None))
    assert found["top"] == "missing pressed_at at frame.bonding.1.pressed_at"
    unnamed = in_order(ORDER, pressed("bottom", "left", "right", at="09:15"), pressed(at="09:05"))
    assert unnamed["top"] == "missing of at frame.bonding.1.of"


def test_a_piece_bonded_anew_keeps_its_turn() -> None:
    again = {"bonding": [pressed("bottom", at="14:00")]}
    wrong = [{"id": "NC-1", "what": "out of level", "correction": again}]
    assert set(in_order(ORDER, pressed(*ORDER, at="09:30"), nonconformities=wrong).values()) == {True}
