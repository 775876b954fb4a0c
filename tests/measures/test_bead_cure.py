"""How far beads had set: half their pressed width, the square root of time, the air as read."""

from math import pi, sqrt
from typing import Any

import pytest
from tests.builders import bonded, build, details, taken

from revealbook.measures.method import METHOD_OF_FORMAT_1, Method
from revealbook.measures.physics.cure_depth import vapour_speed_factor
from revealbook.measures.reading import Missing, Reading

BONDING = {"product": "bond", "pressed_at": "2026-11-20T10:00+01:00", "air_c": 23, "rh_pct": 50}
BOND = {"id": "bond", "cure_mm_24h": 3, "reference_air_c": 23, "reference_rh_pct": 50}


STEADY = tuple((f"2{day}T{hour:02}:00", 23.0, 50.0) for day in range(5) for hour in (2, 10, 18))


def read(*readings: tuple[str, float, float]) -> list[dict[str, Any]]:
    """Give readings of the air in November 2026, as ("20T18:00", 23, 50)."""
    return [{"at": f"2026-11-{at}+01:00", "air_c": air_c, "rh_pct": rh} for at, air_c, rh in readings]


def work(bond: dict[str, Any] | None = None, bonding: dict[str, Any] | None = None, **more: Any) -> Any:
    profile, method = more.pop("profile", None), more.pop("method", None)
    beads = more.pop("beads", {"pressed_width_mm": 8})
    pieces = {piece: {"beads": beads, "profile": "profile"} for piece in ("bottom", "left", "right", "top")}
    opening = {
        "frame": {"bonding": bonded(**{**BONDING, **(bonding or {})}), "pieces": pieces},
        "covering": {"at": "2026-11-24T10:00+01:00"},
        "climate": read(*STEADY),
        **more,
    }
    products = {"adhesives": [{**BOND, **(bond or {})}], "profiles": [{"id": "profile", **(profile or {})}]}
    return build(opening, {"products": products}, method)


def reserves(*arguments: Any, **more: Any) -> list[Any]:
    return [found.value if isinstance(found, Reading) else found for found in
            taken(work(*arguments, **more), "bead_cure_reserve")]  # fmt: skip


def test_four_days_in_the_reference_climate_set_twice_the_depth_of_a_day() -> None:
    assert reserves() == [pytest.approx(3 * 2 - 8 / 2)] * 4


FIRST = Method(**METHOD_OF_FORMAT_1)


def test_rule_sets_of_format_1_let_the_slowest_air_and_the_laid_width_count() -> None:
    cold = {"at": "2026-11-21T07:00+01:00", "air_c": 5, "rh_pct": 80}
    late = {"at": "2026-11-25T07:00+01:00", "air_c": -5, "rh_pct": 80}
    slow = vapour_speed_factor(5, 80, reference_air_c=23, reference_rh_pct=50)
    beads = {"width_mm": 8, "pressed_width_mm": 16}
    found = reserves(climate=[cold, late], beads=beads, method=FIRST)
    assert found[0] == pytest.approx(3 * sqrt(4 * slow) - 4)


def test_every_hour_counts_by_its_own_air() -> None:
    half = [(at, 5.0, 80.0) if at < "22T10:00" else (at, 23.0, 50.0) for at, _, _ in STEADY]
    slow = vapour_speed_factor(5, 80, reference_air_c=23, reference_rh_pct=50)
    found = reserves(None, {"air_c": 5, "rh_pct": 80}, climate=read(*half))
    assert found[0] == pytest.approx(3 * sqrt(2 * slow + 2) - 4, abs=0.1)


def test_a_speed_above_the_reference_climate_counts_only_if_the_data_sheet_states_it() -> None:
    damp = read(*((at, 23.0, 100.0) for at, _, _ in STEADY))
    bonding = {"rh_pct": 100}
    assert reserves(None, bonding, climate=damp)[0] == pytest.approx(3 * 2 - 4)
    assert reserves({"cure_speed_max": 1.5}, bonding, climate=damp)[0] == pytest.approx(3 * sqrt(4 * 1.5) - 4)
    assert reserves({"cure_speed_max": 5}, bonding, climate=damp)[0] == pytest.approx(3 * sqrt(4 * 2) - 4)


LAID = {"width_mm": 9, "height_mm": 9}


def test_the_path_goes_through_the_bead_as_pressed_not_as_laid() -> None:
    assert reserves(beads={**LAID, "pressed_width_mm": 16})[0] == pytest.approx(6 - 8)


@pytest.mark.parametrize("known", [{"beads": {**LAID, "pressed_thickness_mm": 3}},
                                   {"beads": LAID, "profile": {"bead_thickness_mm": 3}}])  # fmt: skip
def test_a_width_that_nobody_saw_is_bounded_by_the_gap(known: dict[str, Any]) -> None:
    (*_, soft) = reserves({"cure_mm_24h": 3}, **known)
    assert soft == pytest.approx(6 - 13.5 / 2)
    (*_, set_through) = reserves({"cure_mm_24h": 6}, **known)
    assert set_through == pytest.approx(12 - 27 * pi / 4 / 2)
    (*_, between) = reserves({"cure_mm_24h": 4}, **known)
    assert between.what == "bead_cure_between_bounds"
    assert details(between)["least_path_mm"] == pytest.approx(6.75)
    assert details(between)["most_path_mm"] == pytest.approx(27 * pi / 8)


def test_the_laid_width_is_never_taken_for_the_pressed_one() -> None:
    found = reserves(beads=LAID)
    assert [one.what for one in found] == ["pressed_width_mm"] * 4


def test_weather_that_was_not_read_is_bounded() -> None:
    unread = read(STEADY[0], STEADY[-1])
    (*_, found) = reserves({"cure_mm_24h": 2.5}, climate=unread)
    assert found.what == "bead_cure_between_bounds"
    assert details(found)["least_depth_mm"] < 4 < details(found)["most_depth_mm"]


@pytest.mark.parametrize(
    ("bonding", "more", "what"),
    [
        ({"pressed_at": None}, {}, "pressed_at"),
        ({"rh_pct": None}, {"climate": []}, "rh_pct"),
        ({}, {"covering": {}}, "at"),
        ({"product": None}, {}, "product"),
    ],
)
def test_what_is_missing_is_named(bonding: dict[str, Any], more: dict[str, Any], what: str) -> None:
    (found,) = reserves(None, bonding, **more)
    assert isinstance(found, Missing)
    assert found.what == what


def test_a_bead_whose_width_was_not_recorded_is_not_shown() -> None:
    frame = {"bonding": bonded(**BONDING), "pieces": {"left": {"beads": {"pressed_width_mm": 8}}}}
    found = reserves(frame=frame)
    assert [isinstance(one, Missing) for one in found] == [True, False, True, True]


def test_a_covering_before_the_press_set_nothing() -> None:
    assert reserves(None, {"pressed_at": "2026-11-24T10:00+01:00"}) == [-4.0] * 4


@pytest.mark.parametrize("key", ["cure_mm_24h", "reference_air_c", "reference_rh_pct"])
def test_a_depth_counts_as_stated_only_with_its_climate(key: str) -> None:
    assert [found.value for found in taken(work(), "cure_depth_stated") if isinstance(found, Reading)] == [
        True
    ]
    (without,) = taken(work({key: None}), "cure_depth_stated")
    assert isinstance(without, Reading)
    assert without.value is False


def test_without_a_product_it_is_not_known_whether_a_depth_is_stated() -> None:
    (found,) = taken(work(None, {"product": None}), "cure_depth_stated")
    assert isinstance(found, Missing)


@pytest.mark.parametrize("at", ["2026-11-20T10:00+01:00", "2026-11-24T10:00+01:00"])
def test_in_rule_sets_of_format_1_air_read_at_either_end_of_the_wait_counts(at: str) -> None:
    slow = vapour_speed_factor(5, 80, reference_air_c=23, reference_rh_pct=50)
    found = reserves(
        None, {"air_c": None, "rh_pct": None}, climate=[{"at": at, "air_c": 5, "rh_pct": 80}], method=FIRST,
        beads={"width_mm": 8},
    )  # fmt: skip
    assert found[0] == pytest.approx(3 * sqrt(4 * slow) - 4)
