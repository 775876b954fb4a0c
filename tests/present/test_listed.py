"""An opening as the register lists it, from its judged record."""

from datetime import date
from itertools import pairwise

from tests.present import judging

from revealbook.present.listed import ListedOpening, listed_opening
from revealbook.present.words import words_in
from revealbook.rules.finding import Outcome

SITE = judging.site({"W-1.01": {}}).site.site


def listed(changes: judging.Changes | None = None, language: str = "en") -> ListedOpening:
    return listed_opening(judging.opening(changes), SITE, words_in(language))


def part(one: ListedOpening, heading: str) -> tuple[tuple[str, ...], ...]:
    return next((part.lines for part in one.parts if part.heading == heading), ())


def test_it_says_where_it_is_and_how_it_came_out() -> None:
    one = listed({"opening.building": "B", "opening.floor": "2", "opening.room": "bedroom"})
    assert (one.mark, one.building, one.floor) == ("W-1.01", "B", "2")
    assert one.place.startswith("building B, floor 2, bedroom")
    assert one.outcome is Outcome.CONFORMS
    assert one.site == SITE.id


def test_it_names_products_with_their_batches() -> None:
    one = listed({"frame.bonding.batch": "7714"})
    assert "7714" in dict(one.batches).values()
    assert part(one, "Products and batches") == one.batches


def test_products_are_called_by_their_names() -> None:
    names = {
        product.name or product.id
        for kind in ("adhesives", "tapes", "foams")
        for product in getattr(SITE.products, kind)
    }
    assert {product for product, _ in listed().batches} <= names
    assert len(listed().batches) >= 3


def test_people_are_named_and_not_numbered() -> None:
    one = listed()
    assert set(one.fitters) <= {person.name for person in SITE.people}
    assert one.fitters
    assert len(one.fitters) == len(set(one.fitters))


def test_who_did_the_work_is_listed_from_every_section() -> None:
    other = next(person for person in SITE.people if person.name not in listed().fitters)
    assert other.name in listed({"frame.by": other.id}).fitters
    assert other.name in listed({"seals.events[0].by": other.id}).fitters


def test_a_mere_reading_of_the_weather_is_no_event() -> None:
    read = {"at": "2031-01-01T07:00+01:00", "air_c": 4.5, "rh_pct": 85}
    assert part(listed({"climate": [read]}), "Events") == part(listed({"climate": []}), "Events")


def test_events_stand_in_order_and_the_last_one_finished_it() -> None:
    events = part(one := listed(), "Events")
    assert all(before[0] <= after[0] for before, after in pairwise(events))
    assert one.finished == date.fromisoformat(events[-1][0][:10])


def test_what_does_not_conform_is_told_with_what_was_found() -> None:
    one = listed({"survey.sound": False})
    assert one.outcome is Outcome.DOES_NOT_CONFORM
    number, requirement, found = part(one, "Nonconformities")[0]
    assert number == "W-1.01/1"
    assert requirement
    assert found
    assert part(listed(), "Nonconformities") == ()


def test_a_concession_is_told_with_who_and_why() -> None:
    stated = [
        {"rule": "frame-overlap", "accepted_by": "cleo", "reason": "gas pipe"},
        {"rule": "frame-overlap"},
    ]
    assert part(listed({"concessions": stated}), "Concessions") == (
        ("frame-overlap", "Cleo Reveal", "gas pipe"),
        ("frame-overlap", "not recorded", ""),
    )


def test_an_opening_of_which_nothing_is_recorded_is_listed_as_well() -> None:
    nothing = dict.fromkeys(
        (
            "survey",
            "frame",
            "supports",
            "plinth",
            "window",
            "seals",
            "tests",
            "hold_points",
            "sign_offs",
            "covering",
        )
    ) | {"climate": [], "nonconformities": [], "concessions": []}
    one = listed(nothing)
    assert (one.finished, one.fitters, one.batches, one.parts) == (None, (), (), ())


def test_in_german_its_parts_are_german() -> None:
    headings = [one.heading for one in listed(language="de").parts]
    assert headings == ["Produkte und Chargen", "Ereignisse", "Sonderfreigaben"]
