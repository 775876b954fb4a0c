"""Depth of cure by the square root of time, and the vapour pressure model."""

import math

import pytest

from revealbook.measures.physics.cure_depth import (
    cure_depth_mm,
    cure_path_mm,
    hours_to_depth,
    vapour_speed_factor,
)


def test_worked_example_of_a_bead_between_frame_and_wall() -> None:
    """The example in docs/calculations/cure.md."""
    path_mm = cure_path_mm(20, open_edges=2)
    assert path_mm == 10
    hours = hours_to_depth(path_mm, depth_24h_mm=3)
    assert hours == pytest.approx(266.67, abs=5e-3)
    speed = vapour_speed_factor(10, 80, reference_air_c=23, reference_rh_pct=50)
    assert speed == pytest.approx(0.6994, abs=5e-5)
    assert hours / speed == pytest.approx(381.3, abs=5e-2)


def test_after_a_day_the_stated_depth_has_set() -> None:
    assert cure_depth_mm(24, 3) == 3
    assert cure_depth_mm(0, 3) == 0


def test_twice_the_depth_takes_four_times_as_long() -> None:
    assert hours_to_depth(6, 3) == pytest.approx(4 * hours_to_depth(3, 3))


def test_a_straight_line_would_be_far_too_short() -> None:
    straight_line_hours = 24 * 10 / 3
    assert hours_to_depth(10, 3) / straight_line_hours == pytest.approx(10 / 3)


def test_a_closed_edge_doubles_the_path() -> None:
    assert cure_path_mm(20, 1) == 2 * cure_path_mm(20, 2)


def test_the_reference_climate_itself_changes_nothing() -> None:
    assert vapour_speed_factor(18, 60, reference_air_c=18, reference_rh_pct=60) == 1


def test_the_reference_climate_matters() -> None:
    against_23_50 = vapour_speed_factor(10, 60, reference_air_c=23, reference_rh_pct=50)
    against_18_60 = vapour_speed_factor(10, 60, reference_air_c=18, reference_rh_pct=60)
    assert against_23_50 < 0.9 * against_18_60


@pytest.mark.parametrize("edges", [0, 3, -1])
def test_a_bead_without_an_open_edge_is_refused(edges: int) -> None:
    with pytest.raises(ValueError, match="one or two open edges"):
        cure_path_mm(20, edges)


@pytest.mark.parametrize("wrong", [0.0, -1.0, math.nan, math.inf])
def test_a_depth_or_width_that_is_none_is_refused(wrong: float) -> None:
    with pytest.raises(ValueError, match="more than zero"):
        cure_path_mm(wrong, 2)
    with pytest.raises(ValueError, match="more than zero"):
        hours_to_depth(wrong, 3)
    with pytest.raises(ValueError, match="more than zero"):
        hours_to_depth(3, wrong)
    with pytest.raises(ValueError, match="more than zero"):
        cure_depth_mm(24, wrong)


@pytest.mark.parametrize("hours", [-0.1, math.nan, math.inf])
def test_hours_before_application_are_refused(hours: float) -> None:
    with pytest.raises(ValueError, match="zero or more"):
        cure_depth_mm(hours, 3)
