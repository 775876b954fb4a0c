import pytest

from revealbook.measures.physics.wind_zones import SideZones, Wall, side_zones, worst_side_zone, zone_at

LONG_WALL = side_zones(crosswind_m=12, along_m=30, height_m=6)


def test_a_wall_longer_than_e_has_three_zones() -> None:
    assert side_zones(12, 30, 6) == pytest.approx(SideZones(12, 2.4, 9.6, 18))


def test_a_wall_shorter_than_e_has_no_zone_c() -> None:
    assert side_zones(20, 12, 10) == pytest.approx(SideZones(20, 4, 8, 0))


def test_a_very_short_wall_is_all_zone_a() -> None:
    assert side_zones(100, 4, 10) == SideZones(20, 4, 0, 0)
    assert side_zones(100, 3.8, 10) == SideZones(20, 3.8, 0, 0)
    assert side_zones(100, 3, 10) == SideZones(20, 3, 0, 0)


def test_a_tower_takes_e_from_its_breadth_a_slab_from_its_height() -> None:
    assert side_zones(10, 30, 100).e_m == 10
    assert side_zones(100, 30, 5).e_m == 10


@pytest.mark.parametrize(
    ("distance_m", "zone"), [(0, "A"), (2.39, "A"), (2.4, "B"), (11.99, "B"), (12, "C"), (30, "C")]
)
def test_a_zone_begins_where_the_one_before_ends(distance_m: float, zone: str) -> None:
    assert zone_at(distance_m, LONG_WALL) == zone


def test_the_far_end_of_a_wall_belongs_to_its_last_zone() -> None:
    assert zone_at(12, side_zones(20, 12, 10)) == "B"
    assert zone_at(3, side_zones(100, 3, 10)) == "A"


@pytest.mark.parametrize("distance_m", [-0.1, 30.1])
def test_a_distance_beyond_the_wall_is_refused(distance_m: float) -> None:
    with pytest.raises(ValueError, match="distance_m must lie between 0 and"):
        zone_at(distance_m, LONG_WALL)


def test_an_opening_takes_the_zone_of_its_edge_nearest_a_corner() -> None:
    wall = Wall(length_m=30, depth_m=12, height_m=6)
    assert worst_side_zone(wall, 2.3, 5) == "A"
    assert worst_side_zone(wall, 2.5, 1.2) == "B"
    assert worst_side_zone(wall, 14, 1.2) == "C"


def test_the_wind_may_come_from_the_right_as_well() -> None:
    wall = Wall(length_m=30, depth_m=12, height_m=6)
    assert worst_side_zone(wall, 27.5, 1.2) == "A"
    assert worst_side_zone(wall, 20, 1.2) == "B"


def test_the_zones_of_a_wall_follow_the_depth_behind_it() -> None:
    assert worst_side_zone(Wall(30, 12, 6), 2.5, 1) == "B"
    assert worst_side_zone(Wall(30, 12, 20), 2.5, 1) == "B"
    assert worst_side_zone(Wall(30, 20, 20), 2.5, 1) == "A"


def test_an_opening_may_end_at_the_very_corner() -> None:
    assert 10 - 8.77 - 1.23 != 0
    assert worst_side_zone(Wall(10, 10, 6), 8.77, 1.23) == "A"
    assert 10 - 9.9 - 0.1 < 0
    assert worst_side_zone(Wall(10, 10, 6), 9.9, 0.1) == "A"


def test_an_opening_that_reaches_beyond_the_wall_is_refused() -> None:
    with pytest.raises(ValueError, match=r"ends 0\.5 m beyond the wall's right corner"):
        worst_side_zone(Wall(10, 10, 6), 9, 1.5)
    with pytest.raises(ValueError, match="from_left_m must not be below zero"):
        worst_side_zone(Wall(10, 10, 6), -0.1, 1.5)
    with pytest.raises(ValueError, match="width_m must be above zero"):
        worst_side_zone(Wall(10, 10, 6), 1, 0)


@pytest.mark.parametrize("sizes", [(0, 10, 6), (10, 0, 6), (10, 10, 0)])
def test_a_building_without_size_is_refused(sizes: tuple[float, float, float]) -> None:
    with pytest.raises(ValueError, match="must be above zero"):
        Wall(*sizes)
    with pytest.raises(ValueError, match="must be above zero"):
        side_zones(*sizes)
