"""How far beads had set by their depth: half their width, the square root of time, the slowest air."""

from math import sqrt
from typing import Any

import pytest
from tests.builders import bonded, build, taken

from revealbook.measures.physics.cure_depth import vapour_speed_factor
from revealbook.measures.reading import Missing, Reading

BONDING = {"product": "bond", "pressed_at": "2026-11-20T10:00+01:00", "air_c": 23, "rh_pct": 50}
BOND = {"id": "bond", "cure_mm_24h": 3, "reference_air_c": 23, "reference_rh_pct": 50}


def work(bond: dict[str, Any] | None = None, bonding: dict[str, Any] | None = None, **more: Any) -> Any:
    pieces = {piece: {"beads": {"width_mm": 8}} for piece in ("bottom", "left", "right", "top")}
    opening = {
        "frame": {"bonding": bonded(**{**BONDING, **(bonding or {})}), "pieces": pieces},
        "covering": {"at": "2026-11-24T10:00+01:00"},
        **more,
    }
    return build(opening, {"products": {"adhesives": [{**BOND, **(bond or {})}]}})


def reserves(*arguments: Any, **more: Any) -> list[Any]:
    return [found.value if isinstance(found, Reading) else found for found in
            taken(work(*arguments, **more), "bead_cure_reserve")]  # fmt: skip


def test_four_days_in_the_reference_climate_set_twice_the_depth_of_a_day() -> None:
    assert reserves() == [pytest.approx(3 * 2 - 8 / 2)] * 4


def test_the_slowest_air_read_during_the_wait_counts_for_all_of_it() -> None:
    cold = {"at": "2026-11-21T07:00+01:00", "air_c": 5, "rh_pct": 80}
    late = {"at": "2026-11-25T07:00+01:00", "air_c": -5, "rh_pct": 80}
    slow = vapour_speed_factor(5, 80, reference_air_c=23, reference_rh_pct=50)
    assert reserves(climate=[cold, late])[0] == pytest.approx(3 * sqrt(4 * slow) - 4)


@pytest.mark.parametrize(
    ("bonding", "more", "what"),
    [
        ({"pressed_at": None}, {}, "pressed_at"),
        ({"rh_pct": None}, {}, "rh_pct"),
        ({}, {"covering": {}}, "at"),
        ({"product": None}, {}, "product"),
    ],
)
def test_what_is_missing_is_named(bonding: dict[str, Any], more: dict[str, Any], what: str) -> None:
    (found,) = reserves(None, bonding, **more)
    assert isinstance(found, Missing)
    assert found.what == what


def test_a_bead_whose_width_was_not_recorded_is_not_shown() -> None:
    frame = {"bonding": bonded(**BONDING), "pieces": {"left": {"beads": {"width_mm": 8}}}}
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
