from math import hypot
from typing import Any

import pytest
from tests.builders import build, details, reading, taken, value, values

SITE = {"instruments": [{"id": "tape", "measures": "length", "uncertainty": 1}]}


def supported(*placed: dict[str, Any], **sections: Any) -> Any:
    return build(
        {
            "frame": {"pieces": {"bottom": {"length_mm": 1400}}, "instruments": ["tape"]},
            "supports": {"placed": list(placed), "instruments": ["tape"]},
        }
        | sections,
        SITE,
    )


def test_a_support_ends_inside_the_bottom_piece() -> None:
    work = supported({"centre_mm": 75, "length_mm": 150}, {"centre_mm": 1330, "length_mm": 150})
    assert values(work, "support_end_margin") == {
        ("support 1", "first_end"): 0,
        ("support 1", "last_end"): 1250,
        ("support 2", "first_end"): 1255,
        ("support 2", "last_end"): -5,
    }


def test_half_a_support_enters_with_half_its_uncertainty() -> None:
    near, far = taken(supported({"centre_mm": 75, "length_mm": 150}), "support_end_margin")
    assert near.uncertainty == pytest.approx(hypot(1, 0.5))  # type: ignore[union-attr]
    assert far.uncertainty == pytest.approx(hypot(1, 0.5, 1))  # type: ignore[union-attr]
    assert details(far) == {"centre_mm": 75, "length_mm": 150, "bottom_mm": 1400}


def test_a_support_without_its_place_or_length_shows_nothing() -> None:
    found = taken(supported({"centre_mm": 75}, frame={}), "support_end_margin")
    assert [one.what for one in found] == ["length_mm", "length_mm"]  # type: ignore[union-attr]
    assert found[1].path == ("frame", "pieces", "bottom", "length_mm")
    assert value(build(), "support_end_margin") == "missing placed at supports.placed"


def test_glass_is_a_share_of_the_window() -> None:
    window = {"width_mm": 1000, "height_mm": 1500, "glass_area_m2": 1.2}
    assert reading(build({"window": window}), "glass_share").value == pytest.approx(0.8)
    assert reading(build({"window": window | {"glass_area_m2": 3}}), "glass_share").value == pytest.approx(2)
    assert value(build({"window": window | {"width_mm": None}}), "glass_share") == (
        "missing width_mm at window.width_mm"
    )


def foamed(*depths: float | None, frame_depth_mm: float | None = 76) -> Any:
    events = [{"step": "foam", "joint_depth_mm": depth} for depth in depths]
    return build({"seals": {"events": events}, "window": {"frame_depth_mm": frame_depth_mm}}, SITE)


def test_every_filling_is_held_against_the_depth_of_the_frame() -> None:
    found = taken(foamed(70, 10, 90), "foam_depth_shortfall")
    assert [one.value for one in found] == [6, 66, -14]  # type: ignore[union-attr]
    assert details(found[1]) == {"joint_depth_mm": 10, "frame_depth_mm": 76}


def test_a_depth_that_is_not_recorded_is_missing() -> None:
    assert value(foamed(None), "foam_depth_shortfall") == (
        "missing joint_depth_mm at seals.events.0.joint_depth_mm"
    )
    assert value(foamed(70, frame_depth_mm=None), "foam_depth_shortfall") == (
        "missing frame_depth_mm at window.frame_depth_mm"
    )
    assert value(build(), "foam_depth_shortfall") == "missing events at seals.events"
