from datetime import datetime
from typing import Any

import pytest
from tests.builders import bonded as applied
from tests.builders import build, details, only

from revealbook.measures.reading import Missing, Reading
from revealbook.measures.waits import Air, climate, hours, hours_between, load_wait
from revealbook.measures.work import Work

TABLE = [{"air_c": 0, "hours": 28}, {"air_c": 10, "hours": 18}, {"air_c": 30, "hours": 9}]
DAMP = [{"air_c": air, "rh_pct": rh, "hours": 10} for air in (0, 20) for rh in (40, 90)]


def bonded(table: Any = TABLE, set_at: str | None = "2026-11-20T08:30+01:00", **keys: Any) -> Work:
    bonding = {"product": "bond", "laid_at": "2026-11-19T09:20+01:00", "pressed_at": "2026-11-19T09:30+01:00"}
    climate = keys.pop("climate", [])
    opening = {
        "frame": {"bonding": applied(**(bonding | {"air_c": 10} | keys))},
        "window": {"set_at": set_at},
        "climate": climate,
    }
    return build(opening, {"products": {"adhesives": [{"id": "bond", "load_after": table}]}})


def said(work: Work) -> str:
    found = only(load_wait(work))
    assert isinstance(found, Missing), found
    return f"{found.what} at {'.'.join(map(str, found.path))}"


def margin(work: Work) -> float:
    found = only(load_wait(work))
    assert isinstance(found, Reading), found
    return float(found.value)


def test_a_wait_is_held_against_the_table_at_the_air_as_read() -> None:
    assert margin(bonded()) == pytest.approx(23 - 18)
    assert margin(bonded(air_c=5)) == pytest.approx(23 - 23)
    assert margin(bonded(air_c=0)) == pytest.approx(23 - 28)


def test_a_reading_of_a_wait_keeps_what_it_was_computed_from() -> None:
    found = only(load_wait(bonded()))
    assert found.path == ("window", "set_at")
    assert details(found) == {
        "waited_h": 23,
        "needed_h": pytest.approx(18),
        "from": "2026-11-19T09:30:00+01:00",
    }


@pytest.mark.parametrize("air_c", [-0.5, 30.5])
def test_outside_the_table_nothing_is_assumed(air_c: float) -> None:
    found = only(load_wait(bonded(air_c=air_c)))
    assert isinstance(found, Missing)
    assert found.what == "climate_outside_table"
    assert details(found) == {"read": air_c, "lowest": 0, "highest": 30}


@pytest.mark.parametrize("air_c", [0, 30])
def test_the_ends_of_the_table_belong_to_it(air_c: float) -> None:
    margin(bonded(air_c=air_c))


def test_a_cold_night_between_makes_the_wait_longer() -> None:
    night = [{"at": "2026-11-19T20:00+01:00", "air_c": 0}, {"at": "2026-11-20T07:00+01:00", "air_c": 0}]
    assert margin(bonded(climate=night)) < margin(bonded())


def test_a_single_line_answers_for_its_own_climate_only() -> None:
    assert margin(bonded([{"air_c": 10, "hours": 18}])) == pytest.approx(5)
    assert said(bonded([{"air_c": 12, "hours": 18}])) == "climate_outside_table at window.set_at"


def test_a_wait_that_ended_before_it_began_is_negative_whatever_the_weather() -> None:
    assert margin(bonded(set_at="2026-11-19T08:30+01:00", air_c=None)) == -1


def test_a_table_that_asks_for_no_wait_is_met_at_once() -> None:
    assert margin(bonded([{"air_c": 10, "hours": 0}], air_c=None)) == 23


@pytest.mark.parametrize(
    ("work", "what"),
    [
        (bonded(None), "load_after at frame.bonding.0.product"),
        (bonded([]), "load_after at frame.bonding.0.product"),
        (bonded(product=None), "load_after at frame.bonding.0.product"),
        (bonded(set_at=None), "set_at at window.set_at"),
        (bonded(pressed_at=None), "pressed_at at frame.bonding.0.pressed_at"),
        (bonded(air_c=None), "air_c at frame.bonding.0.air_c"),
        (
            bonded([{"air_c": 10, "hours": 5}, {"air_c": 10, "hours": 6}]),
            "waits_table_unusable at frame.bonding.0.product",
        ),
        (
            bonded([{"air_c": 10, "hours": 5}, {"air_c": 20, "hours": 0}]),
            "waits_table_unusable at frame.bonding.0.product",
        ),
        (bonded(DAMP[:3]), "waits_table_unusable at frame.bonding.0.product"),
        (bonded(DAMP), "rh_pct at frame.bonding.0.rh_pct"),
        (bonded(DAMP, rh_pct=30), "climate_outside_table at window.set_at"),
        (build(), "pressed_at at frame.bonding.pressed_at"),
    ],
)
def test_what_a_wait_needs_and_nobody_recorded_is_named(work: Work, what: str) -> None:
    assert said(work) == what


def test_a_table_by_humidity_uses_the_humidity_as_read() -> None:
    assert margin(bonded(DAMP, rh_pct=70)) == pytest.approx(13)


@pytest.mark.parametrize("at", ["2026-11-18T08:00+01:00", "2026-11-20T08:31+01:00"])
def test_weather_before_or_after_the_wait_does_not_stand_for_it(at: str) -> None:
    assert said(bonded(air_c=None, climate=[{"at": at, "air_c": 20}])) == "air_c at frame.bonding.0.air_c"


def test_one_reading_within_the_wait_is_enough_whoever_took_it() -> None:
    assert margin(
        bonded(air_c=None, climate=[{"at": "2026-11-19T12:00+01:00", "air_c": 10}])
    ) == pytest.approx(5)


def test_hours_do_not_mind_a_change_of_the_clock() -> None:
    before, after = (
        datetime.fromisoformat(text) for text in ("2026-10-25T01:30+02:00", "2026-10-25T03:30+01:00")
    )
    assert hours(before, after) == 3
    assert hours(after, before) == -3


def test_hours_between_two_moments_of_a_record() -> None:
    work = build({"survey": {"at": "2026-10-24T12:00+02:00"}, "frame": {"at": "2026-10-25T12:00+01:00"}})
    found = hours_between(work, ("survey", "at"), ("frame", "at"), ("a",))
    assert found == Reading(("a",), 25, ("frame", "at"), None, found.details)
    assert details(found) == {"from": "2026-10-24T12:00:00+02:00", "to": "2026-10-25T12:00:00+01:00"}
    assert hours_between(work, ("frame", "at"), ("window", "at")) == Missing((), "at", ("window", "at"))


def test_the_climate_gathers_every_reading_of_the_air_in_order() -> None:
    work = build(
        {
            "frame": {
                "bonding": applied(
                    laid_at="2026-11-19T09:00Z", pressed_at="2026-11-19T09:15Z", air_c=8, rh_pct=70
                )
            },
            "seals": {
                "events": [{"at": "2026-11-20T09:00Z", "air_c": 9}, {"air_c": 1}, {"at": "2026-11-21T09:00Z"}]
            },
            "climate": [{"at": "2026-11-18T09:00Z", "air_c": 7}, {"at": "2026-11-18T10:00Z", "rh_pct": 70}],
        }
    )
    assert [(air.at.day, air.at.minute, air.air_c, air.rh_pct) for air in climate(work)] == [
        (18, 0, 7, None),
        (19, 15, 8, 70),
        (20, 0, 9, None),
    ]


def test_bonding_that_does_not_say_when_it_was_pressed_was_read_when_it_began() -> None:
    (air,) = climate(build({"frame": {"bonding": applied(laid_at="2026-11-19T09:00Z", air_c=8)}}))
    assert air.at.hour == 9


@pytest.mark.parametrize(
    ("one", "other", "kept"),
    [
        ({"air_c": 5, "rh_pct": 60}, {"air_c": 3, "rh_pct": 90}, (3, 90)),
        ({"air_c": 3, "rh_pct": 90}, {"air_c": 5, "rh_pct": 60}, (3, 90)),
        ({"air_c": 5}, {"air_c": 5, "rh_pct": 60}, (5, 60)),
        ({"air_c": 5, "rh_pct": 60}, {"air_c": 5}, (5, 60)),
    ],
)
def test_of_two_readings_at_one_moment_the_colder_counts(
    one: Any, other: Any, kept: tuple[float, float]
) -> None:
    moments = ("2026-11-19T09:00+01:00", "2026-11-19T08:00+00:00")
    read = [{"at": at} | air for at, air in zip(moments, (one, other), strict=True)]
    (air,) = climate(build({"climate": read}))
    assert isinstance(air, Air)
    assert (air.air_c, air.rh_pct) == kept
