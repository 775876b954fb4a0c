from datetime import datetime

from tests.builders import full_opening

from revealbook.inspection.walk import minutes, parts, photos_named, stays
from revealbook.records.opening import Opening

OPENING = Opening.model_validate(full_opening())


def test_every_photograph_is_given_with_its_place() -> None:
    found = {named.photo.file: named.path for named in photos_named(OPENING)}
    assert found["W-1.01-joint.jpg"] == ("frame", "photos", 1)
    assert len(found) == 5


def test_every_part_is_given_once() -> None:
    paths = [path for path, _ in parts(OPENING)]
    assert len(paths) == len(set(paths))
    assert ("frame", "pieces", "left", "beads") in paths


def test_stays_tell_who_was_there_from_when_to_when() -> None:
    first, window, *seals = stays(OPENING)
    assert (first.person, minutes(first.start, first.end)) == ("ada", 14)
    assert (window.path, minutes(window.start, window.end)) == (("window", "set_at"), 70)
    assert [stay.path[2] for stay in seals] == [0, 1, 2, 3]


def test_minutes_run_backwards_too() -> None:
    one, other = (datetime.fromisoformat(f"2026-11-20T{at}+01:00") for at in ("10:00", "10:30"))
    assert (minutes(one, other), minutes(other, one)) == (30, -30)
