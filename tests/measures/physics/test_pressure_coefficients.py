import pytest

from revealbook.measures.physics.pressure_coefficients import (
    external_coefficient,
    net_pressure_pa,
    wall_coefficients,
    worst_pressures_pa,
)
from revealbook.measures.physics.wind_zones import Wall, Zone, worst_side_zone


def test_the_worked_example_of_the_docs() -> None:
    """docs/calculations/wind.md: a window of 1.23 x 1.48 m by the corner of a 10 x 10 x 10 m house."""
    zone = worst_side_zone(Wall(10, 10, 10), from_left_m=1.5, width_m=1.23)
    worst = worst_pressures_pa(918.863, zone, 1.0, 1.23 * 1.48)
    assert zone == "A"
    assert worst.suction_cpe == pytest.approx(-1.34797, abs=5e-6)
    assert worst.suction_pa == pytest.approx(-1422.37, abs=5e-3)
    assert worst.suction_pa * 1.8204 == pytest.approx(-2589.28, abs=5e-3)
    assert worst.pressure_pa == pytest.approx(1146.71, abs=5e-3)


@pytest.mark.parametrize(("zone", "small", "large"), [("A", -1.4, -1.2), ("B", -1.1, -0.8), ("D", 1.0, 0.8)])
def test_small_windows_feel_peaks_that_large_walls_average_out(
    zone: Zone, small: float, large: float
) -> None:
    assert external_coefficient(zone, 1, 0.3) == external_coefficient(zone, 1, 1) == small
    assert external_coefficient(zone, 1, 10) == external_coefficient(zone, 1, 40) == large
    half_way = external_coefficient(zone, 1, 10**0.5)
    assert half_way == pytest.approx((small + large) / 2)


def test_coefficients_run_straight_between_the_rows_of_the_table() -> None:
    assert wall_coefficients("D", 0.625).cpe_10 == pytest.approx(0.75)
    assert wall_coefficients("E", 3).cpe_10 == pytest.approx(-0.6)


def test_below_a_quarter_the_last_row_holds() -> None:
    assert wall_coefficients("D", 0.1) == wall_coefficients("D", 0.25) == (0.7, 1.0)
    assert wall_coefficients("E", 0.01) == (-0.3, -0.3)


def test_the_rows_themselves_are_met() -> None:
    assert wall_coefficients("E", 1) == (-0.5, -0.5)
    assert wall_coefficients("E", 5) == (-0.7, -0.7)


def test_inner_pressure_is_set_against_the_outer_one() -> None:
    assert net_pressure_pa(1000, -1.2, 0.2) == pytest.approx(-1400)
    assert net_pressure_pa(1000, 0.8, -0.3) == pytest.approx(1100)
    assert net_pressure_pa(1000, 0.5, 0.5) == 0


def test_the_leeward_wall_can_suck_harder_than_the_middle_of_a_side_wall() -> None:
    slender = worst_pressures_pa(1000, "C", 5, 10)
    assert slender.suction_cpe == pytest.approx(-0.7)
    low = worst_pressures_pa(1000, "C", 0.25, 10)
    assert low.suction_cpe == pytest.approx(-0.5)


def test_a_tight_building_may_state_its_own_inner_pressure() -> None:
    worst = worst_pressures_pa(1000, "B", 1, 10, internal_overpressure=0, internal_underpressure=0)
    assert (worst.suction_pa, worst.pressure_pa) == pytest.approx((-800, 800))


@pytest.mark.parametrize("height_to_depth", [0, -1, 5.01, float("nan")])
def test_a_slenderness_outside_the_table_is_refused(height_to_depth: float) -> None:
    with pytest.raises(ValueError, match="height_to_depth must"):
        external_coefficient("A", height_to_depth, 2)


def test_other_nonsense_is_refused() -> None:
    with pytest.raises(ValueError, match="zone must be A, B, C, D or E, not 'F'"):
        external_coefficient("F", 1, 2)  # type: ignore[arg-type]
    with pytest.raises(ValueError, match="area_m2 must be above zero"):
        external_coefficient("A", 1, 0)
    with pytest.raises(ValueError, match="peak_pressure_pa must not be below zero"):
        net_pressure_pa(-1, 0.8, -0.3)
    with pytest.raises(ValueError, match="cpi must be a finite number"):
        net_pressure_pa(1, 0.8, float("nan"))
