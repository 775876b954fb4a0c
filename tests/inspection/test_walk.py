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


def test_work_whose_end_nobody_noted_has_no_length() -> None:
    data = full_opening()
    data["frame"]["bonding"][0]["pressed_at"] = None
    data["window"]["secured_at"] = None
    first, window, *_ = stays(Opening.model_validate(data))
    assert first.start == first.end
    assert window.start == window.end


def test_work_without_a_name_or_a_time_is_no_stay() -> None:
    for section, key in (("window", "by"), ("window", "set_at")):
        data = full_opening()
        data[section][key] = None
        assert [stay.path[0] for stay in stays(Opening.model_validate(data))] == ["frame"] + ["seals"] * 4
    data = full_opening()
    data["seals"]["events"][0]["at"] = None
    data["seals"]["events"][1]["by"] = None
    assert [stay.path[2] for stay in stays(Opening.model_validate(data)) if stay.path[0] == "seals"] == [2, 3]
    del data["seals"], data["window"]
    assert [stay.path for stay in stays(Opening.model_validate(data))] == [("frame", "bonding", 0, "laid_at")]
