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


def test_an_event_ten_minutes_inside_work_elsewhere_may_be_noted_badly() -> None:
    """At either end of the other work."""
    for at, asked in (("09:10", False), ("09:11", True), ("09:49", True), ("09:50", False)):
        found = ask(two_places, {"W-1": bonding("09:00", "10:00"), "W-2": bonding(at, None)})
        assert bool(found) is asked, at


def test_all_that_begins_during_long_work_elsewhere_is_asked_about() -> None:
    found = ask(
        two_places,
        {
            "W-3": bonding("09:40", "09:55"),
            "W-1": bonding("09:00", "10:00"),
            "W-2": bonding("09:15", "09:30"),
            "W-4": bonding("10:00", "10:30"),
        },
    )
    assert [one.openings for one in found] == [("W-1", "W-2"), ("W-1", "W-3")]
    assert [spot.mark for spot in found[0].spots] == ["W-1", "W-2"]
    assert found[0].facts["first"] != found[0].facts["second"]


def test_two_things_at_one_opening_at_once_are_no_question() -> None:
    both = bonding("09:00", "10:00") | {
        "window.by": "ada",
        "window.set_at": "2026-11-19T09:10+01:00",
        "window.secured_at": "2026-11-19T09:50+01:00",
    }
    assert ask(two_places, {"W-1": both}) == []
