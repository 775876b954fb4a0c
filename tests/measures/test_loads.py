from typing import Any

import pytest
from tests.builders import build, details, full_opening, full_site, reading, taken, value, values

from revealbook.measures.method import METHOD_OF_FORMAT_1, Method
from revealbook.measures.reading import Missing
from revealbook.measures.work import Work

G = 9.80665
FIRST = Method.model_validate(dict(METHOD_OF_FORMAT_1))


def full(changes: dict[str, Any] | None = None, method: Method | None = None, **window: Any) -> Work:
    opening, site = full_opening(), full_site()
    opening["window"] |= window
    for path, new in (changes or {}).items():
        *parts, last = path.split(".")
        held: Any = {"site": site} if parts[0] == "site" else opening
        for part in parts:
            held = held[int(part)] if part.isdigit() else held[part]
        if new is None:
            held.pop(int(last) if last.isdigit() else last)
        else:
            held[last] = new
    return build(opening, site, method)


def named(work: Work, measure: str) -> list[str]:
    return [one.what for one in taken(work, measure) if isinstance(one, Missing)]


def test_the_mass_is_held_against_that_of_the_glass() -> None:
    # 12 mm x 2.9 m2 x 2.5 kg/(m2 mm) = 87 kg
    found = reading(full(mass_kg=148), "mass_beyond_glass")
    assert found.value == pytest.approx(148 - 87)
    assert details(found) == {"mass_kg": 148, "glass_kg": pytest.approx(87)}
    assert value(full(mass_kg=80), "mass_beyond_glass") == pytest.approx(-7)


def test_what_lacks_for_the_mass_is_named() -> None:
    assert named(build(), "mass_beyond_glass") == ["mass_kg", "glass_panes_mm", "glass_area_m2"]
    assert named(full(glass_panes_mm=[]), "mass_beyond_glass") == ["glass_panes_mm"]


def test_the_moment_is_weight_times_distance_from_the_wall() -> None:
    # 120 mm as drawn, and 2 mm farther out at most
    assert value(full(mass_kg=100, centre_from_wall_mm=120), "eccentric_moment") == pytest.approx(
        100 * G * 0.122
    )
    assert named(build(), "eccentric_moment") == ["mass_kg", "centre_from_wall_mm", "out_of_place_mm"]


def test_the_first_edition_took_the_window_for_where_it_is_drawn() -> None:
    work = full(mass_kg=100, centre_from_wall_mm=120, method=FIRST)
    assert value(work, "eccentric_moment") == pytest.approx(100 * G * 0.12)


def test_supports_share_the_weight_by_the_lever_rule() -> None:
    # the window begins at 82 + 12 = 94 mm; two supports 500 mm inside its ends share it alike
    changes = {"supports.placed.2": None, "supports.placed.0.centre_mm": 594.0}
    changes |= {"supports.placed.1.centre_mm": 94.0 + 2376 - 500}
    half = 148 * G / 2
    assert values(full(changes), "support_load") == {
        ("support 1",): pytest.approx(half),
        ("support 2",): pytest.approx(half),
    }


def test_supports_are_named_as_recorded_whatever_their_order() -> None:
    swapped = {"supports.placed.0.centre_mm": 2260, "supports.placed.2.centre_mm": 310}
    straight, turned = values(full(), "support_load"), values(full(swapped), "support_load")
    assert turned["support 1",] == straight["support 3",]
    assert turned["support 3",] == straight["support 1",]


def test_a_support_that_is_lifted_bears_less_than_nothing() -> None:
    changes = {"supports.placed.2": None, "supports.placed.1.centre_mm": 1000}
    loads = values(full(changes), "support_load")
    assert loads["support 1",] < 0
    assert sum(loads.values()) == pytest.approx(148 * G)


def test_what_lacks_for_the_supports_is_named() -> None:
    assert named(build(), "support_load") == [
        "mass_kg",
        "width_mm",
        "overlap_left_mm",
        "start",
        "placed",
    ]
    assert named(full({"supports.placed.1.centre_mm": None}), "support_load") == ["centre_mm"]
    same = full({"supports.placed.1.centre_mm": 310})
    assert named(same, "support_load") == ["two_supports"]


def wind_on(strip_m: float, tributary_m: float) -> float:
    """Design wind on a fixing of the conforming opening: zone A, cpe,1 -1.4, cpi 0.2, qp 892.876 Pa, 1.5."""
    return 1.5 * 892.8756668 * 1.6 * strip_m * tributary_m


def test_the_worst_fixing_of_a_side_holds_its_share_of_the_strip() -> None:
    # left piece 1500 mm, fixings at 175, 750, 1325: the middle one holds 575 mm of a strip of 1436 / 2 mm
    assert values(full(), "fixing_tension")["left",] == pytest.approx(wind_on(0.718, 0.575))


def test_the_bottom_piece_bears_the_weight_as_well() -> None:
    # 6 fixings of the bottom piece and 3 x 2 of the supports; lever arm half of 80 mm; 90 + 2 mm out
    weight = 1.35 * 148 * G
    dead = weight * 0.092 / (12 * 0.04)
    tensions = values(full(), "fixing_tension")
    # positions 180, 720, 1260, 1530, 1960, 2390: the second holds (720 - 180 + 1260 - 720) / 2 = 540 mm
    assert tensions["bottom",] == pytest.approx(wind_on(0.718, 0.54) + dead)
    shears = values(full(), "fixing_shear")
    assert set(shears) == {("bottom",), ("support 1",), ("support 2",), ("support 3",)}
    assert shears["bottom",] == pytest.approx(weight / 12)


def test_a_support_bears_its_own_reaction_where_that_is_more_than_its_share() -> None:
    reactions = values(full(), "support_load")
    shears, tensions = values(full(), "fixing_shear"), values(full(), "fixing_tension")
    for support in (("support 1",), ("support 3",)):
        own = 1.35 * reactions[support] / 2
        assert shears[support] == pytest.approx(own)
        assert tensions[support] == pytest.approx(own * 0.092 / 0.04)


def test_an_inner_support_bears_what_a_stiff_sill_gives_it() -> None:
    # even supports under 2376 mm: 5/8 of the middle part, which a sill hinged over it would halve
    changes: dict[str, Any] = {"supports.placed.0.centre_mm": 94, "supports.placed.1.centre_mm": 1282}
    shears = values(full(changes | {"supports.placed.2.centre_mm": 2470}), "fixing_shear")
    assert shears["support 2",] == pytest.approx(1.35 * 148 * G * 5 / 8 / 2)
    assert shears["support 1",] == pytest.approx(1.35 * 148 * G / 4 / 2)


def test_a_support_that_is_lifted_still_bears_its_share() -> None:
    # supports at 310 and 1000 mm of a window from 94 to 2470 mm: the first is lifted, the second bears it all
    work = full({"supports.placed.2": None, "supports.placed.1.centre_mm": 1000})
    weight, shears = 1.35 * 148 * G, values(work, "fixing_shear")
    assert shears["support 1",] == pytest.approx(weight / 10)
    assert shears["support 2",] == pytest.approx(weight * (1282 - 310) / (1000 - 310) / 2)


def test_one_support_alone_bears_the_whole_weight() -> None:
    changes = {"supports.placed.0.fixed_to_wall": False, "supports.placed.1.gap_mm": 1}
    shears = values(full(changes), "fixing_shear")
    assert shears == {
        ("bottom",): pytest.approx(1.35 * 148 * G / 8),
        ("support 3",): pytest.approx(1.35 * 148 * G / 2),
    }


def test_a_method_may_share_the_weight_alike() -> None:
    alike = values(full(method=Method(weight_split="shared alike")), "fixing_shear")
    assert list(alike.values()) == [pytest.approx(1.35 * 148 * G / 12)] * 4


def test_the_first_edition_shared_alike_and_did_not_look_at_gaps() -> None:
    changes: dict[str, Any] = {"supports.placed.0.gap_mm": 2, "supports.placed.1.holes": None}
    work = full(changes, FIRST)
    assert list(values(work, "fixing_shear").values()) == [pytest.approx(1.35 * 148 * G / 10)] * 3
    assert values(work, "fixing_tension")["support 1",] == pytest.approx(1.35 * 148 * G * 0.09 / (10 * 0.04))


def test_a_support_without_a_place_has_no_reaction_and_leaves_the_rest_shown() -> None:
    found = values(full({"supports.placed.1.centre_mm": None}), "fixing_shear")
    assert set(found) == {("bottom",), ()}
    assert named(full({"supports.placed.1.centre_mm": 310}), "fixing_shear") == ["two_supports"]


def test_an_unknown_support_is_missing_and_helps_nobody() -> None:
    work = full({"supports.placed.1.holes": None})
    found = values(work, "fixing_shear")
    assert found["support 2",] == "missing holes at supports.placed.1.holes"
    assert found["bottom",] == pytest.approx(1.35 * 148 * G / 10)


def test_partial_factors_are_the_methods() -> None:
    bare = values(full(method=Method(gamma_dead=1, gamma_wind=1)), "fixing_tension")
    assert bare["left",] == pytest.approx(wind_on(0.718, 0.575) / 1.5)
    assert bare["support 1",] == pytest.approx(
        float(values(full(), "support_load")["support 1",]) / 2 * 0.092 / 0.04
    )


def test_the_strip_is_half_the_shorter_side() -> None:
    narrow = full(width_mm=1000)
    assert values(narrow, "fixing_tension")["left",] == pytest.approx(wind_on(0.5, 0.575))


def test_everything_that_lacks_for_the_forces_is_named_at_once() -> None:
    assert named(build(), "fixing_tension") == [
        "basic_wind_velocity_m_s",
        "terrain",
        "building",
        "distance_from_corner_m",
        "width_mm",
        "height_mm",
        *["length_mm", "fixings"] * 4,
    ]


def test_weight_that_is_not_known_leaves_the_sides_shown() -> None:
    found = values(full({"window.mass_kg": None, "window.centre_from_wall_mm": None}), "fixing_tension")
    assert set(found) == {(), ("left",), ("right",), ("top",)}
    lacks = named(full({"site.products.profiles.0.width_mm": None}), "fixing_tension")
    assert lacks == ["profile_width_mm"]


def test_a_fixing_beyond_its_piece_is_not_reckoned() -> None:
    work = full({"frame.pieces.top.length_mm": 2300})
    assert "missing fixings_beyond_piece" in values(work, "fixing_tension")["top",]
