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
