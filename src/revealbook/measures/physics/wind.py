"""Peak velocity pressure of the wind at a height, after EN 1991-1-4:2005+A1:2010 clauses 4.2 to 4.5.

Formulas and the terrain table: published (secondary source). Every number that the standard leaves to
the national annex stands in `NationalParameters`, with the recommended value as its default; a national
annex may replace the profile itself (the German one does), and then these functions do not apply.

Indicative only: a wind load defers to the national annex, local codes and a licensed engineer.
"""

import math
from dataclasses import dataclass

from revealbook.measures.physics.plausibility import require_between, require_not_negative, require_positive
from revealbook.measures.physics.published_table import row

REFERENCE_ROUGHNESS_M = 0.05
"""Roughness length of terrain II, to which the terrain factor refers (4.3.2)."""
GREATEST_HEIGHT_M = 200.0
"""Height up to which the logarithmic profile holds (4.3.2)."""


@dataclass(frozen=True, slots=True)
class Terrain:
    """A terrain: its roughness length and the height below which the wind is taken as constant, both in m.

    Raises:
        ValueError: a length is not above zero, or zmin is not above z0 (the logarithm would not be positive).
    """

    category: str
    z0_m: float
    zmin_m: float
    source: str = "as given by the user"

    def __post_init__(self) -> None:
        require_positive(z0_m=self.z0_m, zmin_m=self.zmin_m)
        if self.zmin_m <= self.z0_m:
            raise ValueError(f"zmin_m must be above z0_m, but {self.zmin_m} is not above {self.z0_m}")


@dataclass(frozen=True, slots=True)
class NationalParameters:
    """What a national annex may set; the defaults are the values that EN 1991-1-4 recommends.

    `terrain_factor` replaces kr where an annex gives it as a number instead of the formula.
    `probability_factor` is 1 for the usual return period of 50 years.
    """

    air_density_kg_m3: float = 1.25
    turbulence_factor: float = 1.0
    orography_factor: float = 1.0
    direction_factor: float = 1.0
    season_factor: float = 1.0
    probability_factor: float = 1.0
    terrain_factor: float | None = None

    def __post_init__(self) -> None:
        require_positive(
            air_density_kg_m3=self.air_density_kg_m3,
            turbulence_factor=self.turbulence_factor,
            orography_factor=self.orography_factor,
            direction_factor=self.direction_factor,
            season_factor=self.season_factor,
            probability_factor=self.probability_factor,
        )
        if self.terrain_factor is not None:
            require_positive(terrain_factor=self.terrain_factor)


RECOMMENDED = NationalParameters()


def terrain(category: str) -> Terrain:
    """Return terrain 0, I, II, III or IV of EN 1991-1-4 table 4.1 (recommended values).

    Raises:
        ValueError: there is no such category.
    """
    found = row("wind_terrain", "category", category)
    return Terrain(category, float(found["z0_m"]), float(found["zmin_m"]), found["source"])


def probability_factor(return_period_years: float, *, shape: float = 0.2, exponent: float = 0.5) -> float:
    """Return cprob, which carries the 50-year wind velocity over to another return period (4.2).

    Args:
        return_period_years: above 1; the yearly probability of exceedance is its inverse.
        shape: K, recommended 0.2.
        exponent: n, recommended 0.5.

    Raises:
        ValueError: the return period is not above one year, or so short that the factor has no value.
    """
    require_positive(return_period_years=return_period_years, shape=shape, exponent=exponent)
    if return_period_years <= 1:
        raise ValueError(f"return_period_years must be above 1, not {return_period_years}")

    def gumbel(probability: float) -> float:
        return 1 - shape * math.log(-math.log(1 - probability))

    ratio = gumbel(1 / return_period_years) / gumbel(0.02)
    require_positive(probability_ratio=ratio)
    return math.pow(ratio, exponent)


def basic_velocity_m_s(fundamental_velocity_m_s: float, national: NationalParameters = RECOMMENDED) -> float:
    """Return vb = cdir cseason cprob vb,0 (4.2).

    Args:
        fundamental_velocity_m_s: vb,0 of the national wind map: mean over 10 min, 10 m above terrain
            II, exceeded once in 50 years; not below zero.
        national: the factors of the national annex.
    """
    require_not_negative(fundamental_velocity_m_s=fundamental_velocity_m_s)
    factors = national.direction_factor * national.season_factor * national.probability_factor
    return factors * fundamental_velocity_m_s


def basic_velocity_pressure_pa(
    fundamental_velocity_m_s: float, national: NationalParameters = RECOMMENDED
) -> float:
    """Return qb = rho vb^2 / 2 in Pa (4.5)."""
    return 0.5 * national.air_density_kg_m3 * basic_velocity_m_s(fundamental_velocity_m_s, national) ** 2


def terrain_factor(ground: Terrain, national: NationalParameters = RECOMMENDED) -> float:
    """Return kr = 0.19 (z0 / 0.05)^0.07, or the number the national annex gives instead (4.3.2)."""
    if national.terrain_factor is not None:
        return national.terrain_factor
    return 0.19 * math.pow(ground.z0_m / REFERENCE_ROUGHNESS_M, 0.07)


def _log_of_height(height_m: float, ground: Terrain) -> float:
    """Return ln(z / z0) with z not below zmin: the one clamp, which both cr and Iv need (4.3.2, 4.4)."""
    require_between(0, GREATEST_HEIGHT_M, height_m=height_m)
    return math.log(max(height_m, ground.zmin_m) / ground.z0_m)


def roughness_factor(height_m: float, ground: Terrain, national: NationalParameters = RECOMMENDED) -> float:
    """Return cr(z) = kr ln(z / z0), constant below zmin (4.3.2).

    Args:
        height_m: height above ground, 0 to 200.
        ground: the terrain.
        national: the parameters of the national annex.
    """
    return terrain_factor(ground, national) * _log_of_height(height_m, ground)


def turbulence_intensity(
    height_m: float, ground: Terrain, national: NationalParameters = RECOMMENDED
) -> float:
    """Return Iv(z) = kI / (co ln(z / z0)), constant below zmin (4.4)."""
    return national.turbulence_factor / (national.orography_factor * _log_of_height(height_m, ground))


def exposure_factor(height_m: float, ground: Terrain, national: NationalParameters = RECOMMENDED) -> float:
    """Return ce(z) = qp(z) / qb = (1 + 7 Iv) (cr co)^2 (4.5)."""
    profile = roughness_factor(height_m, ground, national) * national.orography_factor
    return (1 + 7 * turbulence_intensity(height_m, ground, national)) * profile**2


def peak_velocity_pressure_pa(
    fundamental_velocity_m_s: float,
    height_m: float,
    ground: Terrain,
    national: NationalParameters = RECOMMENDED,
) -> float:
    """Return qp(z) = (1 + 7 Iv) rho vm^2 / 2 in Pa (4.5, expression 4.8).

    Args:
        fundamental_velocity_m_s: vb,0 from the national wind map, not below zero.
        height_m: reference height ze, 0 to 200. For side and leeward walls it is the building's height;
            taking that for the windward wall too is on the safe side (7.2.2).
        ground: the terrain.
        national: the parameters of the national annex.

    Raises:
        ValueError: a height or velocity outside its range.
    """
    basic = basic_velocity_pressure_pa(fundamental_velocity_m_s, national)
    return basic * exposure_factor(height_m, ground, national)
