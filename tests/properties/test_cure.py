"""Laws of setting: tables, depths and dated climates."""

import pytest
from hypothesis import assume, example, given, settings
from hypothesis import strategies as st

from revealbook.measures.physics.climate import Course
from revealbook.measures.physics.cure import (
    ClimateReading,
    CureRow,
    CureTable,
    OutsideTable,
    hours_until_cured,
)
from revealbook.measures.physics.cure_depth import (
    cure_depth_mm,
    cure_path_mm,
    hours_to_depth,
    vapour_speed_factor,
)

TABLE = CureTable(
    tuple(
        CureRow(air, rh, hours)
        for air, line in ((5, (60, 50)), (15, (30, 22)), (35, (12, 7)))
        for rh, hours in zip((40, 80), line, strict=True)
    )
)
airs_c = st.floats(5, 35)
humidities_pct = st.floats(40, 80)
courses = st.lists(
    st.tuples(st.floats(-20, 80), st.floats(-30, 60)),
    min_size=1,
    max_size=8,
    unique_by=lambda reading: reading[0],
)


@st.composite
def weathers(draw: st.DrawFn) -> list[ClimateReading]:
    """Readings inside the table, at whole hours from application."""
    moments = draw(st.lists(st.integers(-10, 80), min_size=1, max_size=8, unique=True))
    return [ClimateReading(hours, draw(airs_c), draw(humidities_pct)) for hours in moments]


@given(airs_c, humidities_pct)
def test_the_hours_lie_among_those_stated(air_c: float, rh_pct: float) -> None:
    assert 7 - 1e-9 <= TABLE.hours_needed(air_c, rh_pct) <= 60 + 1e-9


@given(airs_c, humidities_pct, st.floats(0, 30), st.floats(0, 40))
def test_warmth_and_damp_shorten_the_wait(
    air_c: float, rh_pct: float, warmer_k: float, damper: float
) -> None:
    assume(air_c + warmer_k <= 35)
    assume(rh_pct + damper <= 80)
    assert TABLE.hours_needed(air_c + warmer_k, rh_pct + damper) <= TABLE.hours_needed(air_c, rh_pct) + 1e-9


@given(st.one_of(st.floats(-50, 4.999), st.floats(35.001, 80)), humidities_pct)
def test_nothing_is_extrapolated(air_c: float, rh_pct: float) -> None:
    with pytest.raises(OutsideTable):
        TABLE.hours_needed(air_c, rh_pct)


@given(airs_c, humidities_pct, st.lists(st.integers(-50, 100), min_size=1, max_size=6, unique=True))
def test_in_steady_weather_it_does_not_matter_when_it_was_read(
    air_c: float, rh_pct: float, moments: list[int]
) -> None:
    readings = [ClimateReading(hours, air_c, rh_pct) for hours in moments]
    assert hours_until_cured(TABLE, readings) == pytest.approx(TABLE.hours_needed(air_c, rh_pct))


@settings(max_examples=40, deadline=None)
@given(weathers())
def test_changing_weather_cures_between_the_best_and_the_worst_of_it(weather: list[ClimateReading]) -> None:
    worst = TABLE.hours_needed(min(w.air_c for w in weather), min(w.rh_pct or 0 for w in weather))
    best = TABLE.hours_needed(max(w.air_c for w in weather), max(w.rh_pct or 0 for w in weather))
    assert best * (1 - 1e-4) <= hours_until_cured(TABLE, weather) <= worst * (1 + 1e-4)


@settings(max_examples=40, deadline=None)
@given(weathers(), st.floats(0.1, 10))
def test_warmer_weather_never_cures_later(weather: list[ClimateReading], warmer_k: float) -> None:
    assume(all(w.air_c + warmer_k <= 35 for w in weather))
    warmer = [w._replace(air_c=w.air_c + warmer_k) for w in weather]
    assert hours_until_cured(TABLE, warmer) <= hours_until_cured(TABLE, weather) * (1 + 1e-4)


@settings(max_examples=40, deadline=None)
@given(weathers(), st.floats(0.2, 5))
def test_a_product_slower_by_a_factor_in_weather_slower_by_it_sets_later_by_it(
    weather: list[ClimateReading], factor: float
) -> None:
    """The unit of time is nobody's business: hours or days give the same course of cure."""
    slower = CureTable(tuple(row._replace(hours=row.hours * factor) for row in TABLE.rows))
    stretched = [w._replace(hours=w.hours * factor) for w in weather]
    assert hours_until_cured(slower, stretched) == pytest.approx(
        factor * hours_until_cured(TABLE, weather), rel=1e-6
    )


@settings(max_examples=40, deadline=None)
@given(weathers())
def test_a_reading_that_says_what_was_assumed_changes_nothing(weather: list[ClimateReading]) -> None:
    last = max(weather)
    extended = [*weather, last._replace(hours=last.hours + 7)]
    assert hours_until_cured(TABLE, extended) == pytest.approx(hours_until_cured(TABLE, weather), rel=1e-4)


@given(st.floats(0.01, 5000), st.floats(0.5, 6))
def test_depth_and_hours_are_inverse(hours: float, d24_mm: float) -> None:
    assert hours_to_depth(cure_depth_mm(hours, d24_mm), d24_mm) == pytest.approx(hours)


@given(st.floats(0.1, 50), st.floats(0.5, 6), st.floats(0.1, 10))
def test_the_wait_grows_with_the_square_of_the_width(width_mm: float, d24_mm: float, factor: float) -> None:
    wait = hours_to_depth(cure_path_mm(width_mm, 2), d24_mm)
    assert hours_to_depth(cure_path_mm(factor * width_mm, 2), d24_mm) == pytest.approx(factor**2 * wait)
    assert hours_to_depth(cure_path_mm(width_mm, 1), d24_mm) == pytest.approx(4 * wait)


@given(airs_c, humidities_pct, airs_c, humidities_pct)
def test_the_speed_factor_turns_round_with_its_climates(
    a_c: float, a_pct: float, b_c: float, b_pct: float
) -> None:
    there = vapour_speed_factor(a_c, a_pct, reference_air_c=b_c, reference_rh_pct=b_pct)
    back = vapour_speed_factor(b_c, b_pct, reference_air_c=a_c, reference_rh_pct=a_pct)
    assert there * back == pytest.approx(1)


@example([(0.0, 1.5)], 0.0, 5e-324)
@given(courses, st.floats(-30, 90), st.floats(0, 100))
def test_a_mean_lies_among_the_readings(
    readings: list[tuple[float, float]], start_h: float, for_h: float
) -> None:
    values = [value for _, value in readings]
    assert min(values) - 1e-6 <= Course(readings).mean_between(start_h, start_h + for_h) <= max(values) + 1e-6


@given(courses, st.floats(-30, 90), st.floats(0.1, 50), st.floats(0.1, 50))
def test_means_of_two_stretches_add_up_to_that_of_both(
    readings: list[tuple[float, float]], start_h: float, first_h: float, second_h: float
) -> None:
    course = Course(readings)
    middle, end = start_h + first_h, start_h + first_h + second_h
    parts = course.mean_between(start_h, middle) * first_h + course.mean_between(middle, end) * second_h
    assert course.mean_between(start_h, end) * (first_h + second_h) == pytest.approx(parts, abs=1e-6)


@given(courses, st.floats(-30, 60))
def test_the_course_has_the_value_at_the_moments_it_names(
    readings: list[tuple[float, float]], value: float
) -> None:
    course = Course(readings)
    for earlier, later in zip(course.readings, course.readings[1:], strict=False):
        assume(later.hours - earlier.hours > 1e-3)
    for moment in course.moments_of(value):
        assert course.at(moment) == pytest.approx(value, abs=1e-6)
