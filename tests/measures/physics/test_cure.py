"""Hours needed to set, from a product's table and in a changing climate."""

import math

import pytest

from revealbook.measures.physics.cure import (
    ClimateReading,
    CureRow,
    CureTable,
    OutsideTable,
    hours_until_cured,
)

FOAM = CureTable((CureRow(5, None, 8), CureRow(10, None, 5), CureRow(20, None, 2)))
"""Invented, in the shape of a data sheet: by temperature alone."""

ADHESIVE = CureTable(
    (
        CureRow(5, 40, 80),
        CureRow(5, 80, 60),
        CureRow(20, 40, 40),
        CureRow(20, 80, 24),
    )
)
"""Invented, in the shape of a data sheet: by temperature and humidity."""


def test_worked_example_of_a_foam_on_a_cooling_evening() -> None:
    """The example in docs/calculations/cure.md: 20 degC falling to 10 in 4 hours, steady after that."""
    readings = [ClimateReading(0, 20), ClimateReading(4, 10)]
    # hours needed are 2 + 0.75 t while it cools, so the degree of cure is ln(1 + 0.375 t) / 0.75
    assert FOAM.hours_needed(20) == 2
    assert FOAM.hours_needed(15) == 3.5
    assert hours_until_cured(FOAM, readings) == pytest.approx((math.exp(0.75) - 1) / 0.375, rel=1e-5)
    assert hours_until_cured(FOAM, readings) == pytest.approx(2.979, abs=5e-4)


def test_a_stated_climate_gives_its_own_hours() -> None:
    assert [FOAM.hours_needed(row.air_c) for row in FOAM.rows] == [8, 5, 2]
    assert [ADHESIVE.hours_needed(row.air_c, row.rh_pct) for row in ADHESIVE.rows] == [80, 60, 40, 24]


def test_between_two_temperatures_the_hours_lie_on_a_straight_line() -> None:
    assert FOAM.hours_needed(7.5) == pytest.approx(6.5)
    assert FOAM.hours_needed(12.5) == pytest.approx(4.25)


def test_between_four_climates_the_hours_are_bilinear() -> None:
    assert ADHESIVE.hours_needed(12.5, 60) == pytest.approx((80 + 60 + 40 + 24) / 4)
    assert ADHESIVE.hours_needed(5, 60) == pytest.approx(70)
    assert ADHESIVE.hours_needed(20, 50) == pytest.approx(36)


def test_rows_may_come_in_any_order() -> None:
    assert CureTable(FOAM.rows[::-1]).hours_needed(7.5) == FOAM.hours_needed(7.5)


@pytest.mark.parametrize("air_c", [4.99, 20.01, -10.0, math.nan])
def test_a_temperature_outside_the_table_is_refused_with_its_range(air_c: float) -> None:
    with pytest.raises(OutsideTable, match=r"outside the product's table, 5 to 20 degC") as refusal:
        FOAM.hours_needed(air_c)
    assert (refusal.value.what, refusal.value.unit) == ("Air temperature", "degC")
    assert (refusal.value.low, refusal.value.high) == (5, 20)


def test_a_humidity_outside_the_table_is_refused_with_its_range() -> None:
    with pytest.raises(OutsideTable, match=r"Relative humidity of 85 % .* 40 to 80 %") as refusal:
        ADHESIVE.hours_needed(10, 85)
    assert refusal.value.value == 85


def test_a_single_row_answers_for_its_own_climate_only() -> None:
    stated_once = CureTable((CureRow(23, 50, 24),))
    assert stated_once.hours_needed(23, 50) == 24
    with pytest.raises(OutsideTable):
        stated_once.hours_needed(22, 50)


def test_an_unknown_humidity_is_not_assumed() -> None:
    with pytest.raises(ValueError, match="goes by humidity, and none is known"):
        ADHESIVE.hours_needed(10)
    with pytest.raises(ValueError, match="a reading does not state it"):
        hours_until_cured(ADHESIVE, [ClimateReading(0, 10, 60), ClimateReading(9, 10)])


def test_a_table_without_humidity_leaves_the_humidity_aside() -> None:
    assert FOAM.hours_needed(10, 99) == 5


@pytest.mark.parametrize(
    ("rows", "sentence"),
    [
        ([], "every pair"),
        ([(5, 40, 8), (5, 80, 6), (20, 40, 2)], "every pair"),
        ([(5, None, 8), (5, None, 6)], "one climate twice"),
        ([(5, None, 8), (20, 50, 6)], "some rows|Some rows"),
        ([(5, None, 0)], "more than zero"),
        ([(5, None, -3)], "more than zero"),
        ([(5, None, math.inf)], "more than zero"),
        ([(300, None, 3)], "Air temperature in a cure table"),
        ([(5, 0, 3)], "Relative humidity"),
    ],
)
def test_a_table_that_cannot_be_read_is_refused(
    rows: list[tuple[float, float | None, float]], sentence: str
) -> None:
    with pytest.raises(ValueError, match=sentence):
        CureTable(tuple(CureRow(*row) for row in rows))


def test_in_a_steady_climate_the_table_itself_is_the_answer() -> None:
    assert hours_until_cured(FOAM, [ClimateReading(0, 10)]) == pytest.approx(5)
    steady = [ClimateReading(hour, 12.5, 60) for hour in range(0, 200, 7)]
    assert hours_until_cured(ADHESIVE, steady) == pytest.approx(51)


def test_the_last_reading_holds_until_the_product_has_set() -> None:
    """An hour at 20 degC is half the cure; then 10 degC at once, half of its 5 hours."""
    readings = [ClimateReading(0, 20), ClimateReading(1, 20), ClimateReading(1 + 1e-9, 10)]
    assert hours_until_cured(FOAM, readings) == pytest.approx(1 + 2.5, abs=1e-6)


def test_the_first_reading_holds_back_to_the_application() -> None:
    assert hours_until_cured(FOAM, [ClimateReading(3, 10), ClimateReading(6, 10)]) == pytest.approx(5)


def test_weather_before_the_application_does_not_cure() -> None:
    """Cooling from 20 degC at hour -4 to 10 at hour 4, so 15 at the application, at hour 0."""
    cooling = [ClimateReading(-4, 20), ClimateReading(4, 10)]
    same = [ClimateReading(0, 15), ClimateReading(4, 10)]
    assert hours_until_cured(FOAM, cooling) == pytest.approx(hours_until_cured(FOAM, same), rel=1e-4)
    assert hours_until_cured(FOAM, [ClimateReading(-9, 20), ClimateReading(-1, 10)]) == pytest.approx(5)


def test_readings_of_the_climate_may_come_in_any_order() -> None:
    readings = [ClimateReading(0, 20), ClimateReading(1, 15), ClimateReading(2, 10)]
    assert hours_until_cured(FOAM, readings[::-1]) == hours_until_cured(FOAM, readings)


def test_the_kink_of_the_table_is_honoured() -> None:
    """From 20 to 5 degC in 3 hours: 2 + 1.5 t hours needed until 10 degC at hour 2, then 5 + 3 (t - 2)."""
    readings = [ClimateReading(0, 20), ClimateReading(3, 5)]
    until_the_kink = math.log(2.5) / 1.5
    after = (math.exp(3 * (1 - until_the_kink)) - 1) * 5 / 3
    assert after > 1  # the last stretch is steady
    at_the_end = until_the_kink + math.log(8 / 5) / 3
    expected = 3 + (1 - at_the_end) * 8
    assert hours_until_cured(FOAM, readings) == pytest.approx(expected, rel=1e-5)


def test_a_tenfold_change_of_hours_is_still_integrated_closely() -> None:
    steep = CureTable((CureRow(0, None, 100), CureRow(20, None, 10)))
    found = hours_until_cured(steep, [ClimateReading(0, 20), ClimateReading(36, 0)])
    # 10 + 2.5 t hours needed over the first 36 hours, 100 after that
    at_the_end = math.log(10) / 2.5
    assert found == pytest.approx(36 + (1 - at_the_end) * 100, rel=1e-4)


def test_humidity_that_falls_slows_the_cure() -> None:
    falling = [ClimateReading(0, 20, 80), ClimateReading(24, 20, 40)]
    hours = hours_until_cured(ADHESIVE, falling)
    assert 24 < hours < 40
    # 24 + 2 t / 3 hours needed over the first 24 hours, 40 after that
    expected = 24 + (1 - 1.5 * math.log(40 / 24)) * 40
    assert hours == pytest.approx(expected, rel=1e-5)


def test_a_night_colder_than_the_table_is_refused() -> None:
    night = [ClimateReading(0, 10), ClimateReading(3, 2), ClimateReading(9, 10)]
    with pytest.raises(OutsideTable):
        hours_until_cured(FOAM, night)


def test_a_cold_night_after_the_product_has_set_does_not_matter() -> None:
    night = [ClimateReading(0, 20), ClimateReading(4, 20), ClimateReading(9, -5)]
    assert hours_until_cured(FOAM, night) == pytest.approx(2)


def test_a_product_that_sets_just_before_the_cold_leaves_the_table_has_set() -> None:
    """From 20 to -9 degC: 5 degC at hour 3.92, amid a step of the integration, and 1.003 cured by then."""
    by_then = 3.92 * (2 / 9 * math.log(5 / 2) + 1 / 9 * math.log(8 / 5))
    assert 1 < by_then < 1.004
    hours = hours_until_cured(FOAM, [ClimateReading(0, 20), ClimateReading(3.92 * 29 / 15, -9)])
    assert hours == pytest.approx(3.92 - (by_then - 1) * 8, abs=1e-3)


def test_a_product_that_sets_just_before_dry_air_leaves_the_table_has_set() -> None:
    """From 80 to 20 % in 47.1 hours: 40 % at hour 31.4, and 1.0025 of the cure by then."""
    by_then = 31.4 / 16 * math.log(40 / 24)
    assert 1 < by_then < 1.004
    hours = hours_until_cured(ADHESIVE, [ClimateReading(0, 20, 80), ClimateReading(47.1, 20, 20)])
    assert hours == pytest.approx(31.4 - (by_then - 1) * 40, abs=1e-2)


def test_the_edge_of_the_table_may_be_touched() -> None:
    edge = [ClimateReading(0, 20), ClimateReading(3.3, 5), ClimateReading(6.7, 5), ClimateReading(9.1, 20)]
    assert 3 < hours_until_cured(FOAM, edge) < 9


def test_no_reading_or_two_at_one_moment_are_refused() -> None:
    with pytest.raises(ValueError, match="At least one"):
        hours_until_cured(FOAM, [])
    with pytest.raises(ValueError, match="share the moment"):
        hours_until_cured(FOAM, [ClimateReading(1, 10), ClimateReading(1, 12)])


def test_in_air_of_one_warmth_the_driest_and_the_dampest_bound_the_hours() -> None:
    assert ADHESIVE.least_hours((20, 20), (40, 80)) == ADHESIVE.hours_needed(20, 80) == 24
    assert ADHESIVE.most_hours((20, 20), (40, 80)) == ADHESIVE.hours_needed(20, 40) == 40
    assert ADHESIVE.least_hours((20, 20), (40, 40)) == 40
