from typing import Any

from tests.builders import bonded, build, taken, value, values

from revealbook.measures.method import Method


def at(time: str) -> str:
    day, clock = time.split()
    return f"2026-11-{day}T{clock}+01:00"


EVENTS = [
    {"step": "inner tape", "at": at("20 10:00")},
    {"step": "foam", "at": at("20 11:00")},
    {"step": "trim", "at": at("20 15:00")},
    {"step": "outer tape", "at": at("20 16:00")},
]
WORK: dict[str, Any] = {
    "survey": {"at": at("18 08:00")},
    "frame": {"bonding": bonded(laid_at=at("18 10:00"), pressed_at=at("18 10:15"))},
    "window": {"set_at": at("20 08:00"), "secured_at": at("20 09:00")},
    "seals": {"events": EVENTS},
}


def looked_at(name: str, *looks: tuple[str | None, bool | None]) -> list[dict[str, Any]]:
    return [{"name": name, "at": when and at(when), "passed": passed} for when, passed in looks]


def released(name: str, *looks: tuple[str | None, bool | None], **sections: Any) -> Any:
    work = build(
        {**WORK, "hold_points": looked_at(name, *looks), **sections}, method=Method(hold_points=(name,))
    )
    return value(work, "work_after_hold_point")


def test_the_survey_comes_before_the_first_bead() -> None:
    assert value(build(WORK), "frame_after_survey") == 2
    assert value(build(WORK | {"survey": {"at": at("18 10:30")}}), "frame_after_survey") == -0.5
    assert value(build(WORK | {"survey": {}}), "frame_after_survey") == "missing at at survey.at"


def test_a_window_is_set_before_it_is_secured() -> None:
    assert value(build(WORK), "securing_after_setting") == 1
    late = WORK | {"window": {"set_at": at("20 12:00"), "secured_at": at("20 09:00")}}
    assert value(build(late), "securing_after_setting") == -3


def test_each_hold_point_releases_the_work_after_it() -> None:
    assert released("substrate", ("18 09:30", True)) == 0.5
    assert released("frame", ("19 08:00", True)) == 24
    assert released("window", ("20 09:30", True)) == 1.5
    assert released("foam", ("20 15:30", True)) == 0.5


def test_work_that_went_on_before_the_release_is_negative() -> None:
    assert released("frame", ("20 09:00", True)) == -1
    assert released("foam", ("20 17:00", True)) == -1


def test_the_last_look_before_the_work_counts_and_then_the_first_one_passed_after_it() -> None:
    assert released("frame", ("19 08:00", False), ("20 07:00", True)) == 1
    assert released("frame", ("19 08:00", True), ("20 07:00", False), ("20 10:00", True)) == -2
    assert released("frame", ("19 08:00", False)) == "missing passed at hold_points.0.passed"


def test_the_first_tape_on_the_other_side_goes_over_the_foam() -> None:
    outer_first = [
        EVENTS[0] | {"step": "outer tape"},
        EVENTS[1],
        EVENTS[2],
        EVENTS[3] | {"step": "inner tape"},
    ]
    assert released("foam", ("20 15:30", True), seals={"events": outer_first}) == 0.5
    more = [*EVENTS, {"step": "outer tape", "at": at("21 10:00")}]
    assert released("foam", ("20 15:30", True), seals={"events": more}) == 0.5
    one_side = {"events": EVENTS[:3]}
    assert released("foam", ("20 15:30", True), seals=one_side) == "missing outer tape at seals.events"


def test_without_a_time_of_the_look_or_the_work_nothing_is_shown() -> None:
    assert released("frame", (None, True)) == "missing at at hold_points.0.at"
    assert released("frame", ("19 08:00", True), window={}) == "missing set_at at window.set_at"
    assert released("window", ("19 08:00", True), seals={}) == "missing events at seals.events"
    none = build(WORK, method=Method(hold_points=("frame",)))
    assert value(none, "work_after_hold_point") == "missing hold_points at hold_points"


def test_the_hold_point_before_covering_has_a_measure_of_its_own() -> None:
    work = build(WORK, method=Method(hold_points=("before covering",)))
    assert taken(work, "work_after_hold_point") == ()


def signed(*signs: tuple[str, str | None], **sections: Any) -> dict[Any, Any]:
    offs = [{"role": role, "by": "ada", "at": when and at(when)} for role, when in signs]
    return values(build({**WORK, "sign_offs": offs, **sections}), "signing_after_work")


def test_a_signature_counts_from_the_last_step_of_the_work() -> None:
    assert signed(("installer", "20 15:30"), ("clerk of works", "21 16:00")) == {
        ("installer",): -0.5,
        ("clerk of works",): 24,
    }


def test_signing_again_after_the_work_mends_it_in_whatever_order_it_is_listed() -> None:
    for signs in (
        (("installer", "20 15:00"), ("installer", "20 17:00")),
        (("installer", "20 17:00"), ("installer", "20 15:00")),
    ):
        assert signed(*signs)["installer",] == 1


def test_a_step_or_signature_without_a_time_shows_nothing() -> None:
    assert signed(("installer", None))["installer",] == "missing at at sign_offs.0.at"
    assert signed()["installer",] == "missing sign_offs at sign_offs"
    undated = {"events": [*EVENTS[:3], {"step": "outer tape"}]}
    assert signed(("installer", "20 15:30"), seals=undated)["installer",] == "missing at at seals.events.3.at"


def test_without_any_step_of_sealing_nobody_can_tell_whether_the_work_was_done() -> None:
    told: tuple[Any, ...] = (None, {}, {"events": []})
    for seals in told:
        found = signed(("installer", "20 15:30"), seals=seals)
        assert found["installer",] == "missing events at seals.events"
