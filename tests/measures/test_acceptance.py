from typing import Any

import pytest
from tests.builders import bonded, build, details, reading, taken, value, values

from revealbook.measures.method import Method

SITE: dict[str, Any] = {
    "people": [
        {"id": "ada", "name": "Ada", "roles": ["installer"]},
        {"id": "cleo", "name": "Cleo", "roles": ["clerk of works", "client"]},
    ],
    "products": {
        "adhesives": [{"id": "bond", "cover_after": [{"air_c": 0, "hours": 72}, {"air_c": 20, "hours": 24}]}],
        "tapes": [{"id": "tape", "cover_after": [{"air_c": 20, "hours": 0}]}, {"id": "silent"}],
        "foams": [{"id": "foam", "cover_after": [{"air_c": 0, "hours": 24}, {"air_c": 20, "hours": 24}]}],
    },
}


def test_photographs_are_counted_section_by_section() -> None:
    work = build({"frame": {"photos": [{"file": "a.jpg"}, {"file": "b.jpg"}]}, "window": {"photos": []}})
    assert values(work, "photographs") == {
        ("frame",): 2,
        ("window",): 0,
        ("seals",): "missing photos at seals.photos",
    }


def test_the_method_says_which_sections_are_photographed() -> None:
    work = build(method=Method(photographed_sections=("survey",)))
    assert list(values(work, "photographs")) == [("survey",)]


def frame_point(*points: dict[str, Any]) -> Any:
    work = build(
        {"hold_points": [{"name": "frame"} | point for point in points]},
        method=Method(hold_points=("frame",)),
    )
    return value(work, "hold_point_passed")


MORNING, NOON = {"at": "2026-11-19T09:00+01:00", "by": "ben"}, {"at": "2026-11-19T12:00+01:00", "by": "ben"}


@pytest.mark.parametrize(
    ("points", "said"),
    [
        ([MORNING | {"passed": True}], True),
        ([MORNING | {"passed": False}, NOON | {"passed": True}], True),
        ([NOON | {"passed": True}, MORNING | {"passed": False}], True),
        ([MORNING | {"passed": True}, NOON | {"passed": False}], False),
        ([NOON | {"passed": False}, MORNING | {"passed": True}], False),
        ([MORNING | {"passed": True}, {"passed": False}], "missing at at hold_points.1.at"),
        ([{"passed": True, "by": "ben"}], "missing at at hold_points.0.at"),
        ([{"passed": True, "at": MORNING["at"]}], "missing by at hold_points.0.by"),
        ([{"passed": False, "at": MORNING["at"]}], False),
        ([MORNING], "missing passed at hold_points.0.passed"),
        ([MORNING | {"passed": True}, NOON], "missing passed at hold_points.1.passed"),
        ([], "missing hold_points at hold_points"),
    ],
)
def test_a_hold_point_counts_as_it_was_last_looked_at(points: list[dict[str, Any]], said: object) -> None:
    assert frame_point(*points) == said


def test_every_hold_point_of_the_method_is_asked_for_by_name() -> None:
    work = build({"hold_points": [MORNING | {"name": "foam", "passed": True}]})
    found = values(work, "hold_point_passed")
    assert list(found) == [
        (f"hold point {name}",) for name in ("substrate", "frame", "window", "foam", "before covering")
    ]
    assert found["hold point foam",] is True
    assert found["hold point window",] == "missing hold_points at hold_points"
    assert set(values(build(), "hold_point_passed").values()) == {"missing hold_points at hold_points"}


def corrected(**correction: Any) -> Any:
    keys = {
        "what": "reset",
        "at": "2026-11-19T11:00Z",
        "by": "ada",
        "checked_at": "2026-11-19T12:00Z",
        "checked_by": "ben",
    }
    found = {"id": "NC-1", "what": "out of level", "correction": keys | correction}
    return value(build({"nonconformities": [found]}), "correction_checked")


@pytest.mark.parametrize(
    ("correction", "said"),
    [
        ({}, True),
        ({"checked_by": "ada"}, False),
        ({"checked_at": "2026-11-19T10:59Z"}, False),
        ({"checked_at": "2026-11-19T11:00Z"}, True),
        ({"what": None}, "missing what at nonconformities.0.correction.what"),
        ({"at": None}, "missing at at nonconformities.0.correction.at"),
        ({"by": None}, "missing by at nonconformities.0.correction.by"),
        ({"checked_at": None}, "missing checked_at at nonconformities.0.correction.checked_at"),
        ({"checked_by": None}, "missing checked_by at nonconformities.0.correction.checked_by"),
    ],
)
def test_a_correction_is_checked_after_it_was_made_by_somebody_else(
    correction: dict[str, Any], said: object
) -> None:
    assert corrected(**correction) == said


def test_a_nonconformity_without_a_correction_is_open() -> None:
    work = build(
        {"nonconformities": [{"id": "NC-1", "what": "x"}, {"id": "NC-2", "what": "y", "correction": {}}]}
    )
    assert values(work, "correction_checked") == {
        ("NC-1",): False,
        ("NC-2",): "missing what at nonconformities.1.correction.what",
    }
    assert taken(build(), "correction_checked") == ()


@pytest.mark.parametrize(
    ("concession", "said"),
    [
        ({"accepted_by": "cleo", "reason": "pipe", "at": "2026-11-19T11:00Z"}, True),
        ({"accepted_by": "ada", "reason": "pipe", "at": "2026-11-19T11:00Z"}, False),
        ({"accepted_by": "nobody", "reason": "pipe", "at": "2026-11-19T11:00Z"}, False),
        ({"reason": "pipe", "at": "2026-11-19T11:00Z"}, "missing accepted_by at concessions.0.accepted_by"),
        ({"accepted_by": "cleo", "at": "2026-11-19T11:00Z"}, "missing reason at concessions.0.reason"),
        ({"accepted_by": "cleo", "reason": "pipe"}, "missing at at concessions.0.at"),
    ],
)
def test_a_concession_is_accepted_by_somebody_entitled(concession: dict[str, Any], said: object) -> None:
    work = build({"concessions": [{"rule": "wall-plumb"} | concession]}, SITE)
    assert values(work, "concession_entitled") == {("concession wall-plumb",): said}


def test_the_method_says_who_is_entitled() -> None:
    concession = {"rule": "r", "accepted_by": "cleo", "reason": "x", "at": "2026-11-19T11:00Z"}
    work = build({"concessions": [concession]}, SITE, Method(conceding_roles=("designer",)))
    assert value(work, "concession_entitled") is False


@pytest.mark.parametrize(
    ("signs", "said"),
    [
        ([{"by": "ada", "at": "2026-11-19T11:00Z"}], True),
        ([{"by": "cleo", "at": "2026-11-19T11:00Z"}], False),
        ([{"by": "ada"}], "missing sign_offs at sign_offs"),
        ([{"at": "2026-11-19T11:00Z"}], "missing sign_offs at sign_offs"),
        ([], "missing sign_offs at sign_offs"),
        ([{"by": "ada", "at": "2026-11-19T11:00Z"}, {"by": "cleo", "at": "2026-11-19T12:00Z"}], False),
    ],
)
def test_only_who_holds_the_role_signs_in_it(signs: list[dict[str, Any]], said: object) -> None:
    work = build({"sign_offs": [{"role": "installer"} | sign for sign in signs]}, SITE)
    assert values(work, "signed") == {
        ("installer",): said,
        ("clerk of works",): "missing sign_offs at sign_offs",
    }


def test_work_is_covered_once_a_moment_is_recorded() -> None:
    assert value(build({"covering": {"at": "2026-11-23T08:00Z"}}), "work_covered") is True
    assert value(build({"covering": {"by": "dov"}}), "work_covered") == "missing at at covering.at"


def looked(*points: tuple[str | None, bool | None], covered: str | None = "12:00") -> Any:
    hold_points = [
        {"name": "before covering", "at": at and f"2026-11-23T{at}Z", "passed": passed}
        for at, passed in points
    ]
    at = covered and f"2026-11-23T{covered}Z"
    return value(build({"hold_points": hold_points, "covering": {"at": at}}), "covering_after_hold_point")


@pytest.mark.parametrize(
    ("points", "said"),
    [
        ([("11:00", True)], 1),
        ([("12:00", True)], 0),
        ([("13:30", True)], -1.5),
        ([("10:00", False), ("11:00", True)], 1),
        ([("11:00", True), ("10:00", False)], 1),
        ([("10:00", True), ("11:00", False)], "missing passed at hold_points.1.passed"),
        ([("11:00", False), ("14:00", True)], -2),
        ([("10:00", True), ("11:00", False), ("14:00", True)], -2),
        ([("10:00", True), ("14:00", False)], 2),
        ([("11:00", None)], "missing passed at hold_points.0.passed"),
        ([("11:00", True), (None, False)], "missing at at hold_points.1.at"),
        ([], "missing hold_points at hold_points"),
    ],
)
def test_work_is_covered_after_the_look_that_passed_it(points: list[Any], said: object) -> None:
    assert looked(*points) == said


def test_work_that_is_not_covered_has_no_time_to_its_covering() -> None:
    assert looked(("11:00", True), covered=None) == "missing at at covering.at"


BONDING = {"product": "bond", "laid_at": "2026-11-19T09:20Z", "pressed_at": "2026-11-19T09:30Z", "air_c": 20}


def covered(
    at: str | None = "2026-11-20T09:30Z", bonding: Any = BONDING, *events: dict[str, Any]
) -> dict[Any, Any]:
    steady = [{"at": f"2026-11-{hour}:30Z", "air_c": 20} for hour in ("19T18", "20T05", "20T10")]
    opening = {
        "frame": {"bonding": bonding and bonded(**bonding)},
        "seals": {"events": list(events)},
        "covering": {"at": at},
        "climate": steady,
    }
    return values(build(opening, SITE), "cover_wait_margin")


def test_each_product_has_its_wait_before_it_is_covered() -> None:
    foam = {"step": "foam", "product": "foam", "at": "2026-11-19T11:30Z", "air_c": 20}
    tape = {"step": "inner tape", "product": "tape", "at": "2026-11-20T09:00Z"}
    trim = {"step": "trim", "at": "2026-11-20T09:00Z"}
    found = covered("2026-11-20T09:30Z", BONDING, foam, tape, trim)
    assert found == {("bonding",): pytest.approx(0), ("foam",): pytest.approx(-2), ("inner tape",): 0.5}


@pytest.mark.parametrize(
    ("event", "said"),
    [
        ({"step": "foam", "product": "foam"}, {("foam",): "missing at at seals.events.0.at"}),
        (
            {"step": "outer tape", "product": "silent", "at": "2026-11-19T11:30Z"},
            {("outer tape",): "missing cover_after at seals.events.0.product"},
        ),
        ({"at": "2026-11-19T11:30Z"}, {("event 1",): "missing step at seals.events.0.step"}),
        ({"step": "foam", "product": "foam", "at": "2026-11-20T10:00Z"}, {("foam",): -0.5}),
    ],
)
def test_a_wait_that_cannot_be_told_is_not_shown(event: dict[str, Any], said: dict[Any, object]) -> None:
    found = covered("2026-11-20T09:30Z", BONDING, event)
    assert {subject: found[subject] for subject in said} == said


def test_bonding_waits_from_the_moment_the_last_piece_was_pressed_on() -> None:
    assert (
        covered(bonding=BONDING | {"pressed_at": None})["bonding",]
        == "missing pressed_at at frame.bonding.0.pressed_at"
    )
    assert covered(bonding=None)["bonding",] == "missing bonding at frame.bonding"


def test_work_that_is_not_covered_waits_for_nothing() -> None:
    assert covered(None) == {(): "missing at at covering.at"}


def test_covering_without_a_word_of_seals_is_not_shown() -> None:
    assert covered()[()] == "missing events at seals.events"


def test_a_reading_of_the_covering_names_the_look() -> None:
    points = [{"name": "before covering", "at": "2026-11-23T11:00Z", "passed": True}]
    found = reading(
        build({"hold_points": points, "covering": {"at": "2026-11-23T12:00Z"}}), "covering_after_hold_point"
    )
    assert details(found) == {"from": "2026-11-23T11:00:00+00:00"}
    assert found.path == ("covering", "at")
