from typing import Any

import pytest
from tests.builders import bonded as applied
from tests.builders import build, details, only

from revealbook.measures.method import METHOD_OF_FORMAT_1, Method
from revealbook.measures.reading import Missing, Reading
from revealbook.measures.waits import hours_between, load_wait
from revealbook.measures.work import Work

TABLE = [{"air_c": 0, "hours": 28}, {"air_c": 10, "hours": 18}, {"air_c": 30, "hours": 9}]
DAMP = [{"air_c": air, "rh_pct": rh, "hours": 10} for air in (0, 20) for rh in (40, 90)]


def bonded(table: Any = TABLE, set_at: str | None = "2026-11-20T08:30+01:00", **keys: Any) -> Work:
    bonding = {"product": "bond", "laid_at": "2026-11-19T09:20+01:00", "pressed_at": "2026-11-19T09:30+01:00"}
    air = {"air_c": 10} | {key: keys[key] for key in ("air_c", "rh_pct") if key in keys}
    steady = [{"at": f"2026-11-{hour}:30+01:00"} | air for hour in ("19T18", "20T05", "20T12")]
    climate, method = keys.pop("climate", steady), keys.pop("method", None)
    opening = {
        "frame": {"bonding": applied(**(bonding | {"air_c": 10} | keys))},
        "window": {"set_at": set_at},
        "climate": climate,
    }
    site = {"products": {"adhesives": [{"id": "bond", "load_after": table}]}}
    return build(opening, site, method)


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
    found = only(load_wait(bonded(air_c=air_c, set_at="2026-11-20T14:30+01:00")))
    assert isinstance(found, Missing)
    assert found.what == "climate_outside_table"
    assert details(found) == {"read": air_c, "lowest": 0, "highest": 30}


def test_a_wait_too_short_even_for_the_coldest_line_is_too_short_in_colder_air() -> None:
    assert margin(bonded(air_c=-0.5)) == pytest.approx(23 - 28)


@pytest.mark.parametrize("air_c", [0, 30])
def test_the_ends_of_the_table_belong_to_it(air_c: float) -> None:
    margin(bonded(air_c=air_c))


def test_a_cold_night_between_makes_the_wait_longer() -> None:
    night = [
        {"at": f"2026-11-{at}+01:00", "air_c": air_c}
        for at, air_c in (("19T19:00", 0), ("20T06:00", 0), ("20T12:00", 10))
    ]
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


def read(*readings: tuple[str, float]) -> list[dict[str, Any]]:
    """Give readings of the air in November 2026, as ("19T18:30", 10)."""
    return [{"at": f"2026-11-{at}+01:00", "air_c": air_c} for at, air_c in readings]


EVENING, NIGHT, MORNING = ("19T16:30", 8.0), ("19T23:00", 4.0), ("20T09:00", 6.0)


def test_a_reading_counts_whoever_took_it() -> None:
    other = read(("19T10:00", 10), ("19T18:00", 10), ("20T04:00", 10), ("20T12:00", 10))
    assert margin(bonded(air_c=None, climate=other)) == pytest.approx(5, abs=0.2)


def test_the_reading_at_the_start_does_not_carry_the_whole_wait() -> None:
    found = only(load_wait(bonded(climate=[])))
    assert isinstance(found, Missing)
    assert found.what == "weather_unread_outside_table"
    assert details(found) == {"unread_h": 23, "waited_h": 23, "coldest_c": -13, "warmest_c": 33}


def test_readings_as_far_apart_as_the_method_allows_leave_no_hour_unread() -> None:
    found = only(load_wait(bonded(climate=read(EVENING, NIGHT, MORNING))))
    assert "unread_h" not in details(found)


@pytest.mark.parametrize(("evening", "unread"), [("19T21:00", False), ("19T20:59", True)])
def test_a_gap_by_night_counts_as_read_up_to_its_longest(evening: str, unread: bool) -> None:
    climate = read(("19T15:00", 10), (evening, 10), ("20T09:00", 10))
    found = only(load_wait(bonded(climate=climate)))
    assert ("unread_h" in details(found)) is unread


@pytest.mark.parametrize(("noon", "unread"), [("19T19:30", False), ("19T19:31", True)])
def test_a_gap_by_day_counts_as_read_up_to_its_longest(noon: str, unread: bool) -> None:
    found = only(load_wait(bonded(climate=read((noon, 10), ("20T05:00", 10), ("20T09:00", 10)))))
    assert ("unread_h" in details(found)) is unread


def test_unread_hours_that_no_weather_makes_too_short_conform_by_the_coldest_course() -> None:
    unread = [{"air_c": -20, "hours": 20}, {"air_c": 30, "hours": 10}]
    climate = read(EVENING, MORNING)
    bounded = only(load_wait(bonded(unread, climate=climate)))
    steady = [{"air_c": -20, "hours": 20}, {"air_c": 30, "hours": 20}]
    assert isinstance(bounded, Reading)
    assert 3 < bounded.value < margin(bonded(unread, climate=read(EVENING, NIGHT, MORNING)))  # type: ignore[operator]
    assert -1.25 < details(bounded)["coldest_c"] < 1
    assert margin(bonded(steady, climate=climate)) == pytest.approx(3)


def test_unread_hours_that_no_weather_makes_long_enough_do_not_conform() -> None:
    slow = [{"air_c": -20, "hours": 90}, {"air_c": 40, "hours": 30}]
    found = only(load_wait(bonded(slow, climate=read(EVENING, MORNING))))
    assert isinstance(found, Reading)
    assert found.value < 0  # type: ignore[operator]
    assert details(found)["unread_h"] == pytest.approx(16.5 - 1, abs=1)


def test_a_wait_that_hangs_on_unread_hours_is_not_shown_and_says_between_what() -> None:
    table = [{"air_c": -20, "hours": 60}, {"air_c": 8, "hours": 22}, {"air_c": 40, "hours": 10}]
    found = only(load_wait(bonded(table, climate=read(EVENING, MORNING))))
    assert isinstance(found, Missing)
    assert found.what == "weather_unread"
    known = details(found)
    assert known["fastest_h"] < 23 < known["slowest_h"]


def test_the_frosty_readings_cannot_be_left_out() -> None:
    frosty = read(EVENING, ("19T22:30", -4.0), ("20T05:00", -4.0), MORNING)
    table = [{"air_c": -10, "hours": 60}, {"air_c": 10, "hours": 20}, {"air_c": 20, "hours": 10}]
    assert margin(bonded(table, climate=frosty)) < 0
    assert said(bonded(table, climate=[frosty[0], frosty[-1]])) == "weather_unread at window.set_at"


def test_any_gap_counts_as_read_where_the_method_knows_none() -> None:
    first = Method(**METHOD_OF_FORMAT_1)
    found = only(load_wait(bonded(climate=[], method=first)))
    assert isinstance(found, Reading)
    assert found.value == pytest.approx(5)


def test_a_cold_reading_without_its_humidity_still_counts_as_cold() -> None:
    table = [{"air_c": air, "rh_pct": rh, "hours": 25 - air} for air in (0, 20) for rh in (40, 100)]
    cold = {"at": "2026-11-20T00:30+01:00", "air_c": 1}
    damp = [{"at": f"2026-11-{at}:30+01:00", "air_c": 10, "rh_pct": 70} for at in ("19T18", "20T05", "20T12")]
    work = bonded(table, rh_pct=70, climate=damp)
    with_cold = bonded(table, rh_pct=70, climate=[*damp, cold])
    assert margin(with_cold) < margin(work)


def test_hours_between_two_moments_of_a_record() -> None:
    work = build({"survey": {"at": "2026-10-24T12:00+02:00"}, "frame": {"at": "2026-10-25T12:00+01:00"}})
    found = hours_between(work, ("survey", "at"), ("frame", "at"), ("a",))
    assert found == Reading(("a",), 25, ("frame", "at"), None, found.details)
    assert details(found) == {"from": "2026-10-24T12:00:00+02:00", "to": "2026-10-25T12:00:00+01:00"}
    assert hours_between(work, ("frame", "at"), ("window", "at")) == Missing((), "at", ("window", "at"))
