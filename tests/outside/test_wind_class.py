"""The class of EN 12210 that a computed wind asks for, against values worked out beforehand."""

import pytest
from tests.builders import build, details, reading

from revealbook.measures.physics.wind_class import class_asked, class_pressure_pa


@pytest.mark.parametrize(
    ("wind_pa", "asked"),
    [
        (400, "1"),
        (401, "2"),
        (1200, "3"),
        (1422, "4"),
        (1600, "4"),
        (1601, "5"),
        (2000, "5"),
        (2100.2, "E2101"),
    ],
)
def test_the_class_turns_at_its_test_pressure(wind_pa: float, asked: str) -> None:
    """EN 12210: P1 of 400, 800, 1200, 1600, 2000 Pa (published, secondary source); 1422 Pa: class 4."""
    assert class_asked(wind_pa) == asked


def test_a_window_near_a_corner_asks_for_class_4() -> None:
    """1.23 x 1.48 m, 25 m/s, terrain II, 10 m, zone A: cpe -1.34797, -1422.37 Pa (EN 1991-1-4, published)."""
    window = {"width_mm": 1230, "height_mm": 1480, "wind_class": "C4"}
    opening = {"mark": "W-1", "building": "A", "distance_from_corner_m": 1.5}
    site = {
        "buildings": [{"name": "A", "width_m": 10, "depth_m": 10, "height_m": 10}],
        "exposure": {"basic_wind_velocity_m_s": 25, "terrain": "II"},
    }
    found = reading(build({"opening": opening, "window": window}, site), "wind_class_reserve")
    assert details(found)["wind_pa"] == pytest.approx(1422.37, abs=0.005)
    assert details(found)["wind_class_asked"] == "4"
    assert found.value == pytest.approx(class_pressure_pa("4") - 1422.37, abs=0.005)
