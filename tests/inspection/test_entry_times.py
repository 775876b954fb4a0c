from datetime import datetime
from typing import Any

import pytest
from tests.inspection.asking import ask

from revealbook.inspection.entry_times import entry_times


@pytest.mark.parametrize(
    ("changes", "code"),
    [
        ({"sign_offs[0].at": "2026-11-20T15:30+01:00"}, "signed_before"),
        ({"hold_points[3].at": "2026-11-20T08:00+01:00"}, "hold_before"),
        ({"frame.at": "2026-11-19T09:00+01:00"}, "readings_before"),
        ({"window.at": "2026-11-24T09:00+01:00"}, "readings_late"),
        ({"survey.at": "2026-11-19T12:00+01:00"}, "work_before"),
    ],
)
def test_an_entry_at_an_odd_time_is_asked_about(changes: dict[str, str], code: str) -> None:
    (found,) = ask(entry_times, {"W-1": changes})
    assert (found.code, found.openings) == (code, ("W-1",))


def test_the_conforming_record_gives_rise_to_no_question() -> None:
    assert ask(entry_times, {"W-1": {}}) == []


def test_times_are_noted_to_some_minutes() -> None:
    """The last tape is dated 15:50."""
    assert ask(entry_times, {"W-1": {"sign_offs[0].at": "2026-11-20T15:35+01:00"}}) == []
    assert ask(entry_times, {"W-1": {"sign_offs[0].at": "2026-11-20T15:34+01:00"}}) != []


def test_a_hold_point_that_was_not_passed_may_have_been_looked_at_early() -> None:
    early = {"hold_points[3].at": "2026-11-20T08:00+01:00", "hold_points[3].passed": False}
    assert ask(entry_times, {"W-1": early}) == []


def test_what_is_not_dated_gives_rise_to_no_question() -> None:
    changes = {"sign_offs[0].at": None, "frame.at": None, "survey.at": None, "hold_points[3].at": None}
    assert ask(entry_times, {"W-1": changes}) == []


@pytest.mark.parametrize(
    ("key", "just_right", "too_early", "code"),
    [
        ("hold_points[3].at", "2026-11-20T08:15+01:00", "2026-11-20T08:14+01:00", "hold_before"),
        ("hold_points[4].at", "2026-11-20T10:45+01:00", "2026-11-20T10:44+01:00", "hold_before"),
        ("hold_points[2].at", "2026-11-19T09:05+01:00", "2026-11-19T09:04+01:00", "hold_before"),
        ("frame.at", "2026-11-19T09:05+01:00", "2026-11-19T09:04+01:00", "readings_before"),
        ("window.at", "2026-11-20T08:15+01:00", "2026-11-20T08:14+01:00", "readings_before"),
        ("frame.at", "2026-11-22T09:20+01:00", "2026-11-22T09:21+01:00", "readings_late"),
        ("window.at", "2026-11-23T08:30+01:00", "2026-11-23T08:31+01:00", "readings_late"),
        ("survey.at", "2026-11-19T09:35+01:00", "2026-11-19T09:36+01:00", "work_before"),
    ],
)
def test_a_quarter_of_an_hour_before_and_three_days_after_the_work_are_not_asked_about(
    key: str, just_right: str, too_early: str, code: str
) -> None:
    assert ask(entry_times, {"W-1": {key: just_right}}) == []
    (found,) = ask(entry_times, {"W-1": {key: too_early}})
    assert found.code == code


def test_only_readings_are_late_and_not_what_is_looked_at_or_signed_for_later() -> None:
    later = {"hold_points[3].at": "2026-12-20T08:15+01:00", "sign_offs[0].at": "2026-12-20T08:15+01:00"}
    assert ask(entry_times, {"W-1": later | {"survey.at": "2026-10-20T08:15+01:00"}}) == []


def test_the_first_foam_counts_for_its_hold_point_and_the_last_event_for_the_signature() -> None:
    again = {"step": "foam", "at": "2026-11-20T16:20+01:00"}
    (found,) = ask(
        entry_times, {"W-1": {"seals.events[4]": again, "sign_offs[0].at": "2026-11-20T16:00+01:00"}}
    )
    assert (found.code, found.spots[0].path) == ("signed_before", ("sign_offs", 0, "at"))
    assert found.facts["event"] == datetime.fromisoformat("2026-11-20T16:20+01:00")


def test_without_an_event_of_sealing_nobody_signs_before_the_window_is_fixed() -> None:
    none: dict[str, Any] = {"seals.events": [], "hold_points[4].at": None}
    assert ask(entry_times, {"W-1": none | {"sign_offs[0].at": "2026-11-20T09:25+01:00"}}) == []
    (found,) = ask(entry_times, {"W-1": none | {"sign_offs[0].at": "2026-11-20T09:24+01:00"}})
    assert found.facts["event"] == datetime.fromisoformat("2026-11-20T09:40+01:00")


def test_readings_come_after_the_first_adhesive_and_the_survey_before_it() -> None:
    second = {"of": ["top"], "product": "frame-bond", "laid_at": "2026-11-19T11:40+01:00"}
    assert ask(entry_times, {"W-1": {"frame.bonding[1]": second}}) == []
    (found,) = ask(entry_times, {"W-1": {"frame.bonding[1]": second, "survey.at": "2026-11-19T09:40+01:00"}})
    assert (found.code, found.spots[0].path) == ("work_before", ("frame", "bonding", 0, "laid_at"))


def test_adhesive_of_a_correction_is_not_the_first() -> None:
    done = {"of": ["left"], "product": "frame-bond", "laid_at": "2026-11-19T08:00+01:00"}
    assert ask(entry_times, {"W-1": {"nonconformities[0].correction.bonding": [done]}}) == []


def test_the_second_signature_is_held_against_the_work_too() -> None:
    (found,) = ask(entry_times, {"W-1": {"sign_offs[1].at": "2026-11-20T15:00+01:00"}})
    assert found.spots[0].path == ("sign_offs", 1, "at")
