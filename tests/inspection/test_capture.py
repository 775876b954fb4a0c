from datetime import datetime

import pytest
from tests.inspection.asking import ask

from revealbook.inspection.capture import capture

BEADS = "W-1.01-beads.jpg"


@pytest.mark.parametrize(
    ("taken", "code"),
    [
        ("2026-11-19T09:25+01:00", None),
        ("2026-11-20T14:00+01:00", None),  # stands a section before the step that it shows
        ("2026-11-18T08:50+01:00", None),
        ("2026-11-18T08:30+01:00", "taken_away"),
        ("2020-01-01T00:00", "taken_away"),
        ("2026-11-19T09:25", None),  # the camera names no zone
        ("2026-11-23T09:00+01:00", "taken_after_covering"),
    ],
)
def test_a_camera_and_a_record_agree_to_a_day_and_nothing_is_seen_after_the_covering(
    taken: str, code: str | None
) -> None:
    found = ask(capture, {"W-1.01": {}}, {BEADS: ("1", taken)})
    assert [one.code for one in found] == ([code] if code else [])


def test_a_photograph_that_names_no_time_gives_rise_to_no_question() -> None:
    assert ask(capture, {"W-1.01": {}}, {BEADS: ("1", None)}) == []
    assert ask(capture, {"W-1.01": {}}) == []


def test_a_camera_may_be_a_whole_day_off_and_no_minute_more() -> None:
    """The first moment of the record is that of the survey, 08:40 on the 19th."""
    assert ask(capture, {"W-1.01": {}}, {BEADS: ("1", "2026-11-18T08:40+01:00")}) == []
    (found,) = ask(capture, {"W-1.01": {}}, {BEADS: ("1", "2026-11-18T08:39+01:00")})
    assert found.facts["work"] == datetime.fromisoformat("2026-11-19T08:40+01:00")
    assert found.spots[0].path[0] == "frame"


def test_a_picture_of_the_moment_of_covering_is_not_of_after_it() -> None:
    assert ask(capture, {"W-1.01": {}}, {BEADS: ("1", "2026-11-23T08:10+01:00")}) == []
    (found,) = ask(capture, {"W-1.01": {}}, {BEADS: ("1", "2026-11-23T08:11+01:00")})
    assert found.code == "taken_after_covering"


def test_a_picture_of_a_test_may_be_taken_after_the_covering() -> None:
    shown = {"tests.air_leakage.photos": [{"file": "leak.jpg", "shows": "the fan"}],
             "tests.air_leakage.at": "2026-11-24T10:00+01:00"}  # fmt: skip
    assert ask(capture, {"W-1.01": shown}, {"leak.jpg": ("1", "2026-11-24T10:05+01:00")}) == []
    (found,) = ask(capture, {"W-1.01": shown}, {"leak.jpg": ("1", "2026-11-26T10:05+01:00")})
    assert found.code == "taken_away"


def test_hold_points_and_corrections_are_moments_of_the_work_too() -> None:
    late = {"covering": None, "hold_points[5].at": "2026-11-26T09:00+01:00"}
    assert ask(capture, {"W-1.01": late}, {BEADS: ("1", "2026-11-27T09:00+01:00")}) == []
    corrected = {"covering": None, "nonconformities[0].correction.checked_at": "2026-11-26T09:00+01:00"}
    assert ask(capture, {"W-1.01": corrected}, {BEADS: ("1", "2026-11-27T09:00+01:00")}) == []
    assert ask(capture, {"W-1.01": {"covering": None}}, {BEADS: ("1", "2026-11-27T09:00+01:00")}) != []


def test_every_picture_of_an_opening_is_looked_at() -> None:
    early = "2026-11-10T09:00+01:00"
    seen = {
        "W-1.01-beads.jpg": ("1", early),
        "W-1.01-joint.jpg": ("2", None),
        "W-1.01-seals.jpg": ("3", early),
    }
    assert [found.spots[0].path[0] for found in ask(capture, {"W-1.01": {}}, seen)] == ["frame", "seals"]
