from typing import Any

import pytest
from tests.builders import build, details, taken, values

from revealbook.measures.method import METHOD_OF_FORMAT_1, Method
from revealbook.measures.work import Work

SITE = {
    "products": {
        "fixings": [
            {
                "id": "screw",
                "diameter_mm": 7.5,
                "length_mm": 160,
                "embedment_min_mm": 40,
                "edge_distance_min_mm": 25,
            },
            {"id": "silent"},
        ]
    }
}
PIECES = ("bottom", "left", "right", "top")


def fixed(
    left: dict[str, Any] | None = None,
    support: dict[str, Any] | None = None,
    bracket: dict[str, Any] | None = None,
    window: dict[str, Any] | None = None,
    method: Method | None = None,
) -> Work:
    opening: dict[str, Any] = {
        "frame": {"pieces": {"left": {"hole_diameter_mm": 8, "fixings": [left] if left else []}}},
        "supports": {"placed": [{"hole_diameter_mm": 9, "fixings": support}] if support else []},
        "plinth": {"brackets": [{"fixings": bracket}] if bracket else []},
        "window": {"fixings": [window] if window else []},
    }
    for piece in PIECES:
        opening["frame"]["pieces"].setdefault(piece, {"fixings": []})
    return build(opening, SITE, method)


def test_length_is_held_against_the_data_sheet_wherever_something_is_fixed_to_the_wall() -> None:
    work = fixed(
        left={"product": "screw", "length_mm": 162},
        support={"product": "screw", "length_mm": 160},
        bracket={"product": "screw", "length_mm": 30},
        window={"product": "screw", "length_mm": 30},
    )
    expected = {("left", "set 1"): 2, ("support 1",): 0, ("bracket 1",): -130}
    assert values(work, "fixing_length_margin") == expected
    found = taken(work, "fixing_length_margin")[-1]
    assert found.path == ("plinth", "brackets", 0, "fixings", "length_mm")
    assert details(found) == {"length_mm": 30, "data_sheet_length_mm": 160}


def test_diameter_is_held_against_the_data_sheet_both_ways_at_the_window_as_well() -> None:
    work = fixed(
        left={"product": "screw", "diameter_mm": 7},
        window={"product": "screw", "diameter_mm": 8, "side": "top"},
    )
    assert values(work, "fixing_diameter_deviation") == {("left", "set 1"): 0.5, ("window", "top"): 0.5}


@pytest.mark.parametrize("measure", ["embedment_margin", "edge_distance_margin"])
def test_the_windows_fixings_are_held_against_their_data_sheet(measure: str) -> None:
    window = {"product": "screw", "embedment_mm": 5, "edge_distance_mm": 2}
    found = values(fixed(window=window), measure)
    assert found == {("window", "set 1"): {"embedment_margin": -35, "edge_distance_margin": -23}[measure]}


def test_a_first_edition_set_reads_no_fixings_of_the_window() -> None:
    window = {"product": "screw", "embedment_mm": 5, "edge_distance_mm": 2}
    work = fixed(window=window, method=Method(**METHOD_OF_FORMAT_1))
    assert values(work, "embedment_margin") == {}


def test_what_is_left_of_a_fixing_is_its_length_less_its_embedment() -> None:
    work = fixed(left={"embedment_mm": 165, "length_mm": 160}, window={"embedment_mm": 40, "length_mm": 112})
    assert values(work, "fixing_length_left_over") == {("left", "set 1"): -5, ("window", "set 1"): 72}


def test_play_is_the_hole_less_the_fixing_in_pieces_and_supports() -> None:
    thick = {"diameter_mm": 10}
    work = fixed(left=thick, support=thick, bracket=thick, window=thick)
    assert values(work, "hole_play") == {("left", "set 1"): -2, ("support 1",): -1}


@pytest.mark.parametrize(
    ("measure", "fixings", "said"),
    [
        ("fixing_length_margin", {"product": "screw"}, "length_mm at frame.pieces.left.fixings.0.length_mm"),
        (
            "fixing_length_margin",
            {"product": "silent", "length_mm": 160},
            "data_sheet_length_mm at frame.pieces.left.fixings.0.product",
        ),
        (
            "fixing_length_left_over",
            {"length_mm": 160},
            "embedment_mm at frame.pieces.left.fixings.0.embedment_mm",
        ),
        ("hole_play", {"product": "screw"}, "diameter_mm at frame.pieces.left.fixings.0.diameter_mm"),
    ],
)
def test_a_size_that_is_not_recorded_is_missing(measure: str, fixings: dict[str, Any], said: str) -> None:
    assert values(fixed(left=fixings), measure) == {("left", "set 1"): f"missing {said}"}


def test_fixings_that_are_not_recorded_are_missing_piece_by_piece() -> None:
    pieces = {(piece,): f"missing fixings at frame.pieces.{piece}.fixings" for piece in PIECES}
    carriers = {
        ("support",): "missing placed at supports.placed",
        ("bracket",): "missing brackets at plinth.brackets",
    }
    window = {("window",): "missing fixings at window.fixings"}
    assert values(build(), "fixing_length_left_over") == pieces | carriers | window
