from typing import Any

import pytest
from tests.builders import build, value, values


@pytest.mark.parametrize(
    ("finish", "bears"),
    [
        ({"kind": "plaster", "removed": True}, True),
        ({"kind": "plaster", "removed": False, "adhesion_tested": True}, True),
        ({"kind": "plaster", "removed": False, "adhesion_tested": False}, False),
        ({"kind": "cladding", "removed": False, "adhesion_tested": True}, False),
        ({"kind": "plaster", "removed": False}, "missing adhesion_tested at survey.finish.adhesion_tested"),
        ({"kind": "plaster", "adhesion_tested": True}, "missing removed at survey.finish.removed"),
    ],
)
def test_a_finish_is_off_or_was_tried_and_only_plaster_and_paint_may_stay(finish: Any, bears: Any) -> None:
    assert value(build({"survey": {"finish": finish}}), "finish_bears") == bears


def test_a_finish_of_which_nobody_says_what_it_is_exists_or_not() -> None:
    missing = "missing kind at survey.finish.kind"
    work = build({"survey": {"finish": {"thickness_mm": 15}}})
    assert value(work, "existing_finish") == missing
    assert value(work, "finish_stays") == missing
    assert value(build({"survey": {"finish": {"kind": "none"}}}), "existing_finish") is False


def test_what_is_screwed_through_plaster_is_not_embedded_there() -> None:
    sets = [{"length_mm": 100, "embedment_mm": 90}]
    work = build(
        {
            "survey": {"finish": {"kind": "plaster", "thickness_mm": 15, "removed": False}},
            "frame": {"pieces": {"bottom": {"fixings": sets}}},
        }
    )
    assert values(work, "embedment_beyond_finish")["bottom", "set 1"] == -5


def test_a_shutter_box_is_sealed_to_window_and_wall() -> None:
    work = build({"window": {"shutter_box": {"sealed_to_window": True}}})
    assert value(work, "shutter_box") is True
    assert values(work, "shutter_box_sealed") == {
        ("window",): True,
        ("wall",): "missing sealed_to_wall at window.shutter_box.sealed_to_wall",
    }


def test_a_fire_barrier_is_judged_only_where_it_is_called_for() -> None:
    work = build({"covering": {"fire_barrier": {"height_mm": 200, "past_left_mm": 310}}})
    assert value(work, "fire_barrier_called_for") is False
    assert values(work, "fire_barrier_past") == {
        ("left",): 310,
        ("right",): "missing past_right_mm at covering.fire_barrier.past_right_mm",
    }
