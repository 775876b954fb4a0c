from itertools import pairwise
from typing import Any

from tests.builders import build
from tests.present.judging import ENGLISH, PEOPLE, opening

from revealbook.present.timeline import Event, events, weather
from revealbook.records.acceptance import ClimateReading
from revealbook.records.opening import Opening


def of(**sections: Any) -> tuple[Event, ...]:
    return events(build(sections).opening, ENGLISH, PEOPLE)


def conforming() -> tuple[Event, ...]:
    return events(opening().record.opening, ENGLISH, PEOPLE)


def test_the_events_of_an_opening_stand_in_order_of_time_whatever_their_order_in_the_record() -> None:
    found = conforming()
    assert len(found) > 30
    assert all(earlier.at <= later.at for earlier, later in pairwise(found))


def test_the_story_of_an_opening_is_told_whole() -> None:
    told = [event.what for event in conforming() if event.what != "weather read"]
    for what in (
        "opening surveyed",
        "hold point substrate: passed",
        "first bead laid (frame-bond, batch 0412)",
        "last frame piece pressed on",
        "mounting frame measured",
        "hold point mounting frame: not passed",
        "nonconformity NC-1 found: hole at 1325 mm of the left piece without its fixing",
        "NC-1 corrected: hole cleaned, fixing set and tightened",
        "correction of NC-1 checked",
        "plinth profile fitted to the window",
        "window set",
        "window secured",
        "window measured",
        "inner tape (inner-tape, batch T-118)",
        "foam (joint-foam, batch F-2281)",
        "trim",
        "outer tape (outer-tape, batch T-204)",
        "signed as installer",
        "signed as clerk of works",
        "concession on wall-plumb",
        "work covered",
    ):
        assert what in told, what


def test_people_are_called_by_their_names_and_an_unknown_one_as_written() -> None:
    survey = {"at": "2026-11-19T08:40+01:00"}
    assert of(survey={**survey, "by": "ada"})[0].who == "Ada Fensterlein"
    assert of(survey={**survey, "by": "zoe"})[0].who == "zoe"
    assert of(survey=survey)[0].who == ""


def test_a_sealing_step_without_a_name_was_done_by_whoever_did_the_sealing() -> None:
    step = {"step": "trim", "at": "2026-11-20T15:30+01:00"}
    assert of(seals={"by": "ada", "events": [step]})[0].who == "Ada Fensterlein"
    assert of(seals={"by": "ada", "events": [{**step, "by": "ben"}]})[0].who == "Ben Jamb"


def test_what_has_no_moment_is_no_event() -> None:
    assert of(survey={"by": "ada"}, window={}, covering={}, seals={}) == ()
    assert of(frame={}, supports={}, plinth={}, tests={}) == ()


def test_moments_of_two_zones_are_put_in_their_true_order() -> None:
    found = of(
        survey={"at": "2026-10-25T02:50+02:00"},
        covering={"at": "2026-10-25T02:10+01:00"},
    )
    assert [(event.when, event.what) for event in found] == [
        ("2026-10-25 02:50", "opening surveyed"),
        ("2026-10-25 02:10", "work covered"),
    ]


def test_events_that_are_half_recorded_say_so() -> None:
    at = "2026-11-20T15:30+01:00"
    assert of(seals={"events": [{"at": at}]})[0].what == "seal"
    assert of(hold_points=[{"name": "foam", "at": at}])[0].what == "hold point foam: result not recorded"
    assert of(frame={"bonding": [{"laid_at": at, "batches": [{"number": "7"}]}]})[0].what == (
        "first bead laid (batch 7)"
    )


def test_an_application_to_some_pieces_names_them() -> None:
    at = "2026-11-20T15:30+01:00"
    frame = {"bonding": [{"of": ["left", "right"], "laid_at": at, "pressed_at": at}]}
    assert [event.what for event in of(frame=frame)] == [
        "first bead laid: left, right",
        "last frame piece pressed on: left, right",
    ]


def test_tests_on_the_finished_work_are_events() -> None:
    tests = {
        "air_leakage": {"at": "2026-12-01T09:00+01:00", "by": "ben"},
        "water_spray": {"at": "2026-12-01T10:00+01:00"},
        "thermometry": {"at": "2026-12-01T08:00+01:00"},
    }
    assert [(event.what, event.who) for event in of(tests=tests)] == [
        ("surface temperature taken", ""),
        ("air leakage tested", "Ben Jamb"),
        ("sprayed with water", ""),
    ]


def test_the_weather_stands_beside_what_was_done_in_it() -> None:
    foam = next(event for event in conforming() if event.what.startswith("foam"))
    assert [value.replace("\u00a0", " ") for value in foam.weather] == ["10 °C", "65 %", "9.5 °C", "3.7 °C"]
    assert not foam.only_weather


def test_a_reading_of_the_weather_alone_is_marked_as_such() -> None:
    (read,) = of(climate=[{"at": "2026-11-21T08:00+01:00", "air_c": 6}])
    assert (read.what, read.only_weather) == ("weather read", True)
    assert [value.replace("\u00a0", " ") for value in read.weather] == ["6 °C", "", "", ""]


def test_a_dew_point_needs_air_and_humidity() -> None:
    def dew(**read: float) -> str:
        told = weather(ClimateReading.model_validate({"at": "2026-11-21T08:00+01:00", **read}), ENGLISH)
        return told[3]

    assert dew(air_c=20, rh_pct=50).replace("\u00a0", " ") == "9.3 °C"
    assert dew(air_c=20) == ""
    assert dew(rh_pct=50) == ""
    assert weather(None, ENGLISH) == ("", "", "", "")


def test_a_blank_record_has_no_events() -> None:
    assert events(Opening.model_validate({"opening": {"mark": "A"}}), ENGLISH, PEOPLE) == ()
