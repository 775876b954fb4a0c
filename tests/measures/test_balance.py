from copy import deepcopy
from math import inf
from typing import Any

import pytest
from tests.builders import bonded as applications
from tests.builders import build, details, reading, taken, values

from revealbook.measures.method import Method
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


FIRST_EDITION = Method(computations=1)
ROUND = {"start": 15, "middle": 15, "end": 15}
JOINTS = dict.fromkeys(("left", "right", "top", "bottom"), ROUND)


def bonded(
    beads: dict[str, Any] | None = None, pieces: int = 4, method: Method | None = None, **bonding: Any
) -> Work:
    return applied(applications(**{"product": "bond", **bonding}), beads, pieces, method)


def applied(
    bonding: list[dict[str, Any]],
    beads: dict[str, Any] | None = None,
    pieces: int = 4,
    method: Method | None = None,
    **more: Any,
) -> Work:
    names = ("bottom", "left", "right", "top")[:pieces]
    made = {name: {"length_mm": 1435, "beads": BEADS | (beads or {})} for name in names}
    return build({"frame": {"pieces": made, "bonding": bonding}, **more}, SITE, method)


def sealed(*events: dict[str, Any], method: Method | None = None, **window: Any) -> Work:
    return build({"window": WINDOW | window, "seals": {"events": deepcopy(list(events))}}, SITE, method)


def named(work: Work, measure: str) -> list[str]:
    return [one.what for one in taken(work, measure) if isinstance(one, Missing)]


def test_adhesive_is_held_against_triangular_beads() -> None:
    # two beads of 8 x 10 / 2 = 40 mm2 on 5.74 m: 459.2 ml
    found = reading(bonded(used_ml=500, cartridges=2), "adhesive_ratio")
    assert found.value == pytest.approx(500 / 459.2)
    assert details(found) == {"used_ml": 500, "needed_ml": pytest.approx(459.2)}
    assert found.path == ("frame", "bonding", 0, "used_ml")


def test_of_the_amount_told_and_the_cartridges_opened_the_lesser_counts() -> None:
    found = reading(bonded(cartridges=1, used_ml=600), "adhesive_ratio")
    assert found.value == pytest.approx(310 / 459.2)
    assert found.path == ("frame", "bonding", 0, "cartridges")


def test_either_figure_alone_can_show_too_little_and_neither_alone_enough() -> None:
    assert reading(bonded(cartridges=1), "adhesive_ratio").value == pytest.approx(310 / 459.2)
    assert reading(bonded(used_ml=400), "adhesive_ratio").value == pytest.approx(400 / 459.2)
    assert named(bonded(cartridges=3), "adhesive_ratio") == ["used_ml"]
    assert named(bonded(used_ml=500), "adhesive_ratio") == ["cartridges"]


def test_the_first_edition_took_the_amount_told_and_without_it_the_cartridges() -> None:
    told = bonded(cartridges=1, used_ml=600, method=FIRST_EDITION)
    assert reading(told, "adhesive_ratio").value == pytest.approx(600 / 459.2)
    counted = bonded(cartridges=2, method=FIRST_EDITION)
    assert reading(counted, "adhesive_ratio").value == pytest.approx(620 / 459.2)
    assert named(bonded(method=FIRST_EDITION), "adhesive_ratio") == ["used_ml"]
    silent = bonded(cartridges=2, product="silent", method=FIRST_EDITION)
    assert named(silent, "adhesive_ratio") == ["cartridge_ml"]


def test_every_application_adds_what_it_took_and_the_beads_of_its_pieces() -> None:
    sides = {"of": ["left", "right"], "product": "bond", "used_ml": 240, "cartridges": 1}
    rest = {"of": ["bottom", "top"], "product": "bond", "used_ml": 300, "cartridges": 1}
    assert reading(applied([sides, rest]), "adhesive_ratio").value == pytest.approx(540 / 459.2)
    anew = {"of": ["left"], "product": "bond", "used_ml": 100, "cartridges": 1}
    wrong = [{"id": "NC-1", "what": "out of plumb", "correction": {"bonding": [anew]}}]
    again = applied([sides, rest], nonconformities=wrong)
    assert reading(again, "adhesive_ratio").value == pytest.approx(640 / (459.2 * 5 / 4))


def test_adhesive_for_supports_alone_is_no_adhesive_of_the_pieces() -> None:
    frame = {"of": ["bottom", "left", "right", "top"], "product": "bond", "used_ml": 450, "cartridges": 2}
    supports = {"of": ["supports"], "product": "bond", "used_ml": 300, "cartridges": 1}
    assert reading(applied([frame, supports]), "adhesive_ratio").value == pytest.approx(450 / 459.2)


def test_what_was_used_is_not_held_against_some_of_the_pieces_only() -> None:
    three = {"of": ["bottom", "left", "right"], "product": "bond", "used_ml": 450, "cartridges": 2}
    found = taken(applied([three]), "adhesive_ratio")
    assert [(one.subject, one.what) for one in found if isinstance(one, Missing)] == [
        (("top",), "no_application")
    ]
    unnamed = {"product": "bond", "used_ml": 500, "cartridges": 2}
    assert named(applied([unnamed]), "adhesive_ratio") == ["of"]


def test_what_lacks_for_the_adhesive_is_named() -> None:
    assert named(applied([]), "adhesive_ratio") == ["used_ml"]
    assert named(bonded(), "adhesive_ratio") == ["used_ml", "cartridges"]
    assert named(bonded(cartridges=2, product="silent"), "adhesive_ratio") == ["used_ml", "cartridge_ml"]
    assert named(bonded(pieces=3, used_ml=500, cartridges=2), "adhesive_ratio") == [
        "length_mm",
        "number",
        "width_mm",
        "height_mm",
    ]
    three = bonded(pieces=3, used_ml=500, cartridges=2)
    assert [one.subject for one in taken(three, "adhesive_ratio")] == [("top",)] * 4
    narrow = bonded({"width_mm": None}, used_ml=500, cartridges=2)
    assert named(narrow, "adhesive_ratio") == ["width_mm"] * 4


def test_what_was_used_is_held_against_the_cartridges_of_each_application() -> None:
    found = values(bonded(used_ml=900, cartridges=2), "cartridge_share")
    assert found == {("bonding",): pytest.approx(900 / 620)}
    assert values(bonded(used_ml=9, cartridges=0), "cartridge_share") == {("bonding",): inf}
    assert named(bonded(cartridges=2), "cartridge_share") == ["used_ml"]
    assert named(bonded(used_ml=500), "cartridge_share") == ["cartridges"]


@pytest.mark.parametrize("beads", [{"number": 0}, {"width_mm": 0}, {"height_mm": 0}])
def test_no_beads_need_no_adhesive(beads: dict[str, Any]) -> None:
    assert named(bonded(beads, used_ml=500, cartridges=2), "adhesive_ratio") == ["no_beads"]


FOAM = {
    "step": "foam",
    "product": "foam",
    "joint_width_mm": 15,
    "joint_depth_mm": 70,
    "used_ml": 100,
}


def test_foam_is_held_against_the_joint_around_the_window() -> None:
    # 15 x 70 mm on 2 x (1.23 + 1.48) = 5.42 m: 5.691 l; 100 of 750 ml yield 6 l
    found = reading(sealed(FOAM, joint_widths_mm=JOINTS), "foam_ratio")
    assert found.value == pytest.approx(6 / 5.691)
    assert details(found) == {"foamed_l": pytest.approx(6), "needed_l": pytest.approx(5.691)}


def test_each_side_of_the_joint_counts_with_its_own_length_and_least_width() -> None:
    # left and right 15 and 12 mm on 1.48 m, top and bottom 15 mm on 1.23 m, all 70 mm deep
    narrow = JOINTS | {"right": {"start": 15, "middle": 12, "end": 14}}
    found = reading(sealed(FOAM, joint_widths_mm=narrow), "foam_ratio")
    assert found.value == pytest.approx(6 / ((15 + 12) * 0.07 * 1.48 + 2 * 15 * 0.07 * 1.23))


def test_a_side_without_a_joint_takes_no_foam() -> None:
    closed = JOINTS | {"bottom": dict.fromkeys(("start", "middle", "end"), 0)}
    found = reading(sealed(FOAM, joint_widths_mm=closed), "foam_ratio")
    assert found.value == pytest.approx(6 / (15 * 0.07 * (2 * 1.48 + 1.23)))


def test_foamings_are_added_and_the_least_depth_counts() -> None:
    second = FOAM | {"used_ml": 20, "joint_depth_mm": 60}
    found = reading(sealed(FOAM, second, joint_widths_mm=JOINTS), "foam_ratio")
    assert found.value == pytest.approx(7.2 / (5.691 * 60 / 70))


def test_the_first_edition_took_the_smallest_joint_of_a_foaming_all_around() -> None:
    second = FOAM | {"used_ml": 20, "joint_width_mm": 12}
    found = reading(sealed(FOAM, second, method=FIRST_EDITION), "foam_ratio")
    assert found.value == pytest.approx(7.2 / (5.691 * 12 / 15))


def test_what_lacks_for_the_foam_is_named() -> None:
    assert named(build(), "foam_ratio") == ["width_mm", "height_mm"]
    assert named(sealed(), "foam_ratio") == ["foam"]
    bare = sealed({"step": "foam"}, joint_widths_mm=JOINTS)
    assert named(bare, "foam_ratio") == ["joint_depth_mm", "used_ml", "yield_l", "can_ml"]
    unread = sealed(FOAM, joint_widths_mm=JOINTS | {"top": {"start": 15, "end": 15}})
    assert named(unread, "foam_ratio") == ["middle"]
    silent = sealed(FOAM | {"product": "silent foam"}, joint_widths_mm=JOINTS)
    assert named(silent, "foam_ratio") == ["yield_l", "can_ml"]
    assert named(sealed(FOAM | {"joint_depth_mm": 0}, joint_widths_mm=JOINTS), "foam_ratio") == ["no_joint"]


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
