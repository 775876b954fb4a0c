from math import inf

import pytest

from revealbook.measures.physics.band import Band, Bounds, Limits, Near, unread_hours

LIMITS = Limits(lowest=-15, highest=35, change_per_h=1)


def test_without_a_reading_only_the_limits_hold() -> None:
    assert Bounds([], LIMITS).at(3) == (-15, 35)


def test_the_air_moves_away_from_a_reading_no_faster_than_it_can() -> None:
    bounds = Bounds([Near(0, 10, 10)], LIMITS)
    assert [bounds.at(hours) for hours in (0, 4, -4, 100)] == [(10, 10), (6, 14), (6, 14), (-15, 35)]


def test_between_two_readings_both_bound_it() -> None:
    bounds = Bounds([Near(0, 4, 4), Near(10, 0, 0)], LIMITS)
    assert bounds.at(5) == (-1, 5)
    assert bounds.at(7) == (-3, 3)


def test_a_reading_far_off_bears_through_those_between() -> None:
    wide = Bounds([Near(0, 0, 0), Near(1, -9, 20), Near(2, 0, 0)], LIMITS)
    assert wide.at(1) == (-1, 1)


def test_a_reading_taken_near_the_place_says_less_than_one_at_it() -> None:
    assert Bounds([Near(0, 8, 12)], LIMITS).at(1) == (7, 13)


def test_readings_that_contradict_each_other_bound_by_both() -> None:
    assert Bounds([Near(0, 10, 10), Near(1, 0, 0)], LIMITS).at(0.5) == (0.5, 9.5)


def test_a_band_is_its_course_where_it_was_read() -> None:
    band = Band([(0, 10), (4, 6), (24, 6)], [(-inf, 0), (4, 24), (24, inf)], Bounds([Near(4, 6, 6)], LIMITS))
    assert band.at(2) == (8, 8)
    assert band.at(4) == (6, 6)
    assert band.at(5) == (5, 7)
    assert not band.is_read(5)


def test_steps_through_a_band_are_never_far_apart() -> None:
    band = Band([(0, 10), (40, 6)], [], Bounds([], LIMITS))
    assert band.moments() == pytest.approx([0, 40 / 3, 80 / 3, 40])


def test_unread_hours_are_counted_within_the_wait() -> None:
    assert unread_hours([(-inf, 1), (4, 8), (20, inf)], 24) == 1 + 4 + 4
    assert unread_hours([(-inf, -1), (30, inf)], 24) == 0


def test_both_ends_of_an_unread_stretch_were_read() -> None:
    band = Band([(0, 10), (4, 6), (24, 9)], [(4, 24)], Bounds([Near(0, 10, 10)], LIMITS))
    assert [band.is_read(hours) for hours in (3.9, 4, 4.1, 23.9, 24, 24.1)] == [
        True,
        True,
        False,
        False,
        True,
        True,
    ]
    assert band.at(24) == (9, 9)


def test_steps_are_at_most_sixteen_hours_unless_told_otherwise() -> None:
    band = Band([(0, 10), (32, 6), (40, 6)], [], Bounds([], LIMITS))
    assert band.moments() == pytest.approx([0, 32 / 3, 64 / 3, 32, 40])
    assert band.moments(40) == [0, 32, 40]
    assert band.moments(8) == pytest.approx([0, 6.4, 12.8, 19.2, 25.6, 32, 36, 40])
