from math import inf
from typing import Any

import pytest
from tests.builders import build, details, reading, taken, value, values

from revealbook.measures.work import Work

SITE = {
    "instruments": [
        {"id": "tape-1", "measures": "length", "uncertainty": 1},
        {"id": "level-1", "measures": "deviation", "uncertainty": 0.4},
    ],
    "products": {
        "fixings": [{"id": "screw", "length_mm": 112}, {"id": "silent"}],
        "foams": [
            {"id": "foam", "joint_min_mm": 8, "joint_max_mm": 30},
            {"id": "fine foam", "joint_min_mm": 3, "joint_max_mm": 14},
            {"id": "silent", "joint_min_mm": 8},
        ],
    },
}


def window(events: list[dict[str, Any]] | None = None, **keys: Any) -> Work:
    opening: dict[str, Any] = {"window": keys | {"instruments": ["tape-1", "level-1"]}}
    if events is not None:
        opening["seals"] = {"events": events}
    return build(opening, SITE)


def test_plumb_and_level_are_per_metre_of_height_and_width() -> None:
    work = window(out_of_plumb_mm=1.5, height_mm=1500, out_of_level_mm=1, width_mm=2000)
    assert value(work, "window_plumb_slope") == 1.0
    assert value(work, "window_level_slope") == 0.5
    found = reading(work, "window_level_slope")
    assert found.uncertainty == pytest.approx(0.2)
    assert found.path == ("window", "out_of_level_mm")
    assert details(found) == {"out_of_level_mm": 1, "width_mm": 2000}


def test_a_slope_needs_deviation_and_size() -> None:
    assert (
        value(window(height_mm=1500), "window_plumb_slope")
        == "missing out_of_plumb_mm at window.out_of_plumb_mm"
    )
    assert value(window(out_of_plumb_mm=1), "window_plumb_slope") == "missing height_mm at window.height_mm"


def test_the_window_stands_square_by_its_diagonals() -> None:
    work = window(width_mm=1206, diagonals_mm={"rising": 1893, "falling": 1890})
    assert value(work, "window_rack") == pytest.approx((1893**2 - 1890**2) / (4 * 1206))
    assert reading(work, "window_rack").uncertainty == pytest.approx(2**0.5 * (1893 + 1890) / (4 * 1206))


@pytest.mark.parametrize(
    ("keys", "said"),
    [
        ({}, "missing width_mm at window.width_mm"),
        ({"width_mm": 1206}, "missing rising at window.diagonals_mm.rising"),
        (
            {"width_mm": 1206, "diagonals_mm": {"rising": 1893}},
            "missing falling at window.diagonals_mm.falling",
        ),
        (
            {"width_mm": 1206, "diagonals_mm": {"rising": 900, "falling": 900}},
            "missing diagonals_fit_no_window at window.diagonals_mm",
        ),
    ],
)
def test_a_rack_that_cannot_be_computed_is_missing(keys: dict[str, Any], said: str) -> None:
    assert value(window(**keys), "window_rack") == said


ALL = [{"side": side, "at_mm": [180, 733, 1286]} for side in ("left", "right", "bottom", "top")]


def test_centres_are_read_side_by_side_with_the_place_of_each_fixing() -> None:
    work = window(
        fixings=[*ALL[1:], {"side": "left", "at_mm": [1286, 180]}, {"side": "left", "at_mm": [733]}]
    )
    found = values(work, "window_fixing_centres")
    assert found["left", "fixing 1-2"] == found["left", "fixing 2-3"] == 553
    second = next(
        one for one in taken(work, "window_fixing_centres") if one.subject == ("left", "fixing 2-3")
    )
    assert second.path == ("window", "fixings", 3, "at_mm", 0)


def test_corners_are_measured_from_both_ends() -> None:
    work = window(fixings=ALL, height_mm=1466, width_mm=1200)
    found = values(work, "window_fixing_corner")
    assert (found["left", "first_end"], found["left", "last_end"]) == (180, 180)
    assert found["top", "last_end"] == -86


def test_corners_need_the_size_of_the_window_at_the_far_end_only() -> None:
    found = values(window(fixings=ALL, height_mm=1466), "window_fixing_corner")
    assert found["bottom", "first_end"] == 180
    assert found["bottom", "last_end"] == "missing width_mm at window.width_mm"


def test_a_side_without_a_single_fixing_is_endlessly_open() -> None:
    work = window(fixings=[*ALL[1:], {"side": "left", "at_mm": []}])
    assert values(work, "window_fixing_centres")["left",] == inf
    assert values(work, "window_fixing_corner")["left", "first_end"] == inf


@pytest.mark.parametrize("sets", [ALL[1:], [*ALL[1:], {"side": "left"}], [*ALL, {"side": "left"}]])
def test_a_side_of_which_not_all_positions_are_known_is_not_shown(sets: list[dict[str, Any]]) -> None:
    found = values(window(fixings=sets), "window_fixing_centres")
    assert found["left",] == "missing at_mm at window.fixings"
    assert found["right", "fixing 1-2"] == 553


def test_fixings_on_no_known_side_may_belong_to_any() -> None:
    for name in ("window_fixing_centres", "window_fixing_corner"):
        work = window(fixings=[*ALL, {"at_mm": [10]}])
        assert values(work, name) == {("set 5",): "missing side at window.fixings.4.side"}
        assert value(window(), name) == "missing fixings at window.fixings"


def test_what_is_recorded_of_each_set_is_read() -> None:
    work = window(fixings=[{"side": "left", "predrilled": True}, {"predrilled": False}, {"side": "top"}])
    assert values(work, "window_predrilled") == {
        ("left",): True,
        ("set 2",): False,
        ("top",): "missing predrilled at window.fixings.2.predrilled",
    }


@pytest.mark.parametrize("name", ["window_predrilled", "window_fixing_length_margin"])
@pytest.mark.parametrize("keys", [{}, {"fixings": []}])
def test_a_window_without_fixings_shows_nothing_of_them(name: str, keys: dict[str, Any]) -> None:
    assert value(window(**keys), name) == "missing fixings at window.fixings"


def test_fixings_are_as_long_as_their_supplier_asks() -> None:
    sets = [
        {"side": "left", "product": "screw", "length_mm": 112},
        {"side": "right", "product": "screw", "length_mm": 92},
        {"side": "top", "product": "screw"},
        {"side": "bottom", "product": "silent", "length_mm": 112},
        {"length_mm": 112},
    ]
    assert values(window(fixings=sets), "window_fixing_length_margin") == {
        ("left",): 0,
        ("right",): -20,
        ("top",): "missing length_mm at window.fixings.2.length_mm",
        ("bottom",): "missing data_sheet_length_mm at window.fixings.3.product",
        ("set 5",): "missing data_sheet_length_mm at window.fixings.4.product",
    }


@pytest.mark.parametrize(("way", "through"), [("screws through the frame", True), ("brackets", False)])
def test_the_way_of_fixing_decides_whether_screws_go_through(way: str, *, through: bool) -> None:
    assert value(window(fixed_by=way), "window_through_frame") is through
    assert value(window(), "window_through_frame") == "missing fixed_by at window.fixed_by"


FOAM = [{"step": "foam", "product": "foam"}]


def joint(width: float, events: list[dict[str, Any]] | None) -> Any:
    work = window(events, joint_widths_mm={"left": {"start": width}})
    return values(work, "joint_margin")["left", "joint_start"]


@pytest.mark.parametrize(("width", "margin"), [(12, 4), (8, 0), (7, -1), (28, 2), (31, -1), (19, 11)])
def test_a_joint_is_held_against_both_ends_of_what_the_foam_may_fill(width: float, margin: float) -> None:
    assert joint(width, FOAM) == margin


def test_a_joint_is_held_against_every_foam_that_was_used() -> None:
    both = [*FOAM, {"step": "foam", "product": "fine foam"}]
    assert joint(12, both) == 2
    assert joint(15, both) == -1
    assert joint(5, both) == -3
    assert joint(12, both[::-1]) == 2


def test_a_joint_names_the_end_that_is_nearer() -> None:
    work = window(FOAM, joint_widths_mm={"top": {"middle": 28}})
    found = next(one for one in taken(work, "joint_margin") if one.subject == ("top", "joint_middle"))
    assert details(found) == {"joint_width_mm": 28, "joint_max_mm": 30}
    assert found.path == ("window", "joint_widths_mm", "top", "middle")
    assert found.uncertainty == 1  # type: ignore[union-attr]


@pytest.mark.parametrize(
    ("events", "said"),
    [
        (None, "missing events at seals.events"),
        ([], "missing foam at seals.events"),
        ([{"step": "trim"}], "missing foam at seals.events"),
        ([{"step": "foam"}], "missing joint_min_mm at seals.events.0.product"),
        ([*FOAM, {"step": "foam"}], "missing joint_min_mm at seals.events.1.product"),
        ([{"step": "foam", "product": "silent"}], "missing joint_max_mm at seals.events.0.product"),
        ([*FOAM, {}], "missing step at seals.events.1.step"),
    ],
)
def test_without_knowing_every_foam_a_joint_shows_nothing(
    events: list[dict[str, Any]] | None, said: str
) -> None:
    assert joint(12, events) == said


def test_a_joint_that_was_not_measured_is_missing() -> None:
    found = values(window(FOAM, joint_widths_mm={"left": {"start": 12}}), "joint_margin")
    assert len(found) == 12
    assert found["left", "joint_end"] == "missing end at window.joint_widths_mm.left.end"
