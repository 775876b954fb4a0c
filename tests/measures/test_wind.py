from typing import Any

import pytest
from tests.builders import build, details, reading, taken, values

from revealbook.measures.physics.wind import peak_velocity_pressure_pa, terrain
from revealbook.measures.reading import Missing
from revealbook.measures.wind import Place, worst_suction
from revealbook.measures.work import Work

EXPOSURE = {"basic_wind_velocity_m_s": 25, "terrain": "II"}
BUILDING = {"name": "A", "width_m": 20, "depth_m": 12, "height_m": 10}
OPENING = {"building": "A", "distance_from_corner_m": 5}


def windy(
    exposure: dict[str, Any] | None = None, building: dict[str, Any] | None = None, **opening: Any
) -> Work:
    site = {"exposure": EXPOSURE | (exposure or {}), "buildings": [BUILDING | (building or {})]}
    return build({"opening": {"mark": "W-1"} | OPENING | opening, "window": {"width_mm": 1230}}, site)


def test_suction_is_peak_pressure_times_the_coefficients_of_the_zone() -> None:
    # vb 25, II, z 10: qp 918.863; along the 20 m wall e 12, A 2.4; along the 12 m wall e 20, A 4
    # at 5 m: B in both; cpe,1 -1.1 and cpi +0.2
    found = reading(windy(), "wind_suction")
    assert found.value == pytest.approx(918.863 * 1.3, rel=1e-6)
    assert details(found)["zone"] == "B"
    assert details(found)["peak_velocity_pressure_pa"] == pytest.approx(918.863, rel=1e-6)


@pytest.mark.parametrize(("from_corner", "coefficient"), [(2, 1.6), (3.9, 1.6), (4.0, 1.3), (8, 1.3)])
def test_near_a_corner_of_either_wall_the_suction_is_that_of_zone_a(
    from_corner: float, coefficient: float
) -> None:
    work = windy(distance_from_corner_m=from_corner)
    assert reading(work, "wind_suction").value == pytest.approx(918.863 * coefficient, rel=1e-6)


def test_a_wall_into_which_the_opening_does_not_fit_is_left_out() -> None:
    # 15 m is possible in the 40 m wall only: e = b = 12, A 2.4, B 9.6, then C, cpe,1 -0.5
    found = reading(windy(building={"width_m": 40}, distance_from_corner_m=15), "wind_suction")
    assert details(found)["zone"] == "C"
    assert found.value == pytest.approx(918.863 * 0.7, rel=1e-6)


def test_the_middle_of_a_wall_may_be_read_a_little_too_long() -> None:
    # (20 - 1.23) / 2 = 9.385 m
    assert reading(windy(distance_from_corner_m=9.45), "wind_suction").value
    work = windy(distance_from_corner_m=9.6)
    assert values(work, "wind_suction") == {(): "missing wind_beyond_method at opening.building"}


def test_air_density_and_height_count() -> None:
    light = reading(windy({"air_density_kg_m3": 1.0}), "wind_suction").value
    assert light == pytest.approx(918.863 * 1.3 / 1.25, rel=1e-6)
    high = reading(windy(building={"height_m": 20}), "wind_suction").value
    assert high == pytest.approx(peak_velocity_pressure_pa(25, 20, terrain("II")) * 1.3)


def test_each_figure_that_lacks_is_named() -> None:
    work = build({"opening": {"mark": "W-1"}})
    assert [one.what for one in taken(work, "wind_suction") if isinstance(one, Missing)] == [
        "basic_wind_velocity_m_s",
        "terrain",
        "building",
        "distance_from_corner_m",
        "width_mm",
    ]
    work = windy(building={"width_m": None, "depth_m": None, "height_m": None})
    assert [one.what for one in taken(work, "wind_suction") if isinstance(one, Missing)] == [
        "building_width_m",
        "building_depth_m",
        "building_height_m",
    ]
    elsewhere = windy(building={"name": "B"})
    assert values(elsewhere, "wind_suction") == {(): "missing building_sizes at opening.building"}


def test_an_opening_above_its_building_is_not_believed() -> None:
    work = windy(height_above_ground_m=10.5)
    assert values(work, "wind_suction") == {(): "missing above_its_building at opening.height_above_ground_m"}
    assert reading(windy(height_above_ground_m=10), "wind_suction").value == pytest.approx(1194.5, abs=0.1)


@pytest.mark.parametrize(
    "building", [{"height_m": 250}, {"depth_m": 1.5}, {"width_m": 0}, {"width_m": 4, "depth_m": 4}]
)
def test_a_building_beyond_the_method_is_not_reckoned(building: dict[str, Any]) -> None:
    work = windy(building=building)
    assert values(work, "wind_suction") == {(): "missing wind_beyond_method at opening.building"}


def test_the_same_place_is_reckoned_once() -> None:
    place = Place(25, "II", 1.25, (20, 12, 10), 5, 1.23)
    assert worst_suction(place) is worst_suction(Place(25, "II", 1.25, (20, 12, 10), 5, 1.23))


def test_a_declared_class_is_held_against_the_wind_on_the_windows_own_area() -> None:
    work = windy(distance_from_corner_m=2)
    assert [one.what for one in taken(work, "wind_class_reserve") if isinstance(one, Missing)] == [
        "wind_class",
        "height_mm",
    ]
    site = {"exposure": EXPOSURE, "buildings": [BUILDING]}
    small = {"width_mm": 900, "height_mm": 900, "wind_class": "C4"}
    found = reading(
        build({"opening": {"mark": "W-1"} | OPENING, "window": small}, site), "wind_class_reserve"
    )
    assert found.value == pytest.approx(1600 - 918.863 * 1.3, rel=1e-5)
    large = {"width_mm": 2500, "height_mm": 4000, "wind_class": "C4"}
    found = reading(
        build({"opening": {"mark": "W-1"} | OPENING, "window": large}, site), "wind_class_reserve"
    )
    # zone B at 10 m2: cpe,10 -0.8; the windward wall, +0.78 and -0.3 inside, presses more
    pressure = details(found)["wind_pa"]
    assert found.value == pytest.approx(1600 - pressure)
    assert pressure == pytest.approx(918.863 * (0.7 + 0.1 * (10 / 12 - 0.25) / 0.75 + 0.3), rel=1e-5)


def test_everything_that_lacks_for_the_class_is_named() -> None:
    assert [one.what for one in taken(build(), "wind_class_reserve") if isinstance(one, Missing)] == [
        "wind_class",
        "height_mm",
        "basic_wind_velocity_m_s",
        "terrain",
        "building",
        "distance_from_corner_m",
        "width_mm",
    ]
