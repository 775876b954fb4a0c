from copy import deepcopy
from typing import Any

import pytest
from tests.builders import build, details, reading, taken, values

from revealbook.measures.reading import Missing
from revealbook.measures.work import Work

SITE = {
    "products": {
        "adhesives": [{"id": "bond", "cartridge_ml": 310}, {"id": "silent"}],
        "foams": [{"id": "foam", "yield_l": 45, "can_ml": 750}, {"id": "silent foam"}],
        "tapes": [{"id": "in"}, {"id": "out"}],
    }
}
BEADS = {"number": 2, "width_mm": 8, "height_mm": 10}
WINDOW = {"width_mm": 1230, "height_mm": 1480}


def bonded(beads: dict[str, Any] | None = None, pieces: int = 4, **bonding: Any) -> Work:
    names = ("bottom", "left", "right", "top")[:pieces]
    made = {name: {"length_mm": 1435, "beads": BEADS | (beads or {})} for name in names}
    return build({"frame": {"pieces": made, "bonding": {"product": "bond"} | bonding}}, SITE)


def sealed(*events: dict[str, Any], **window: Any) -> Work:
    return build({"window": WINDOW | window, "seals": {"events": deepcopy(list(events))}}, SITE)


def named(work: Work, measure: str) -> list[str]:
    return [one.what for one in taken(work, measure) if isinstance(one, Missing)]


def test_adhesive_is_held_against_triangular_beads() -> None:
    # two beads of 8 x 10 / 2 = 40 mm2 on 5.74 m: 459.2 ml
    found = reading(bonded(used_ml=500), "adhesive_ratio")
    assert found.value == pytest.approx(500 / 459.2)
    assert details(found) == {"used_ml": 500, "needed_ml": pytest.approx(459.2)}
    assert found.path == ("frame", "bonding", "used_ml")


def test_cartridges_count_where_no_volume_is_recorded() -> None:
    found = reading(bonded(cartridges=1), "adhesive_ratio")
    assert found.value == pytest.approx(310 / 459.2)
    assert found.path == ("frame", "bonding", "cartridges")
    assert reading(bonded(cartridges=1, used_ml=600), "adhesive_ratio").value == pytest.approx(600 / 459.2)


def test_what_lacks_for_the_adhesive_is_named() -> None:
    assert named(bonded(), "adhesive_ratio") == ["used_ml"]
    assert named(bonded(cartridges=2, product="silent"), "adhesive_ratio") == ["cartridge_ml"]
    assert named(bonded(pieces=3, used_ml=500), "adhesive_ratio") == [
        "length_mm",
        "number",
        "width_mm",
        "height_mm",
    ]
    assert [one.subject for one in taken(bonded(pieces=3, used_ml=500), "adhesive_ratio")] == [("top",)] * 4
    assert named(bonded({"width_mm": None}, used_ml=500), "adhesive_ratio") == ["width_mm"] * 4


@pytest.mark.parametrize("beads", [{"number": 0}, {"width_mm": 0}, {"height_mm": 0}])
def test_no_beads_need_no_adhesive(beads: dict[str, Any]) -> None:
    assert named(bonded(beads, used_ml=500), "adhesive_ratio") == ["no_beads"]


FOAM = {
    "step": "foam",
    "product": "foam",
    "joint_width_mm": 15,
    "joint_depth_mm": 70,
    "used_ml": 100,
}


def test_foam_is_held_against_the_joint_around_the_window() -> None:
    # 15 x 70 mm on 2 x (1.23 + 1.48) = 5.42 m: 5.691 l; 100 of 750 ml yield 6 l
    found = reading(sealed(FOAM), "foam_ratio")
    assert found.value == pytest.approx(6 / 5.691)
    assert details(found) == {"foamed_l": pytest.approx(6), "needed_l": pytest.approx(5.691)}


def test_foamings_are_added_and_the_smallest_joint_counts() -> None:
    second = FOAM | {"used_ml": 20, "joint_width_mm": 12}
    assert reading(sealed(FOAM, second), "foam_ratio").value == pytest.approx(7.2 / (5.691 * 12 / 15))


def test_what_lacks_for_the_foam_is_named() -> None:
    assert named(build(), "foam_ratio") == ["width_mm", "height_mm"]
    assert named(sealed(), "foam_ratio") == ["foam"]
    assert named(sealed({"step": "foam"}), "foam_ratio") == [
        "joint_width_mm",
        "joint_depth_mm",
        "used_ml",
        "yield_l",
        "can_ml",
    ]
    assert named(sealed(FOAM | {"product": "silent foam"}), "foam_ratio") == ["yield_l", "can_ml"]
    assert named(sealed(FOAM | {"joint_depth_mm": 0}), "foam_ratio") == ["no_joint"]


INNER = {"step": "inner tape", "product": "in", "used_m": 5.7, "corner_overlap_mm": 50}
OUTER = {"step": "outer tape", "product": "out", "used_m": 5.6, "corner_overlap_mm": 50}


def test_tape_is_held_against_perimeter_and_laps() -> None:
    # 5.42 m and four laps of 50 mm: 5.62 m
    found = values(sealed(INNER, OUTER), "tape_ratio")
    assert found == {("inner tape",): pytest.approx(5.7 / 5.62), ("outer tape",): pytest.approx(5.6 / 5.62)}
    assert details(taken(sealed(INNER, OUTER), "tape_ratio")[0])["laps_m"] == pytest.approx(0.2)


def test_tape_put_on_in_two_goes_is_added() -> None:
    halves = [INNER | {"used_m": 3.0}, INNER | {"used_m": 2.9, "corner_overlap_mm": 80}]
    assert values(sealed(*halves, OUTER), "tape_ratio")["inner tape",] == pytest.approx(5.9 / 5.62)


def test_what_lacks_for_the_tapes_is_named() -> None:
    assert named(build(), "tape_ratio") == ["width_mm", "height_mm", "inner tape", "outer tape"]
    assert named(sealed(INNER), "tape_ratio") == ["outer tape"]
    bare = {"step": "outer tape"}
    assert named(sealed(INNER, bare), "tape_ratio") == ["used_m", "corner_overlap_mm"]
