from typing import Any, get_args

import pytest
from tests.builders import build, details, taken, values

from revealbook.measures.method import METHOD_OF_FORMAT_1, Method
from revealbook.measures.movement import MATERIALS
from revealbook.measures.physics.movement import expansion
from revealbook.measures.reading import Missing, Reading
from revealbook.measures.work import Work
from revealbook.records.window import FrameMaterial

JOINT = {"start": 12, "middle": 10, "end": 11}
WINDOW = {
    "width_mm": 2000,
    "height_mm": 1000,
    "frame_material": "PVC-U",
    "frame_colour": "white",
    "frame_temperature_c": 15,
    "joint_widths_mm": dict.fromkeys(("left", "right", "top", "bottom"), JOINT),
}
EXPOSURE = {"coldest_frame_c": -15, "warmest_frame_c": 40}
COOL = Method(warmest_white_c=30)
FOAMED = [{"step": "foam", "product": "soft"}]


def set_in(
    events: list[dict[str, Any]] | None = None,
    exposure: dict[str, Any] | None = None,
    method: Method = COOL,
    **window: Any,
) -> Work:
    foams = [{"id": "soft", "movement_pct": 25}, {"id": "hard", "movement_pct": 10}, {"id": "silent"}]
    site = {
        "exposure": EXPOSURE | (exposure or {}),
        "products": {"foams": foams},
        "instruments": [{"id": "tape", "measures": "length", "uncertainty": 1}],
    }
    return build(
        {"window": WINDOW | window, "seals": {"events": FOAMED if events is None else events}}, site, method
    )


def named(work: Work) -> list[str]:
    return [one.what for one in taken(work, "movement_reserve") if isinstance(one, Missing)]


def test_each_material_of_a_record_has_its_expansion() -> None:
    assert set(MATERIALS) == set(get_args(FrameMaterial))
    for material in MATERIALS.values():
        assert expansion(material).per_k > 0


def test_half_of_the_width_moves_to_each_side_and_all_of_the_height_to_the_head() -> None:
    # 70e-6 x 1000 mm x 30 K = 2.1 mm against 10 mm x 25 % = 2.5 mm; half may still move to the sill
    assert values(set_in(), "movement_reserve") == {
        ("left",): pytest.approx(0.4),
        ("right",): pytest.approx(0.4),
        ("bottom",): pytest.approx(1.45),
        ("top",): pytest.approx(0.4),
    }


def test_the_shares_are_the_methods() -> None:
    shares = Method(warmest_white_c=30, movement_to_head=0.8, movement_to_sill=0.2, movement_to_side=0.6)
    assert values(set_in(method=shares), "movement_reserve") == {
        ("left",): pytest.approx(2.5 - 2.52),
        ("right",): pytest.approx(2.5 - 2.52),
        ("bottom",): pytest.approx(2.5 - 0.42),
        ("top",): pytest.approx(2.5 - 1.68),
    }


def test_the_first_edition_shared_the_height_alike_and_did_not_look_at_colours() -> None:
    first = Method.model_validate(dict(METHOD_OF_FORMAT_1))
    found = values(set_in(method=first, frame_colour=None), "movement_reserve")
    assert found["top",] == found["bottom",] == pytest.approx(1.45)
    assert found["left",] == pytest.approx(0.4)


@pytest.mark.parametrize(("colour", "warmest_c"), [("white", 55), ("light", 67), ("dark", 79)])
def test_a_frame_gets_as_warm_as_its_colour_lets_it(colour: str, warmest_c: float) -> None:
    (left, *_) = taken(set_in(method=Method(), frame_colour=colour), "movement_reserve")
    assert isinstance(left, Reading)
    assert details(left)["warmest_taken_c"] == warmest_c
    assert left.value == pytest.approx(2.5 - 0.07 * (warmest_c - 15))


def test_the_site_may_state_a_warmer_frame_than_the_colour_has_but_no_cooler_one() -> None:
    warm = set_in(method=Method(), exposure={"warmest_frame_c": 70})
    assert values(warm, "movement_reserve")["left",] == pytest.approx(2.5 - 0.07 * 55)
    cool = set_in(method=Method(), exposure={"warmest_frame_c": 40})
    assert values(cool, "movement_reserve")["left",] == pytest.approx(2.5 - 0.07 * 40)


def test_a_frame_of_unknown_colour_is_not_taken_for_a_white_one() -> None:
    assert named(set_in(frame_colour=None)) == ["frame_colour"]


def test_the_least_joint_follows_from_movement_and_capability() -> None:
    (left, *_) = taken(set_in(), "movement_reserve")
    assert isinstance(left, Reading)
    assert details(left)["least_joint_mm"] == pytest.approx(2.1 / 0.25)
    assert details(left)["movement_share_pct"] == 50


def test_the_farther_extreme_counts() -> None:
    # from 0 degC: 40 K up
    found = values(set_in(frame_temperature_c=0), "movement_reserve")
    assert found["left",] == pytest.approx(2.5 - 2.8)


def test_coupled_windows_move_together_sideways_only() -> None:
    found = values(set_in(assembly_length_mm=4000), "movement_reserve")
    assert found["left",] == pytest.approx(2.5 - 4.2)
    assert found["top",] == pytest.approx(0.4)


def test_the_stiffest_foam_counts() -> None:
    both = [*FOAMED, {"step": "foam", "product": "hard"}]
    assert values(set_in(both), "movement_reserve")["left",] == pytest.approx(1.0 - 2.1)


def test_the_tape_measures_uncertainty_counts_with_the_foams_share() -> None:
    (left, *_) = taken(set_in(instruments=["tape"]), "movement_reserve")
    assert isinstance(left, Reading)
    assert left.uncertainty == pytest.approx(0.25)
    assert left.path == ("window", "joint_widths_mm", "left", "middle")
    assert details(left)["moves_mm"] == pytest.approx(2.1)
    assert details(left)["follows_mm"] == pytest.approx(2.5)


def test_everything_that_lacks_is_named() -> None:
    assert named(build()) == [
        "coldest_frame_c",
        "warmest_frame_c",
        "foam",
        "frame_temperature_c",
        "frame_material",
        "frame_colour",
        *["width_mm", "start", "middle", "end"] * 2,
        *["height_mm", "start", "middle", "end"] * 2,
    ]
    assert named(set_in([{"step": "foam"}, {"step": "foam", "product": "silent"}])) == [
        "product",
        "movement_pct",
    ]
    assert named(set_in(exposure={"warmest_frame_c": None})) == ["warmest_frame_c"]


def test_a_joint_with_gaps_leaves_the_other_sides_shown() -> None:
    joints = dict.fromkeys(("left", "right", "top"), JOINT) | {"bottom": {"start": 10}}
    found = values(set_in(joint_widths_mm=joints), "movement_reserve")
    assert set(found) == {("left",), ("right",), ("top",), ("bottom",)}
    assert str(found["bottom",]).startswith("missing ")


def test_a_frame_set_beyond_the_sites_extremes_is_not_reckoned() -> None:
    assert named(set_in(frame_temperature_c=41)) == ["installed_beyond_extremes"] * 4
    assert named(set_in(frame_temperature_c=40)) == []
