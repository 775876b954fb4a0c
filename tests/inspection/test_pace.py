import pytest
from tests.inspection.asking import ask

from revealbook.inspection.pace import pace

AT = "2026-11-19T09:{:02}+01:00"


def bonding(start: int, end: int | None = None, by: str = "ada") -> dict[str, object]:
    pressed = None if end is None else AT.format(end)
    return {
        "frame.by": by,
        "frame.bonding[0].laid_at": AT.format(start),
        "frame.bonding[0].pressed_at": pressed,
    }


@pytest.mark.parametrize(("end", "asked"), [(1, True), (2, True), (3, False), (14, False)])
def test_four_pieces_are_not_pressed_on_in_no_time(end: int, asked: bool) -> None:
    found = ask(pace, {"W-1": bonding(0, end)})
    assert [one.code for one in found] == (["short_bonding"] if asked else [])


def test_a_stay_without_an_end_tells_no_pace() -> None:
    assert ask(pace, {"W-1": bonding(0)}) == []


def test_two_frames_on_each_others_heels_are_asked_about_once() -> None:
    later = {"window.set_at": None}
    (found,) = ask(pace, {"W-1": bonding(0) | later, "W-2": bonding(11) | later})
    assert (found.code, found.openings, found.facts["minutes"]) == ("close_bonding", ("W-1", "W-2"), 11)
    assert ask(pace, {"W-1": bonding(0) | later, "W-2": bonding(12) | later}) == []


def test_two_people_may_begin_together() -> None:
    later = {"window.set_at": None}
    assert ask(pace, {"W-1": bonding(0) | later, "W-2": bonding(1, by="emil") | later}) == []


def test_a_window_is_not_fixed_on_all_sides_in_no_time() -> None:
    (found,) = ask(pace, {"W-1": {"window.secured_at": "2026-11-20T08:34+01:00"}})
    assert (found.code, found.facts["minutes"], found.spots[0].path) == (
        "short_setting",
        4,
        ("window", "set_at"),
    )


def window(set_at: str, secured_at: str | None = None) -> dict[str, object]:
    at = "2026-11-20T{}+01:00"
    return {
        "frame.bonding": [],
        "window.set_at": at.format(set_at),
        "window.secured_at": secured_at and at.format(secured_at),
    }


def test_a_window_set_in_five_minutes_is_not_asked_about() -> None:
    assert ask(pace, {"W-1": window("08:30", "08:35")}) == []
    (found,) = ask(pace, {"W-1": window("08:30", "08:34")})
    assert found.facts["least"] == 5


def test_two_windows_set_within_ten_minutes_by_one_person_are_asked_about() -> None:
    assert ask(pace, {"W-1": window("08:30"), "W-2": window("08:40")}) == []
    (found,) = ask(pace, {"W-1": window("08:39"), "W-2": window("08:30")})
    assert (found.code, found.openings, found.facts) == (
        "close_setting",
        ("W-2", "W-1"),
        {"minutes": 9, "least": 10, "person": "ada"},
    )
    assert [(spot.mark, spot.path) for spot in found.spots] == [
        ("W-2", ("window", "set_at")),
        ("W-1", ("window", "set_at")),
    ]


def test_times_that_are_the_same_tell_no_pace() -> None:
    later = {"window.set_at": None}
    assert ask(pace, {"W-1": bonding(5, 5) | later}) == []
    assert ask(pace, {"W-1": bonding(5, 4) | later}) == []
    assert ask(pace, {"W-1": {"window.secured_at": "2026-11-20T08:30+01:00"}}) == []


def test_of_three_frames_each_is_held_against_the_one_before_it() -> None:
    later = {"window.set_at": None}
    by_mark = {"W-1": bonding(0) | later, "W-2": bonding(30) | later, "W-3": bonding(41) | later}
    (found,) = ask(pace, by_mark)
    assert (found.openings, found.facts["least"]) == (("W-2", "W-3"), 12)


def test_sealing_right_after_setting_is_not_held_against_it() -> None:
    assert ask(pace, {"W-1": {"seals.events[0].at": "2026-11-20T08:31+01:00"}}) == []
