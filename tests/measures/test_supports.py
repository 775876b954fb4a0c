from math import inf, sqrt
from typing import Any

import pytest
from tests.builders import build, details, reading, taken, value, values

TAPE = {"instruments": [{"id": "tape-1", "measures": "length", "uncertainty": 1}]}


def test_each_load_point_is_held_against_the_nearest_support() -> None:
    work = build(
        {
            "supports": {
                "load_points_mm": [300, 1282],
                "instruments": ["tape-1"],
                "placed": [{"centre_mm": 1290}, {"centre_mm": 320}],
            }
        },
        TAPE,
    )
    assert values(work, "load_point_distance") == {("load point 1",): 20, ("load point 2",): 8}
    first = taken(work, "load_point_distance")[0]
    assert first.path == ("supports", "placed", 1, "centre_mm")
    assert first.uncertainty == pytest.approx(sqrt(2))  # type: ignore[union-attr]
    assert details(first) == {"load_point_mm": 300}


def test_without_a_support_the_distance_is_endless() -> None:
    found = reading(build({"supports": {"load_points_mm": [300], "placed": []}}), "load_point_distance")
    assert (found.value, found.path, found.uncertainty) == (inf, ("supports", "placed"), None)


@pytest.mark.parametrize(
    ("supports", "said"),
    [
        ({}, "missing load_points_mm at supports.load_points_mm"),
        ({"load_points_mm": [], "placed": []}, "missing load_points_mm at supports.load_points_mm"),
        ({"load_points_mm": [300]}, "missing placed at supports.placed"),
        (
            {"load_points_mm": [300], "placed": [{"centre_mm": 300}, {}]},
            "missing centre_mm at supports.placed.1.centre_mm",
        ),
    ],
)
def test_a_support_somewhere_does_not_show_that_it_stands_under_the_load(
    supports: dict[str, Any], said: str
) -> None:
    assert value(build({"supports": supports}), "load_point_distance") == said


def test_every_support_answers_for_itself() -> None:
    placed = [{"length_mm": 150, "holes": 2, "gap_mm": 0, "fixed_to_wall": True}, {"length_mm": 149}]
    work = build({"supports": {"placed": placed}})
    assert values(work, "support_length") == {("support 1",): 150, ("support 2",): 149}
    assert values(work, "support_fixed") == {
        ("support 1",): True,
        ("support 2",): "missing fixed_to_wall at supports.placed.1.fixed_to_wall",
    }
    assert values(work, "support_gap")["support 1",] == 0
    assert value(build(), "support_beads") == "missing placed at supports.placed"
    assert taken(build({"supports": {"placed": []}}), "support_length") == ()


def test_whether_supports_are_called_for_is_read() -> None:
    assert value(build({"supports": {"called_for": False}}), "supports_called_for") is False
    assert value(build(), "supports_called_for") == "missing called_for at supports.called_for"


@pytest.mark.parametrize(
    ("fitted", "hours"),
    [
        ("2026-11-20T08:30+01:00", 0),
        ("2026-11-20T07:00+01:00", 1.5),
        ("2026-11-20T09:00+01:00", -0.5),
        ("2026-11-20T08:30+02:00", 1),
    ],
)
def test_the_plinth_profile_is_fitted_before_the_window_is_set(fitted: str, hours: float) -> None:
    work = build({"plinth": {"fitted_at": fitted}, "window": {"set_at": "2026-11-20T08:30+01:00"}})
    assert value(work, "plinth_lead") == hours
    assert value(build({"plinth": {"fitted_at": fitted}}), "plinth_lead") == "missing set_at at window.set_at"
    assert value(build(), "plinth_lead") == "missing fitted_at at plinth.fitted_at"


def test_the_plinth_profile_is_read_part_by_part() -> None:
    plinth = {
        "used": True,
        "bonded_airtight": False,
        "screws": "wood screws",
        "lengthwise_joints": [{"bonded": True}, {}],
        "brackets": [{"screwed_to_profile": True, "fixed_to_wall": False}, {}],
    }
    work = build({"plinth": plinth})
    assert value(work, "plinth_used") is True
    assert value(work, "plinth_bonded") is False
    assert value(work, "plinth_screws") == "wood screws"
    assert values(work, "plinth_joint_bonded") == {
        ("joint 1",): True,
        ("joint 2",): "missing bonded at plinth.lengthwise_joints.1.bonded",
    }
    assert value(work, "bracket_number") == 2
    assert values(work, "bracket_fixed") == {
        ("bracket 1",): False,
        ("bracket 2",): "missing fixed_to_wall at plinth.brackets.1.fixed_to_wall",
    }
    assert values(work, "bracket_screwed")["bracket 1",] is True


def test_a_plinth_profile_of_which_nothing_is_recorded_shows_nothing() -> None:
    assert value(build(), "plinth_joint_bonded") == "missing lengthwise_joints at plinth.lengthwise_joints"
    assert value(build(), "bracket_number") == "missing brackets at plinth.brackets"
    assert value(build(), "bracket_fixed") == "missing brackets at plinth.brackets"
    assert value(build({"plinth": {"brackets": []}}), "bracket_number") == 0


@pytest.mark.parametrize(
    ("packers", "short"),
    [
        ({"height_needed_mm": 12, "height_mm": 12}, 0),
        ({"height_needed_mm": 12, "height_mm": 9}, 3),
        ({"height_needed_mm": 12, "height_mm": 14}, 2),
        ({"height_needed_mm": 0}, 0),
        ({"height_needed_mm": 12}, "missing height_mm at plinth.packers.height_mm"),
        ({"height_mm": 12}, "missing height_needed_mm at plinth.packers.height_needed_mm"),
    ],
)
def test_height_is_made_up_by_packers(packers: dict[str, float], short: object) -> None:
    assert value(build({"plinth": {"packers": packers}}), "packer_shortfall") == short


def test_whether_height_must_be_made_up_follows_from_the_height_needed() -> None:
    assert value(build({"plinth": {"packers": {"height_needed_mm": 12}}}), "height_made_up") is True
    assert value(build({"plinth": {"packers": {"height_needed_mm": 0}}}), "height_made_up") is False
    assert value(build(), "height_made_up") == "missing height_needed_mm at plinth.packers.height_needed_mm"


@pytest.mark.parametrize(
    ("bracket", "fixed"),
    [
        ({"fixed_to_wall": True}, True),
        ({"fixed_to_wall": False}, False),
        ({"fixed_into": "wall"}, True),
        ({"fixed_into": "wall", "fixed_to_wall": True}, True),
        ({"fixed_into": "wall", "fixed_to_wall": False}, False),
        ({"fixed_into": "foundation"}, True),
        ({"fixed_into": "foundation", "fixed_to_wall": False}, True),
    ],
)
def test_a_bracket_is_fixed_where_it_says_unless_it_says_that_it_is_not(
    bracket: dict[str, Any], fixed: bool
) -> None:
    assert value(build({"plinth": {"brackets": [bracket]}}), "bracket_fixed") is fixed
