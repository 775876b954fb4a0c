import pytest
from hypothesis import given
from hypothesis import strategies as st

from revealbook.measures.physics.pressure_coefficients import (
    external_coefficient,
    wall_coefficients,
    worst_pressures_pa,
)
from revealbook.measures.physics.wind import (
    NationalParameters,
    exposure_factor,
    peak_velocity_pressure_pa,
    probability_factor,
    terrain,
)
from revealbook.measures.physics.wind_zones import Wall, Zone, side_zones, worst_side_zone, zone_at

categories = st.sampled_from(["0", "I", "II", "III", "IV"])
heights = st.floats(0, 200)
velocities = st.floats(1, 60)
lengths = st.floats(1, 200)
zones = st.sampled_from(["A", "B", "C", "D", "E"])
areas = st.floats(0.01, 100)
slenderness = st.floats(0.01, 5)


@given(categories, velocities, heights, heights)
def test_peak_pressure_never_falls_with_height(
    category: str, velocity_m_s: float, one_m: float, other_m: float
) -> None:
    low_m, high_m = sorted((one_m, other_m))
    ground = terrain(category)
    low_pa = peak_velocity_pressure_pa(velocity_m_s, low_m, ground)
    assert low_pa <= peak_velocity_pressure_pa(velocity_m_s, high_m, ground) * (1 + 1e-12)


@given(categories, velocities, heights, st.floats(0.1, 10))
def test_peak_pressure_grows_with_the_square_of_the_velocity(
    category: str, velocity_m_s: float, height_m: float, factor: float
) -> None:
    once = peak_velocity_pressure_pa(velocity_m_s, height_m, terrain(category))
    scaled = peak_velocity_pressure_pa(velocity_m_s * factor, height_m, terrain(category))
    assert scaled == pytest.approx(factor**2 * once)


@given(heights)
def test_rougher_ground_shelters(height_m: float) -> None:
    exposures = [exposure_factor(height_m, terrain(category)) for category in ("0", "I", "II", "III", "IV")]
    assert exposures == sorted(exposures, reverse=True)


@given(st.floats(2, 5000), st.floats(2, 5000))
def test_rarer_winds_are_stronger(one: float, other: float) -> None:
    shorter, longer = sorted((one, other))
    assert probability_factor(shorter) <= probability_factor(longer)


@given(categories, heights, st.floats(1, 1.6))
def test_a_hill_never_shelters(category: str, height_m: float, orography: float) -> None:
    hill = NationalParameters(orography_factor=orography)
    ground = terrain(category)
    assert exposure_factor(height_m, ground, hill) >= exposure_factor(height_m, ground) * (1 - 1e-12)


@given(lengths, lengths, lengths)
def test_side_zones_fill_the_wall(crosswind_m: float, along_m: float, height_m: float) -> None:
    found = side_zones(crosswind_m, along_m, height_m)
    assert found.a_m + found.b_m + found.c_m == pytest.approx(along_m)
    assert min(found[1:]) >= 0
    assert found.a_m <= found.e_m / 5 + 1e-9


@given(lengths, lengths, lengths, st.floats(0.01, 100))
def test_side_zones_scale_with_the_building(
    crosswind_m: float, along_m: float, height_m: float, factor: float
) -> None:
    small = side_zones(crosswind_m, along_m, height_m)
    large = side_zones(crosswind_m * factor, along_m * factor, height_m * factor)
    assert large == pytest.approx([factor * part for part in small], abs=1e-6)


@given(lengths, lengths, lengths, st.floats(0, 0.99), st.floats(0, 0.99))
def test_suction_never_grows_away_from_the_corner(
    crosswind_m: float, along_m: float, height_m: float, one: float, other: float
) -> None:
    near, far = sorted((one * along_m, other * along_m))
    found = side_zones(crosswind_m, along_m, height_m)
    assert zone_at(near, found) <= zone_at(far, found)


@given(lengths, lengths, st.integers(0, 99), st.integers(1, 50), st.integers(0, 99))
def test_left_and_right_are_alike(
    depth_m: float, height_m: float, left_m: int, width_m: int, right_m: int
) -> None:
    wall = Wall(left_m + width_m + right_m, depth_m, height_m)
    assert worst_side_zone(wall, left_m, width_m) == worst_side_zone(wall, right_m, width_m)


@given(zones, slenderness, areas, areas)
def test_a_coefficient_never_grows_in_size_with_the_area(
    zone: Zone, height_to_depth: float, one_m2: float, other_m2: float
) -> None:
    small_m2, large_m2 = sorted((one_m2, other_m2))
    small = external_coefficient(zone, height_to_depth, small_m2)
    large = external_coefficient(zone, height_to_depth, large_m2)
    assert abs(large) <= abs(small) + 1e-12
    assert large * small > 0


@given(zones, slenderness, areas)
def test_a_coefficient_lies_between_its_printed_ends(
    zone: Zone, height_to_depth: float, area_m2: float
) -> None:
    ends = sorted(wall_coefficients(zone, height_to_depth))
    assert ends[0] - 1e-12 <= external_coefficient(zone, height_to_depth, area_m2) <= ends[1] + 1e-12


@given(slenderness, slenderness)
def test_slender_buildings_feel_no_less(one: float, other: float) -> None:
    squat, slender = sorted((one, other))
    for zone in ("D", "E"):
        assert abs(wall_coefficients(zone, squat).cpe_10) <= (
            abs(wall_coefficients(zone, slender).cpe_10) + 1e-12
        )


@given(st.floats(1, 3000), st.sampled_from(["A", "B", "C"]), slenderness, areas)
def test_a_window_is_sucked_and_pressed(
    peak_pa: float, zone: Zone, height_to_depth: float, area_m2: float
) -> None:
    worst = worst_pressures_pa(peak_pa, zone, height_to_depth, area_m2)
    assert worst.suction_pa < 0 < worst.pressure_pa
    assert -worst.suction_pa <= 1.6 * peak_pa * (1 + 1e-12)
    assert worst.pressure_pa <= 1.3 * peak_pa * (1 + 1e-12)
