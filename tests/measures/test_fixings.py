from typing import Any

import pytest
from tests.builders import build, details, taken, values

from revealbook.measures.method import METHOD_OF_FORMAT_1, Method
from revealbook.measures.work import Work

SITE = {
    "instruments": [{"id": "tape-1", "measures": "length", "uncertainty": 1}],
    "products": {
        "fixings": [
            {"id": "screw", "embedment_min_mm": 50, "edge_distance_min_mm": 60, "torque_nm": 12},
            {"id": "silent"},
            {"id": "no torque", "needs_torque": False},
        ]
    },
}


def work_with(*sets: dict[str, Any], **piece: Any) -> Work:
    left = piece | {"fixings": list(sets)}
    return build({"frame": {"pieces": {"left": left}, "instruments": ["tape-1"]}}, SITE)


def of_left(work: Work, name: str) -> dict[tuple[str, ...], Any]:
    return {subject[1:]: said for subject, said in values(work, name).items() if subject[0] == "left"}


def test_embedment_is_held_against_the_data_sheet_set_by_set() -> None:
    work = work_with({"product": "screw", "embedment_mm": 62}, {"product": "screw", "embedment_mm": 48})
    assert of_left(work, "embedment_margin") == {("set 1",): 12, ("set 2",): -2}
    found = next(one for one in taken(work, "embedment_margin") if one.subject == ("left", "set 2"))
    assert found.path == ("frame", "pieces", "left", "fixings", 1, "embedment_mm")
    assert found.uncertainty == 1  # type: ignore[union-attr]
    assert details(found) == {"embedment_mm": 48, "embedment_min_mm": 50}


@pytest.mark.parametrize(
    ("fixings", "said"),
    [
        ({"product": "screw"}, "missing edge_distance_mm at frame.pieces.left.fixings.0.edge_distance_mm"),
        (
            {"product": "silent", "edge_distance_mm": 70},
            "missing edge_distance_min_mm at frame.pieces.left.fixings.0.product",
        ),
        ({"edge_distance_mm": 70}, "missing edge_distance_min_mm at frame.pieces.left.fixings.0.product"),
    ],
)
def test_without_reading_or_data_sheet_nothing_is_shown(fixings: dict[str, Any], said: str) -> None:
    assert of_left(work_with(fixings), "edge_distance_margin") == {("set 1",): said}


def test_pieces_without_recorded_fixings_are_missing() -> None:
    found = values(build(), "embedment_margin")
    assert found == {
        (piece,): f"missing fixings at frame.pieces.{piece}.fixings"
        for piece in ("bottom", "left", "right", "top")
    } | {
        ("support",): "missing placed at supports.placed",
        ("bracket",): "missing brackets at plinth.brackets",
        ("window",): "missing fixings at window.fixings",
    }


def test_without_supports_and_plinth_profile_none_of_their_fixings_are_missing() -> None:
    found = values(
        build({"supports": {"called_for": False}, "plinth": {"used": False}}), "drilled_holes_cleaned"
    )
    assert {subject for (subject, *_) in found} == {"bottom", "left", "right", "top"}
    first = build(method=Method.model_construct(**METHOD_OF_FORMAT_1))
    assert {subject for (subject, *_) in values(first, "drilled_holes_cleaned")} == {
        "bottom",
        "left",
        "right",
        "top",
    }


def test_supports_and_brackets_are_fixed_into_the_wall_too() -> None:
    fixings = {"product": "screw", "embedment_mm": 55}
    work = build(
        {"supports": {"placed": [{"fixings": fixings}, {}]}, "plinth": {"brackets": [{"fixings": fixings}]}},
        SITE,
    )
    found = values(work, "embedment_margin")
    assert found["support 1",] == 5
    assert found["support 2",] == "missing fixings at supports.placed.1.fixings"
    assert found["bracket 1",] == 5


def test_cleaned_holes_are_read_of_every_set() -> None:
    work = work_with({"holes_cleaned": True}, {"holes_cleaned": False}, {})
    assert of_left(work, "drilled_holes_cleaned") == {
        ("set 1",): True,
        ("set 2",): False,
        ("set 3",): "missing holes_cleaned at frame.pieces.left.fixings.2.holes_cleaned",
    }


def test_torque_is_compared_both_ways() -> None:
    work = work_with({"product": "screw", "torque_nm": 11}, {"product": "screw", "torque_nm": 13.5})
    assert of_left(work, "torque_deviation") == {("set 1",): 1, ("set 2",): 1.5}


def test_torque_is_left_aside_only_where_the_data_sheet_says_so() -> None:
    work = work_with(
        {"product": "no torque"}, {"product": "silent", "torque_nm": 12}, {"product": "screw"}, {}
    )
    assert of_left(work, "torque_deviation") == {
        ("set 2",): "missing data_sheet_torque_nm at frame.pieces.left.fixings.1.product",
        ("set 3",): "missing torque_nm at frame.pieces.left.fixings.2.torque_nm",
        ("set 4",): "missing torque_nm at frame.pieces.left.fixings.3.torque_nm",
    }


@pytest.mark.parametrize(
    ("holes", "sets", "empty"),
    [
        ([180, 815], [[180, 815]], []),
        ([180, 815], [[815], [180]], []),
        ([180, 815], [[180]], [815]),
        ([180, 815], [[]], [180, 815]),
        ([180, 815], [[184, 811]], []),
        ([180, 815], [[184.5, 815]], [180]),
        ([180, 180], [[180]], [180]),
        ([180, 186], [[183]], [186]),
        ([180, 186], [[183, 183]], []),
        ([815, 180], [[180, 815, 1450]], []),
        ([], [[180]], []),
    ],
)
def test_a_hole_is_empty_unless_a_fixing_of_its_own_lies_inside_it(
    holes: list[float], sets: list[list[float]], empty: list[float]
) -> None:
    work = work_with(*({"at_mm": at} for at in sets), holes_mm=holes, hole_diameter_mm=8)
    assert of_left(work, "empty_holes") == {(): len(empty)}
    found = next(one for one in taken(work, "empty_holes") if one.subject == ("left",))
    assert [detail.value for detail in found.details] == empty


def test_without_the_diameter_of_the_holes_positions_must_agree() -> None:
    assert of_left(work_with({"at_mm": [181, 815]}, holes_mm=[180, 815]), "empty_holes") == {(): 1}


@pytest.mark.parametrize(
    ("piece", "sets", "said"),
    [
        ({"holes_mm": [180]}, [{"at_mm": [180]}, {}], "missing at_mm at frame.pieces.left.fixings.1.at_mm"),
        ({}, [{"at_mm": [180]}], "missing holes_mm at frame.pieces.left.holes_mm"),
    ],
)
def test_fixings_or_holes_without_positions_show_nothing(
    piece: dict[str, Any], sets: list[dict[str, Any]], said: str
) -> None:
    assert of_left(work_with(*sets, **piece), "empty_holes") == {(): said}


def test_holes_without_any_word_of_fixings_are_not_shown() -> None:
    work = build({"frame": {"pieces": {"left": {"holes_mm": [180]}}}})
    assert of_left(work, "empty_holes") == {(): "missing fixings at frame.pieces.left.fixings"}
