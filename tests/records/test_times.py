from typing import Any

import pytest
from tests.builders import full_opening
from tests.rules.changes import put

from revealbook.records.opening import Opening
from revealbook.records.record import Record, Sheet
from revealbook.records.times import impossible_times
from revealbook.source.problem import Problem

SHEET = Sheet("openings/W-1.01.yaml", (1, 1, None), b"")


def found(changes: dict[str, Any], edition: str = "2026-12") -> list[Problem]:
    data = full_opening()
    for path, value in changes.items():
        put(data, path, value)
    return list(impossible_times(Record(Opening.model_validate(data), SHEET), edition))


def only(changes: dict[str, Any]) -> Problem:
    (problem,) = found(changes)
    return problem


def test_the_conforming_record_has_no_impossible_time() -> None:
    assert found({}) == []


@pytest.mark.parametrize(
    ("path", "typed", "code"),
    [
        ("window.set_at", "2025-11-20T08:30+01:00", "time_before"),
        ("window.secured_at", "2027-11-20T09:40+01:00", "time_after"),
        ("survey.at", "2027-11-19T08:40+01:00", "time_after"),
        ("seals.events[1].at", "2025-11-20T11:00+01:00", "time_before"),
        ("covering.at", "2025-11-23T08:10+01:00", "time_before"),
        ("climate[1].at", "2025-11-20T07:00+01:00", "time_alone"),
        ("hold_points[1].at", "2025-11-19T10:50+01:00", "time_alone"),
        ("sign_offs[0].at", "2025-11-20T16:20+01:00", "time_alone"),
        ("nonconformities[0].correction.checked_at", "2025-11-19T11:25+01:00", "time_before"),
        ("concessions[0].at", "2016-11-17T15:00+01:00", "time_alone"),
    ],
)
def test_a_mistyped_year_is_told_once_with_the_year_that_is_meant(path: str, typed: str, code: str) -> None:
    problem = only({path: typed})
    assert problem.code == code
    assert problem.facts["value"] == f"{typed[:16]}+01:00"
    assert problem.facts["year"] == 2026


def test_the_whole_frame_in_another_year_is_told_time_by_time() -> None:
    typed = {
        "frame.bonding[0].laid_at": "2027-11-19T09:20+01:00",
        "frame.bonding[0].pressed_at": "2027-11-19T09:34+01:00",
    }
    assert [(one.facts["key"], one.facts["year"]) for one in found(typed)] == [
        ("laid_at", 2026),
        ("pressed_at", 2026),
    ]


def test_an_application_of_a_correction_is_dated_between_the_fault_and_its_check() -> None:
    path = "nonconformities[0].correction.bonding"
    right = {"of": ["left"], "laid_at": "2026-11-19T11:00+01:00", "pressed_at": "2026-11-19T11:10+01:00"}
    assert found({path: [right]}) == []
    problem = only({path: [right | {"pressed_at": "2025-11-19T11:10+01:00"}]})
    assert (problem.code, problem.facts["key"], problem.facts["year"]) == ("time_before", "pressed_at", 2026)
    opened = [{"number": "0412", "opened_at": "2026-03-19T11:00+01:00"}]
    assert found({path: [right | {"batches": opened}], "frame.bonding[0].batches": opened}) == []


def test_the_time_that_is_contradicted_is_named() -> None:
    problem = only({"window.set_at": "2025-11-20T08:30+01:00"})
    assert (problem.facts["key"], problem.facts["days"]) == ("set_at", 364)
    assert problem.facts["other"] in {"laid_at", "pressed_at"}


def test_days_in_the_wrong_order_are_left_to_the_rules() -> None:
    assert found({"window.set_at": "2026-11-18T08:30+01:00"}) == []
    assert found({"window.set_at": "2026-09-20T08:30+02:00"}) == []


def test_what_may_come_later_is_no_slip() -> None:
    assert found({"covering.at": "2027-05-23T08:10+02:00"}) == []
    assert found({"survey.at": "2026-02-19T08:40+01:00"}) == []
    assert found({"sign_offs[0].at": "2027-11-20T16:20+01:00"}) == []
    assert (
        found({"nonconformities[0].found_at": "2029-11-20T16:20+01:00", "nonconformities[0].correction": {}})
        == []
    )
    assert found({"concessions[0].until": "2056-11-24T00:00+01:00"}) == []


def test_years_between_two_steps_of_one_record_are_told() -> None:
    problem = only({"covering.at": "2029-11-23T08:10+01:00"})
    assert problem.code == "time_alone"


def test_a_record_of_another_age_than_its_rules_is_told() -> None:
    wrong = found({}, edition="2062-11")
    assert {one.code for one in wrong} == {"time_far_from_edition"}
    assert found({}, edition="first") == []
    assert found({}, edition="1") == []


def test_a_day_that_is_in_no_other_year_suggests_none() -> None:
    assert only({"window.set_at": "2024-02-29T08:30+01:00"}).facts["year"] is None


def test_a_record_with_one_time_has_nothing_to_contradict_it() -> None:
    alone = Opening.model_validate({"opening": {"mark": "W"}, "survey": {"at": "2026-11-19T08:40+01:00"}})
    assert list(impossible_times(Record(alone, SHEET), "2026-12")) == []
