import math

import pytest

from revealbook.measures.physics.wind import (
    NationalParameters,
    Terrain,
    basic_velocity_m_s,
    basic_velocity_pressure_pa,
    exposure_factor,
    peak_velocity_pressure_pa,
    probability_factor,
    roughness_factor,
    terrain,
    terrain_factor,
    turbulence_intensity,
)

OPEN_LAND = terrain("II")
SUBURB = terrain("III")


def test_the_worked_example_of_the_docs() -> None:
    """docs/calculations/wind.md: vb,0 25 m/s, terrain II, 10 m."""
    assert terrain_factor(OPEN_LAND) == pytest.approx(0.19)
    assert roughness_factor(10, OPEN_LAND) == pytest.approx(1.0067, abs=5e-5)
    assert turbulence_intensity(10, OPEN_LAND) == pytest.approx(0.1887, abs=5e-5)
    assert basic_velocity_pressure_pa(25) == pytest.approx(390.625)
    assert exposure_factor(10, OPEN_LAND) == pytest.approx(2.3523, abs=5e-5)
    assert peak_velocity_pressure_pa(25, 10, OPEN_LAND) == pytest.approx(918.86, abs=5e-3)


@pytest.mark.parametrize("quantity", [roughness_factor, turbulence_intensity, exposure_factor])
def test_below_zmin_the_wind_is_that_at_zmin(quantity: object) -> None:
    assert callable(quantity)
    assert quantity(0, SUBURB) == quantity(5, SUBURB)
    assert quantity(4.9, SUBURB) == quantity(5, SUBURB)
    assert quantity(5.1, SUBURB) != quantity(5, SUBURB)


def test_fifty_years_need_no_probability_factor() -> None:
    assert probability_factor(50) == pytest.approx(1)


def test_national_factors_scale_the_basic_velocity() -> None:
    national = NationalParameters(direction_factor=0.9, season_factor=0.8, probability_factor=1.1)
    assert basic_velocity_m_s(25, national) == pytest.approx(25 * 0.9 * 0.8 * 1.1)
    assert peak_velocity_pressure_pa(25, 10, OPEN_LAND, national) == pytest.approx(
        peak_velocity_pressure_pa(25, 10, OPEN_LAND) * (0.9 * 0.8 * 1.1) ** 2
    )


def test_air_density_scales_the_pressure_but_not_the_velocity() -> None:
    thin = NationalParameters(air_density_kg_m3=1.0)
    assert peak_velocity_pressure_pa(25, 10, OPEN_LAND, thin) == pytest.approx(918.863 / 1.25, abs=1e-3)


def test_a_national_terrain_factor_replaces_the_formula() -> None:
    national = NationalParameters(terrain_factor=0.18)
    assert terrain_factor(terrain("0"), national) == 0.18
    assert roughness_factor(10, terrain("0"), national) == pytest.approx(0.18 * math.log(10 / 0.003))


def test_a_hill_calms_the_turbulence() -> None:
    hill = NationalParameters(orography_factor=1.2)
    assert turbulence_intensity(10, OPEN_LAND, hill) == pytest.approx(
        turbulence_intensity(10, OPEN_LAND) / 1.2
    )
    assert exposure_factor(10, OPEN_LAND, hill) > exposure_factor(10, OPEN_LAND)


def test_the_turbulence_factor_acts_on_gusts_only() -> None:
    calm = NationalParameters(turbulence_factor=0.5)
    assert turbulence_intensity(10, OPEN_LAND, calm) == pytest.approx(turbulence_intensity(10, OPEN_LAND) / 2)
    assert roughness_factor(10, OPEN_LAND, calm) == roughness_factor(10, OPEN_LAND)


def test_a_terrain_of_a_national_annex_can_be_given() -> None:
    own = Terrain("mixed", 0.1, 3)
    assert roughness_factor(3, own) == pytest.approx(0.19 * 2**0.07 * math.log(30))
    assert own.source == "as given by the user"
    assert OPEN_LAND.source == "EN 1991-1-4:2005 table 4.1"


def test_calm_air_has_no_pressure() -> None:
    assert peak_velocity_pressure_pa(0, 10, OPEN_LAND) == 0


@pytest.mark.parametrize("height_m", [-0.1, 200.1, math.nan, math.inf])
def test_heights_outside_the_profile_are_refused(height_m: float) -> None:
    with pytest.raises(ValueError, match="height_m must"):
        peak_velocity_pressure_pa(25, height_m, OPEN_LAND)


def test_the_profile_reaches_to_200_m() -> None:
    assert peak_velocity_pressure_pa(25, 200, OPEN_LAND) > peak_velocity_pressure_pa(25, 199, OPEN_LAND)


@pytest.mark.parametrize("velocity_m_s", [-1, math.nan])
def test_an_impossible_velocity_is_refused(velocity_m_s: float) -> None:
    with pytest.raises(ValueError, match="fundamental_velocity_m_s must"):
        peak_velocity_pressure_pa(velocity_m_s, 10, OPEN_LAND)


def test_an_unknown_terrain_is_refused() -> None:
    with pytest.raises(ValueError, match="no category '2'"):
        terrain("2")


@pytest.mark.parametrize(("z0_m", "zmin_m"), [(0, 1), (-1, 1), (1, 0.5), (1, 1), (math.nan, 1)])
def test_an_impossible_terrain_is_refused(z0_m: float, zmin_m: float) -> None:
    with pytest.raises(ValueError, match="must be"):
        Terrain("own", z0_m, zmin_m)


@pytest.mark.parametrize(
    "field",
    [
        "air_density_kg_m3",
        "turbulence_factor",
        "orography_factor",
        "direction_factor",
        "season_factor",
        "probability_factor",
        "terrain_factor",
    ],
)
def test_an_impossible_national_parameter_is_refused(field: str) -> None:
    with pytest.raises(ValueError, match=f"{field} must be above zero"):
        NationalParameters(**{field: 0.0})


@pytest.mark.parametrize("years", [1, 0.5, 0, math.nan])
def test_a_return_period_of_a_year_or_less_is_refused(years: float) -> None:
    with pytest.raises(ValueError, match="return_period_years must"):
        probability_factor(years)


def test_a_return_period_too_short_for_the_formula_is_refused() -> None:
    with pytest.raises(ValueError, match="probability_ratio must be above zero"):
        probability_factor(1.0001, shape=0.5)


@pytest.mark.parametrize(("years", "factor"), [(10, 0.90248), (25, 0.95968), (100, 1.03848)])
def test_a_longer_return_period_asks_for_more_wind(years: float, factor: float) -> None:
    """Recomputed with the formula of 4.2, K = 0.2 and n = 0.5, apart from this program."""
    assert probability_factor(years) == pytest.approx(factor, abs=1e-5)
