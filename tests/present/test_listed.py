"""An opening as the register lists it, from its judged record."""

from datetime import date
from itertools import pairwise

from tests.present import judging

from revealbook.present.facts import facts_of
from revealbook.present.facts_record import Later
from revealbook.present.listed import ListedOpening, listed_opening
from revealbook.present.words import words_in
from revealbook.rules.finding import Outcome

SITE = judging.site({"W-1.01": {}}).site.site
CLAIM = Later("claim", "claim-1", "2036-02-11", "water on the sill board; Edda Blendrahmen")
REPAIR = Later("repair", "repair-1", "2036-03-01", "outer tape replaced")


def listed(
    changes: judging.Changes | None = None, language: str = "en", later: tuple[Later, ...] = ()
) -> ListedOpening:
    judged = judging.site({"W-1.01": changes or {}})
    return listed_opening(facts_of(judged.openings[0], judged), words_in(language), later)


def part(one: ListedOpening, heading: str) -> tuple[tuple[str, ...], ...]:
    return next((part.lines for part in one.parts if part.heading == heading), ())


def test_it_says_where_it_is_and_how_it_came_out() -> None:
    one = listed({"opening.building": "B", "opening.floor": "2", "opening.room": "bedroom"})
    assert (one.mark, one.building, one.floor) == ("W-1.01", "B", "2")
    assert one.place.startswith("building B, floor 2, bedroom")
    assert one.outcome is Outcome.CONFORMS
    assert one.site == SITE.id


def test_it_names_products_with_their_batches() -> None:
    one = listed({"frame.bonding[0].batches[0].number": "7714"})
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
    assert other.name not in listed({"hold_points[0].by": other.id}).fitters


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
    [(said,)] = part(one, "Nonconformities")
    assert said.endswith("no")
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
    one = listed(nothing | {"opening.serial": None})
    assert (one.finished, one.fitters, one.batches) == (None, (), ())
    assert [each.heading for each in one.parts] == ["Window"]
    assert part(one, "Window")[0] == ("serial number", "not recorded")


def test_the_window_is_told_by_serial_and_size() -> None:
    assert part(listed({"opening.serial": "LC-77"}), "Window")[:2] == (
        ("serial number", "LC-77"),
        ("nominal size", "2400 × 1500\u00a0mm"),
    )


def test_an_event_tells_product_person_and_weather() -> None:
    when, what, who, weather = next(
        event for event in part(listed(), "Events") if event[1].startswith("first bead laid")
    )
    assert when.startswith("20")
    assert what == "first bead laid (Example Frame Bond, batch 0412)"
    assert who == SITE.people[0].name
    assert "°C" in weather
    assert "surface" in weather


def test_claims_and_repairs_are_counted_and_told() -> None:
    one = listed(later=(CLAIM, REPAIR))
    assert one.later == "1 claim, 1 repair"
    assert part(one, "Claims and repairs") == (
        ("2036-02-11", "claim claim-1", "water on the sill board; Edda Blendrahmen"),
        ("2036-03-01", "repair repair-1", "outer tape replaced"),
    )
    assert listed().later == ""
    assert listed(later=(CLAIM, CLAIM)).later == "2 claims"


def test_what_was_written_freely_is_there_to_be_searched() -> None:
    assert ("a gas pipe crosses",) in part(listed({"frame.note": "a gas pipe crosses"}), "Notes")


def test_in_german_its_parts_are_german() -> None:
    headings = [one.heading for one in listed(language="de", later=(CLAIM,)).parts]
    assert headings[0] == "Fenster"
    assert {"Produkte und Chargen", "Ereignisse", "Sonderfreigaben"} < set(headings)
