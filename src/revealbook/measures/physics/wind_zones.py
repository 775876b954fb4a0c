"""Zones of suction along a wall that the wind passes sideways, after EN 1991-1-4:2005 figure 7.5.

Source of the zone lengths: published (secondary source). Rectangular plan only. Lengths in m.
Indicative only: a wind load defers to the national annex, local codes and a licensed engineer.
"""

from dataclasses import dataclass
from typing import Literal, NamedTuple

from revealbook.measures.physics.plausibility import require_between, require_not_negative, require_positive

Zone = Literal["A", "B", "C", "D", "E"]
"""A, B, C: side wall from the windward corner on; D: windward wall; E: leeward wall."""
ROUNDING_SLACK_M = 1e-9
"""An opening may end this far beyond the wall by binary rounding of its sizes."""


class SideZones(NamedTuple):
    """Lengths of zones A, B, C along a side wall from the windward corner, and the e they come from, in m."""

    e_m: float
    a_m: float
    b_m: float
    c_m: float


@dataclass(frozen=True, slots=True)
class Wall:
    """A wall of a building with rectangular plan: its length, the depth behind it, its height, in m.

    Raises:
        ValueError: a size is not above zero.
    """

    length_m: float
    depth_m: float
    height_m: float

    def __post_init__(self) -> None:
        require_positive(length_m=self.length_m, depth_m=self.depth_m, height_m=self.height_m)


def side_zones(crosswind_m: float, along_m: float, height_m: float) -> SideZones:
    """Return the zones of a side wall for wind that blows along it.

    e is the smaller of b and 2 h. Where e < d the zones are A e/5, B 4e/5, C d - e; from e = d on A e/5 and
    B d - e/5; from e = 5 d on the whole wall is A.

    Args:
        crosswind_m: b, the building's breadth across the wind, above zero.
        along_m: d, the length of the side wall, above zero.
        height_m: h, the building's height, above zero.
    """
    require_positive(crosswind_m=crosswind_m, along_m=along_m, height_m=height_m)
    e_m = min(crosswind_m, 2 * height_m)
    if e_m >= 5 * along_m:
        return SideZones(e_m, along_m, 0.0, 0.0)
    if e_m >= along_m:
        return SideZones(e_m, e_m / 5, along_m - e_m / 5, 0.0)
    return SideZones(e_m, e_m / 5, 4 * e_m / 5, along_m - e_m)


def zone_at(distance_m: float, zones: SideZones) -> Literal["A", "B", "C"]:
    """Return the zone that begins at or covers a distance from the windward corner.

    An opening takes the zone of its edge nearest to the corner, for suction falls away from the corner.

    Args:
        distance_m: from the corner, between zero and the wall's length.
        zones: the zones of the wall.

    Raises:
        ValueError: the distance lies beyond the wall.
    """
    require_between(0, zones.a_m + zones.b_m + zones.c_m, distance_m=distance_m)
    if distance_m < zones.a_m or zones.b_m == 0:
        return "A"
    if distance_m < zones.a_m + zones.b_m or zones.c_m == 0:
        return "B"
    return "C"


def worst_side_zone(wall: Wall, from_left_m: float, width_m: float) -> Literal["A", "B", "C"]:
    """Return the zone of an opening when the wind may come along the wall from either side.

    Args:
        wall: the wall the opening is in.
        from_left_m: from the wall's left corner to the opening's left edge, not below zero.
        width_m: of the opening, above zero.

    Raises:
        ValueError: the opening reaches beyond the wall.
    """
    require_not_negative(from_left_m=from_left_m)
    require_positive(width_m=width_m)
    from_right_m = wall.length_m - from_left_m - width_m
    if from_right_m < -ROUNDING_SLACK_M:
        raise ValueError(f"the opening ends {-from_right_m:g} m beyond the wall's right corner")
    zones = side_zones(wall.depth_m, wall.length_m, wall.height_m)
    return zone_at(min(from_left_m, max(from_right_m, 0.0)), zones)
