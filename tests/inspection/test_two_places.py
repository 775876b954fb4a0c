from tests.inspection.asking import ask

from revealbook.inspection.two_places import two_places


def bonding(start: str, end: str | None, by: str = "ada") -> dict[str, object]:
    at = "2026-11-19T{}+01:00"
    return {
        "frame.by": by,
        "frame.bonding[0].laid_at": at.format(start), "frame.bonding[0].pressed_at": end and at.format(end),
        "window.set_at": None, "seals.events": [],
    }  # fmt: skip


def test_two_frames_bonded_at_once_by_one_person_are_asked_about() -> None:
    (found,) = ask(two_places, {"W-1": bonding("09:00", "09:20"), "W-2": bonding("09:05", "09:25")})
    assert found.openings == ("W-1", "W-2")
    assert found.facts["person"] == "ada"


def test_one_after_the_other_is_not() -> None:
    assert ask(two_places, {"W-1": bonding("09:00", "09:20"), "W-2": bonding("09:20", "09:40")}) == []


def test_times_noted_to_five_minutes_may_overlap_a_little() -> None:
    assert ask(two_places, {"W-1": bonding("09:00", "09:20"), "W-2": bonding("09:10", "09:30")}) == []
    assert ask(two_places, {"W-1": bonding("09:00", "09:21"), "W-2": bonding("09:10", "09:30")}) != []


def test_two_people_are_at_two_openings() -> None:
    assert ask(two_places, {"W-1": bonding("09:00", "09:20"), "W-2": bonding("09:00", "09:20", "emil")}) == []


def test_an_event_deep_inside_work_elsewhere_is_asked_about() -> None:
    assert ask(two_places, {"W-1": bonding("09:00", "10:00"), "W-2": bonding("09:30", None)}) != []
    assert ask(two_places, {"W-1": bonding("09:00", "10:00"), "W-2": bonding("09:55", None)}) == []
