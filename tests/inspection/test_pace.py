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
