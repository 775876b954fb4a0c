from typing import Any

from tests.builders import build, value, values

from revealbook.measures.work import Work

SITE = {
    "products": {
        "tapes": [
            {"id": "narrow", "joint_min_mm": 4, "joint_max_mm": 9, "closes_both_sides": True},
            {"id": "wide", "joint_min_mm": 8, "joint_max_mm": 15, "closes_both_sides": True},
            {"id": "silent"},
        ]
    }
}


def filled(*products: str, filling: str | None = "joint tape", **keys: Any) -> Work:
    events = [{"step": "joint tape", "product": product} | keys for product in products]
    widths = {side: {"start": 10, "middle": 10, "end": 10} for side in ("left", "right", "top", "bottom")}
    return build(
        {"seals": {"filling": filling, "events": events}, "window": {"joint_widths_mm": widths}}, SITE
    )


def test_joint_tape_replaces_foam_only_where_the_record_says_so() -> None:
    assert value(filled("wide"), "joint_taped") is True
    assert value(filled("wide", filling=None), "joint_taped") is False
    assert value(filled("wide", filling="foam"), "joint_taped") is False


def test_foam_beside_joint_tape_contradicts_the_record() -> None:
    work = build({"seals": {"filling": "joint tape", "events": [{"step": "foam"}]}})
    assert value(work, "joint_taped") == "missing filling_contradicts at seals.events.0"


def test_a_step_that_is_not_told_may_be_foam() -> None:
    work = build({"seals": {"filling": "joint tape", "events": [{"step": None}]}})
    assert value(work, "joint_taped") == "missing step at seals.events.0.step"


def test_it_closes_both_sides_only_if_every_length_of_it_does() -> None:
    assert value(filled("narrow", "wide"), "joint_tape_closes") is True
    assert value(filled("narrow", "silent"), "joint_tape_closes") is False


def test_the_joint_lies_inside_the_range_of_every_tape_on_its_side() -> None:
    assert set(values(filled("wide"), "joint_tape_margin").values()) == {2}
    assert set(values(filled("wide", "narrow"), "joint_tape_margin").values()) == {-1}


def test_a_side_without_joint_tape_has_no_range() -> None:
    found = values(filled("wide", sides=["left", "right", "top"]), "joint_tape_margin")
    assert found["bottom", "joint_middle"] == "missing joint tape at seals.events"
    assert found["left", "joint_middle"] == 2
