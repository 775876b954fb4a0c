"""Dated readings as one continuous course."""

import math

import pytest

from revealbook.measures.physics.climate import Course

NIGHT = [(0.0, 14.0), (6.0, 8.0), (12.0, 8.0), (18.0, 17.0)]


def test_worked_example_of_a_night() -> None:
    """The example in docs/calculations/cure.md."""
    assert Course(NIGHT).mean_between(3, 15) == pytest.approx((3 * 9.5 + 6 * 8 + 3 * 10.25) / 12) == 8.9375


def test_the_course_runs_straight_between_readings() -> None:
    course = Course(NIGHT)
    assert course.at(3) == 11.0
    assert course.at(6) == 8.0
    assert course.at(9) == 8.0
    assert course.at(16) == 14.0


def test_the_course_stays_constant_outside_the_readings() -> None:
    course = Course(NIGHT)
    assert course.at(-100) == 14.0
    assert course.at(100) == 17.0
    assert course.mean_between(18, 30) == 17.0
    assert course.mean_between(-6, 6) == pytest.approx((6 * 14 + 6 * 11) / 12)


def test_one_reading_is_the_course_throughout() -> None:
    assert Course([(5.0, 12.5)]).mean_between(0, 48) == 12.5


def test_readings_close_together_do_not_count_more() -> None:
    crowded = [(0.0, 10.0), (0.1, 10.0), (0.2, 10.0), (0.3, 10.0), (10.3, 20.0)]
    assert Course(crowded).mean_between(0.3, 10.3) == pytest.approx(15.0)


def test_readings_may_come_in_any_order() -> None:
    assert Course(reversed(NIGHT)).mean_between(3, 15) == Course(NIGHT).mean_between(3, 15)


def test_the_mean_over_no_time_is_the_value_then() -> None:
    assert Course(NIGHT).mean_between(3, 3) == 11.0


def test_less_than_a_second_is_a_moment() -> None:
    assert Course([(0.0, 10.0), (1.0, 20.0)]).mean_between(0.5, 0.5 + 0.9 / 3600) == 15.0
    assert Course([(0.0, 1.5)]).mean_between(0.0, 5e-324) == 1.5


def test_the_course_names_the_moments_at_which_it_passes_a_value() -> None:
    assert Course(NIGHT).moments_of(11.0) == pytest.approx((3.0, 14.0))
    assert Course(NIGHT).moments_of(20.0) == ()


def test_rounding_never_lifts_a_steady_course_off_its_value() -> None:
    course = Course([(0.1, 5.1), (0.7, 5.1), (1.3, 95.3)])
    assert all(course.at(0.1 + 0.6 * k / 997) == 5.1 for k in range(998))
    assert max(course.at(0.7 + 0.6 * k / 997) for k in range(999)) == 95.3


def test_readings_that_make_no_course_are_refused() -> None:
    with pytest.raises(ValueError, match="At least one"):
        Course([])
    with pytest.raises(ValueError, match=r"share the moment 2\.5 h"):
        Course([(2.5, 10.0), (2.5, 11.0)])
    with pytest.raises(ValueError, match="must be numbers"):
        Course([(0.0, 10.0), (1.0, math.nan)])


def test_time_that_runs_backwards_is_refused() -> None:
    with pytest.raises(ValueError, match="run forwards"):
        Course(NIGHT).mean_between(6, 5)
    with pytest.raises(ValueError, match="run forwards"):
        Course(NIGHT).mean_between(6, math.inf)
    with pytest.raises(ValueError, match="must be a number"):
        Course(NIGHT).at(math.nan)
