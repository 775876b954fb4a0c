"""Air permeability classes."""

import math

import pytest

from revealbook.measures.physics.permeability_class import (
    class_by,
    permeability_classes,
    permitted_flow,
    pressure_factor,
)

STEPS_PA = (50.0, 100.0, 150.0, 200.0, 250.0, 300.0, 450.0, 600.0)


def readings_at(flow_at_100_pa: float, up_to_pa: float = 600) -> list[tuple[float, float]]:
    return [(dp, flow_at_100_pa * (dp / 100) ** (2 / 3)) for dp in STEPS_PA if dp <= up_to_pa]


def test_worked_example_of_a_window_by_area_and_by_joint() -> None:
    """The example in docs/calculations/air-leakage.md: 1.8204 m2, 5.0 m of joint, 5.2 m3/h at 100 Pa."""
    readings = readings_at(5.2)
    assert permitted_flow(4, 600, "area") == pytest.approx(9.9058, abs=5e-5)
    assert readings[-1][1] / 1.8204 == pytest.approx(9.4320, abs=5e-5)
    assert class_by("area", readings, 1.8204) == 4
    assert readings[-1][1] / 5.0 == pytest.approx(3.4340, abs=5e-5)
    assert class_by("joint", readings, 5.0) == 3


def test_classes_tighten_with_their_number() -> None:
    by_area = [row.area_m3_h_m2 for row in permeability_classes()]
    assert [row.number for row in permeability_classes()] == [1, 2, 3, 4]
    assert by_area == sorted(by_area, reverse=True)


@pytest.mark.parametrize(
    ("flow_at_100_pa", "expected"), [(2.9, 4), (3.1, 3), (9.1, 2), (27.1, 1), (50.1, None)]
)
def test_the_class_is_the_best_one_kept_at_every_pressure(
    flow_at_100_pa: float, expected: int | None
) -> None:
    assert class_by("area", readings_at(flow_at_100_pa), 1.0) == expected


def test_one_reading_over_the_curve_loses_the_class() -> None:
    readings = readings_at(2.9)
    readings[2] = (150.0, 4.0)  # class 4 permits 3.93 there
    assert class_by("area", readings, 1.0) == 3


def test_a_class_is_not_shown_beyond_the_highest_pressure_read() -> None:
    assert class_by("area", readings_at(2.9, up_to_pa=450), 1.0) == 2
    assert class_by("area", readings_at(2.9, up_to_pa=300), 1.0) == 2
    assert class_by("area", readings_at(2.9, up_to_pa=250), 1.0) == 1
    assert class_by("area", readings_at(2.9, up_to_pa=100), 1.0) is None


def test_a_leak_that_opens_above_a_class_pressure_leaves_that_class() -> None:
    readings = [*readings_at(20, up_to_pa=300), (450.0, 500.0), (600.0, 900.0)]
    assert class_by("area", readings, 1.0) == 2


def test_the_class_goes_by_the_flow_per_area() -> None:
    assert class_by("area", readings_at(5.8), 2.0) == class_by("area", readings_at(2.9), 1.0) == 4


def test_by_joint_a_quarter_of_the_flow_by_area_is_permitted() -> None:
    for row in permeability_classes():
        assert row.area_m3_h_m2 == 4 * row.joint_m3_h_m
    assert permitted_flow(3, 200, "area") == pytest.approx(4 * permitted_flow(3, 200, "joint"))


def test_a_class_says_nothing_beyond_its_test() -> None:
    with pytest.raises(ValueError, match="nothing above 300 Pa"):
        permitted_flow(2, 301, "area")


@pytest.mark.parametrize("wrong", [0.0, -1.0, math.nan])
def test_sizes_and_pressures_that_are_none_are_refused(wrong: float) -> None:
    with pytest.raises(ValueError, match="area in m2"):
        class_by("area", readings_at(3), wrong)
    with pytest.raises(ValueError, match="length of joint"):
        class_by("joint", readings_at(3), wrong)
    with pytest.raises(ValueError, match="Pressure difference"):
        class_by("area", [(wrong, 3.0)], 1.0)
    with pytest.raises(ValueError, match="Pressure difference"):
        pressure_factor(wrong)


def test_a_class_there_is_not_is_refused() -> None:
    with pytest.raises(ValueError, match="no air permeability class 5"):
        permitted_flow(5, 100, "area")


def test_flows_that_are_none_are_refused() -> None:
    with pytest.raises(ValueError, match="At least one reading"):
        class_by("area", [], 1.0)
    with pytest.raises(ValueError, match="Air flow"):
        class_by("area", [(100.0, -1.0)], 1.0)


def test_no_air_at_all_or_less_than_a_cubic_metre_of_it_is_a_flow() -> None:
    for flow in (0.0, 0.4):
        assert class_by("area", [(100.0, flow), (600.0, flow)], 1.0) == 4
