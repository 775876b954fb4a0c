from math import sqrt
from typing import Any

import pytest
from tests.builders import build, details, taken, values

from revealbook.measures.method import METHOD_OF_FORMAT_1, Method
from revealbook.measures.reading import Missing, Reading
from revealbook.measures.work import Work

SITE = {
    "instruments": [
        {"id": "tape", "measures": "length", "uncertainty": 1},
        {"id": "rod", "measures": "length", "uncertainty": 2},
    ],
    "products": {"profiles": [{"id": "sill", "width_mm": 30}, {"id": "silent"}]},
}
SURVEY = {
    "widths_mm": {"bottom": 1231, "middle": 1230, "top": 1232},
    "heights_mm": {"left": 1482, "middle": 1481, "right": 1480},
}
WINDOW = {
    "width_mm": 1206,
    "height_mm": 1458,
    "joint_widths_mm": {
        "left": {"start": 12, "middle": 11, "end": 14},
        "right": {"start": 11, "middle": 13, "end": 11},
        "bottom": {"start": 10, "middle": 10, "end": 10},
        "top": {"start": 13, "middle": 12.5, "end": 12},
    },
}


def measured(
    plinth: dict[str, Any] | None = None, survey: dict[str, Any] | None = None, **window: Any
) -> Work:
    opening = {
        "survey": SURVEY | (survey or {}),
        "window": WINDOW | window,
        "plinth": {"used": False} if plinth is None else plinth,
    }
    return build(opening, SITE)


def test_widths_close_at_the_height_where_they_were_measured() -> None:
    # 1231 - 1206 - 12 - 11; 1230 - 1206 - 11 - 13; 1232 - 1206 - 14 - 11
    assert values(measured(), "width_sum_error") == {("bottom",): 2, ("middle",): 0, ("top",): 1}


def test_heights_close_where_they_were_measured() -> None:
    # 1482 - 1458 - 23; 1481 - 1458 - 22.5; 1480 - 1458 - 22
    assert values(measured(), "height_sum_error") == {("left",): 1, ("middle",): 0.5, ("right",): 0}


def test_a_mistyped_size_breaks_the_sum_either_way() -> None:
    assert set(values(measured(width_mm=1106), "width_sum_error").values()) == {102, 100, 101}
    assert set(values(measured(width_mm=1306), "width_sum_error").values()) == {98, 100, 99}


def test_plinth_profile_and_packers_stand_under_the_window() -> None:
    plinth = {"used": True, "product": "sill", "packers": {"height_needed_mm": 12, "height_mm": 12}}
    found = taken(measured(plinth, height_mm=1416), "height_sum_error")
    assert [one.value for one in found if isinstance(one, Reading)] == [1, 0.5, 0]
    assert details(found[0])["under_window_mm"] == 42
    assert values(measured(plinth, height_mm=1416), "width_sum_error")["middle",] == 0


def test_no_height_to_make_up_needs_no_packers() -> None:
    plinth = {"used": True, "product": "sill", "packers": {"height_needed_mm": 0}}
    assert values(measured(plinth, height_mm=1428), "height_sum_error")["middle",] == 0.5


@pytest.mark.parametrize(
    ("plinth", "lacking"),
    [
        ({}, ["used"]),
        ({"used": True}, ["height_mm", "profile_width_mm"]),
        ({"used": True, "product": "silent", "packers": {"height_mm": 5}}, ["profile_width_mm"]),
        ({"used": True, "product": "sill", "packers": {"height_needed_mm": 12}}, ["height_mm"]),
    ],
)
def test_what_lacks_under_the_window_is_named(plinth: dict[str, Any], lacking: list[str]) -> None:
    found = taken(measured(plinth), "height_sum_error")
    assert [one.what for one in found if isinstance(one, Missing)] == lacking


def test_what_lacks_in_one_line_leaves_the_others_shown() -> None:
    found = values(measured(survey={"widths_mm": {"bottom": 1231, "top": 1232}}), "width_sum_error")
    assert found["middle",] == "missing middle at survey.widths_mm.middle"
    assert (found["bottom",], found["top",]) == (2, 1)
    everything = taken(build(), "width_sum_error")
    assert [one.what for one in everything if isinstance(one, Missing)][:4] == [
        "bottom",
        "width_mm",
        "start",
        "start",
    ]


def test_four_readings_make_the_uncertainty() -> None:
    work = measured(survey={"instruments": ["rod"]}, instruments=["tape"])
    (first, *_) = taken(work, "width_sum_error")
    assert isinstance(first, Reading)
    assert first.uncertainty == pytest.approx(sqrt(4 + 3))
    (alone, *_) = taken(measured(instruments=["tape"]), "width_sum_error")
    assert isinstance(alone, Reading)
    assert alone.uncertainty == pytest.approx(sqrt(4 + 3))  # the site's coarsest tape where none is named


def overlapping(left: float | None = 80, right: float | None = 80, **sections: Any) -> Work:
    bottom = {"length_mm": 1391, "overlap_left_mm": left, "overlap_right_mm": right}
    return build({"survey": SURVEY, "frame": {"pieces": {"bottom": bottom}}} | sections, SITE)


def test_the_overlaps_are_what_the_bottom_piece_is_longer_than_the_opening() -> None:
    # 1391 - 1231 - 80 - 80
    assert values(overlapping(), "overlap_sum_error") == {("bottom",): 0}
    assert values(overlapping(right=120), "overlap_sum_error") == {("bottom",): 40}
    assert values(overlapping(left=50), "overlap_sum_error") == {("bottom",): 30}


def test_an_overlap_that_is_not_recorded_leaves_the_sum_open() -> None:
    found = taken(overlapping(left=None, survey={}), "overlap_sum_error")
    assert [one.what for one in found if isinstance(one, Missing)] == ["bottom", "overlap_left_mm"]


def overlaps(
    survey: list[str], frame: list[str], site: dict[str, Any], method: Method | None = None
) -> Reading:
    opening = {
        "survey": {"widths_mm": {"bottom": 1231}, "instruments": survey},
        "frame": {
            "pieces": {"bottom": {"length_mm": 1392, "overlap_left_mm": 80, "overlap_right_mm": 83}},
            "instruments": frame,
        },
    }
    (found,) = taken(build(opening, site, method), "overlap_sum_error")
    assert isinstance(found, Reading)
    return found


def test_the_bottom_piece_is_read_once_in_the_survey_and_three_times_at_the_frame() -> None:
    assert overlaps(["tape"], ["rod"], SITE).value == 2
    assert overlaps(["tape"], ["rod"], SITE).uncertainty == pytest.approx(sqrt(1 + 3 * 4))
    assert overlaps(["rod"], ["tape"], SITE).uncertainty == pytest.approx(sqrt(4 + 3 * 1))


def test_a_sum_has_no_uncertainty_where_one_of_its_sections_has_none() -> None:
    first = Method(**METHOD_OF_FORMAT_1)
    assert overlaps(["tape"], ["rod"], SITE, first).uncertainty == pytest.approx(sqrt(1 + 3 * 4))
    for survey, frame in (([], []), (["tape"], []), ([], ["tape"])):
        assert overlaps(survey, frame, SITE, first).uncertainty is None


def test_a_sum_names_its_joints_by_the_first_of_them() -> None:
    for measure, side in (("width_sum_error", "left"), ("height_sum_error", "bottom")):
        first, *_ = taken(measured(), measure)
        places = {detail.name: detail.path for detail in first.details}
        assert places["joints_mm"] == ("window", "joint_widths_mm", side, "start")
