from datetime import datetime

from tests.builders import full_opening

from revealbook.inspection.walk import minutes, stays
from revealbook.records.opening import Opening

OPENING = Opening.model_validate(full_opening())


def test_stays_tell_who_was_there_from_when_to_when() -> None:
    first, window, *seals = stays(OPENING)
    assert (first.person, minutes(first.start, first.end)) == ("ada", 14)
    assert (window.path, minutes(window.start, window.end)) == (("window", "set_at"), 70)
    assert [stay.path[2] for stay in seals] == [0, 1, 2, 3]


def test_minutes_run_backwards_too() -> None:
    one, other = (datetime.fromisoformat(f"2026-11-20T{at}+01:00") for at in ("10:00", "10:30"))
    assert (minutes(one, other), minutes(other, one)) == (30, -30)
