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
