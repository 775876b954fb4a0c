from typing import Any, get_args

import pytest
from tests.builders import build, details, taken, values

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
    "frame_temperature_c": 15,
    "joint_widths_mm": dict.fromkeys(("left", "right", "top", "bottom"), JOINT),
}
EXPOSURE = {"coldest_frame_c": -15, "warmest_frame_c": 40}
FOAMED = [{"step": "foam", "product": "soft"}]


def set_in(
    events: list[dict[str, Any]] | None = None, exposure: dict[str, Any] | None = None, **window: Any
) -> Work:
    foams = [{"id": "soft", "movement_pct": 25}, {"id": "hard", "movement_pct": 10}, {"id": "silent"}]
    site = {
        "exposure": EXPOSURE | (exposure or {}),
        "products": {"foams": foams},
        "instruments": [{"id": "tape", "measures": "length", "uncertainty": 1}],
    }
    return build({"window": WINDOW | window, "seals": {"events": FOAMED if events is None else events}}, site)


def named(work: Work) -> list[str]:
    return [one.what for one in taken(work, "movement_reserve") if isinstance(one, Missing)]


def test_each_material_of_a_record_has_its_expansion() -> None:
    assert set(MATERIALS) == set(get_args(FrameMaterial))
    for material in MATERIALS.values():
        assert expansion(material).per_k > 0


def test_half_of_the_frame_moves_to_each_side() -> None:
    # 70e-6 x 1000 mm x 30 K = 2.1 mm against 10 mm x 25 % = 2.5 mm; the height moves half as much
    assert values(set_in(), "movement_reserve") == {
        ("left",): pytest.approx(0.4),
        ("right",): pytest.approx(0.4),
        ("bottom",): pytest.approx(1.45),
        ("top",): pytest.approx(1.45),
    }


def test_the_farther_extreme_counts() -> None:
    # from 0 degC: 40 K up
    found = values(set_in(frame_temperature_c=0), "movement_reserve")
    assert found["left",] == pytest.approx(2.5 - 2.8)


def test_coupled_windows_move_together_sideways_only() -> None:
    found = values(set_in(assembly_length_mm=4000), "movement_reserve")
    assert found["left",] == pytest.approx(2.5 - 4.2)
    assert found["top",] == pytest.approx(1.45)


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
