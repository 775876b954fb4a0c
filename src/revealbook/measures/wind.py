"""Wind suction on one opening, after EN 1991-1-4 with its recommended values, from the site's exposure.

Indicative only: a wind load defers to the national annex, local codes and a licensed engineer.
"""

from collections.abc import Iterator
from functools import cache
from typing import Literal, NamedTuple

from revealbook.measures.physics.pressure_coefficients import INTERNAL_OVERPRESSURE, worst_pressures_pa
from revealbook.measures.physics.wind import NationalParameters, peak_velocity_pressure_pa, terrain
from revealbook.measures.physics.wind_class import class_asked, class_pressure_pa
from revealbook.measures.physics.wind_zones import Wall, worst_side_zone
from revealbook.measures.reading import Detail, Missing, Outcome, Path, Reading
from revealbook.measures.work import Work, lacking
from revealbook.records.site import Building

BUILDING: Path = ("opening", "building")
CLASS: Path = ("window", "wind_class")
HEIGHT: Path = ("window", "height_mm")
FIXING_AREA_M2 = 1.0
"""Fixings take cpe,1, the coefficient of loaded areas up to 1 m2 (EN 1991-1-4 7.2.1 note, from memory)."""
_STANDARD_DENSITY_KG_M3 = 1.25
"""Recommended by EN 1991-1-4 4.5 note 2; the site file says that it holds where nothing is stated."""


READ_TO_M = 0.2
"""A distance of an opening in the middle of its wall may be read this much too long."""


class Suction(NamedTuple):
    """The worst suction of an opening in Pa, without sign, what stands behind it, and the worst pressure."""

    suction_pa: float
    zone: Literal["A", "B", "C"]
    peak_pa: float
    pressure_pa: float


class Place(NamedTuple):
    """All that the suction depends on, in m, m/s and kg/m3; the same for many openings of a site."""

    velocity_m_s: float
    terrain: str
    density_kg_m3: float
    building: tuple[float, float, float]
    from_corner_m: float
    width_m: float


@cache
def worst_suction(place: Place, area_m2: float = FIXING_AREA_M2) -> Suction:
    """Return the worst suction on a loaded area, the wind coming from any side.

    The record does not say whether the opening is in the longer or the shorter wall of its building: the
    worse of both counts, unless one is too short for the distance to be that to its nearest corner. The
    reference height is the building's.

    Raises:
        ValueError: a size beyond the method, or an opening that fits into no wall of its building.
    """
    width_m, depth_m, height_m = place.building
    national = NationalParameters(air_density_kg_m3=place.density_kg_m3)
    peak_pa = peak_velocity_pressure_pa(place.velocity_m_s, height_m, terrain(place.terrain), national)
    found = []
    for wall in (Wall(width_m, depth_m, height_m), Wall(depth_m, width_m, height_m)):
        if 2 * place.from_corner_m + place.width_m > wall.length_m + READ_TO_M:
            continue
        zone = worst_side_zone(wall, place.from_corner_m, place.width_m)
        worst = worst_pressures_pa(peak_pa, zone, height_m / wall.depth_m, area_m2)
        found.append(Suction(-worst.suction_pa, zone, peak_pa, worst.pressure_pa))
    if not found:
        raise ValueError("The opening fits into no wall of its building.")
    return max(found)


def suction(work: Work) -> Reading | tuple[Missing, ...]:
    """Worst characteristic suction on the opening in Pa, without sign; or all that is missing for it."""
    worst = _worst(work, FIXING_AREA_M2)
    if not isinstance(worst, Suction):
        return worst
    details = (
        Detail("zone", worst.zone, "-"),
        Detail("peak_velocity_pressure_pa", worst.peak_pa, "Pa"),
        Detail("internal_coefficient", INTERNAL_OVERPRESSURE, "-"),
    )
    return Reading((), worst.suction_pa, ("opening", "distance_from_corner_m"), None, details)


def _worst(work: Work, area_m2: float) -> Suction | tuple[Missing, ...]:
    """Worst suction on an area of the opening; or all that is missing for it."""
    building = _building(work)
    missing = (*_site_lacks(work, building), *_record_lacks(work))
    if missing:
        return missing
    place = _place(work, building)
    above, height_path = work.look("opening", "height_above_ground_m"), ("opening", "height_above_ground_m")
    if above is not None and above > place.building[2]:
        return (
            Missing(
                (), "above_its_building", height_path, (Detail("building_height_m", place.building[2], "m"),)
            ),
        )
    try:
        return worst_suction(place, area_m2)
    except ValueError:
        return (Missing((), "wind_beyond_method", BUILDING),)


def wind_suction(work: Work) -> Iterator[Outcome]:
    """Worst characteristic wind suction on the opening, Pa, without sign."""
    found = suction(work)
    yield from (found,) if isinstance(found, Reading) else found


def wind_class_reserve(work: Work) -> Iterator[Outcome]:
    """By how many Pa the test pressure of the declared class exceeds the greatest wind on the window."""
    missing = lacking(work, (), CLASS, HEIGHT)
    width, height = work.look("window", "width_mm"), work.look(*HEIGHT)
    area_m2 = width * height / 1e6 if width and height else FIXING_AREA_M2
    worst = _worst(work, area_m2)
    if missing or not isinstance(worst, Suction):
        yield from (*missing, *(() if isinstance(worst, Suction) else worst))
        return
    declared, wind_pa = work.look(*CLASS), max(worst.suction_pa, worst.pressure_pa)
    tested_pa = class_pressure_pa(declared)
    details = (
        Detail("wind_class", declared, "-", CLASS),
        Detail("class_pressure_pa", tested_pa, "Pa"),
        Detail("wind_pa", wind_pa, "Pa"),
        Detail("wind_class_asked", class_asked(wind_pa), "-"),
        Detail("zone", worst.zone, "-"),
    )
    yield Reading((), tested_pa - wind_pa, CLASS, None, details)


def _building(work: Work) -> Building | None:
    name = work.look(*BUILDING)
    return next((building for building in work.around.site.buildings if building.name == name), None)


def _site_lacks(work: Work, building: Building | None) -> Iterator[Missing]:
    exposure = work.around.site.exposure
    for key in ("basic_wind_velocity_m_s", "terrain"):
        if getattr(exposure, key, None) is None:
            yield Missing((), key, ("opening",))
    if building is None:
        yield Missing((), "building" if work.look(*BUILDING) is None else "building_sizes", BUILDING)
        return
    for key in ("width_m", "depth_m", "height_m"):
        if getattr(building, key) is None:
            yield Missing((), f"building_{key}", BUILDING)


def _record_lacks(work: Work) -> tuple[Missing, ...]:
    return lacking(work, (), ("opening", "distance_from_corner_m"), ("window", "width_mm"))


def _place(work: Work, building: Building | None) -> Place:
    exposure = work.around.site.exposure
    density = getattr(exposure, "air_density_kg_m3", None)
    return Place(
        getattr(exposure, "basic_wind_velocity_m_s"),  # noqa: B009 - `_site_lacks` has seen that it is there
        getattr(exposure, "terrain"),  # noqa: B009
        _STANDARD_DENSITY_KG_M3 if density is None else density,
        (building.width_m, building.depth_m, building.height_m),  # type: ignore[union-attr, arg-type]
        work.look("opening", "distance_from_corner_m"),
        work.look("window", "width_mm") / 1000,
    )
