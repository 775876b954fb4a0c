from datetime import datetime

import pytest
from tests.builders import SITE, build

from revealbook.measures.method import METHOD_OF_FORMAT_1, Method
from revealbook.measures.unread import Weather, gaps_are_limited, hours, weather
from revealbook.measures.work import Surroundings, Work
from revealbook.records.opening import Opening
from revealbook.records.site import Site

START, END = (datetime.fromisoformat(f"2026-11-{at}+01:00") for at in ("19T08:00", "20T08:00"))


def opening(mark: str, *read: tuple[str, float], building: str = "A", rh_pct: float | None = None) -> Opening:
    climate = [{"at": f"2026-11-{at}+01:00", "air_c": air_c, "rh_pct": rh_pct} for at, air_c in read]
    return Opening.model_validate({"opening": {"mark": mark, "building": building}, "climate": climate})


def bounded(own: Opening, *others: Opening, with_humidity: bool = False) -> Weather:
    around = Surroundings.of(Site.model_validate(SITE), Method(), (own, *others))
    found = weather(Work(own, around), START, END, with_humidity=with_humidity)
    assert found is not None
    return found


OWN = opening("W-1", ("19T08:00", 8), ("20T08:00", 8))


def test_hours_do_not_mind_a_change_of_the_clock() -> None:
    before, after = (
        datetime.fromisoformat(text) for text in ("2026-10-25T01:30+02:00", "2026-10-25T03:30+01:00")
    )
    assert hours(before, after) == 3
    assert hours(after, before) == -3


def test_rule_sets_of_format_1_limit_no_gap() -> None:
    assert gaps_are_limited(Method())
    assert not gaps_are_limited(Method(**METHOD_OF_FORMAT_1))


def test_a_long_gap_is_bounded_by_the_readings_at_its_ends() -> None:
    found = bounded(OWN)
    assert found.at(12) == ((-4, 20), None)
    assert found.unread_h(found.waited_h) == 24
    assert found.possible_air_c(24) == (-4, 20)


def test_a_neighbours_reading_narrows_the_bounds() -> None:
    near = opening("W-2", ("19T20:00", 6))
    assert bounded(OWN, near).at(12) == ((4, 8), None)


@pytest.mark.parametrize(
    "other", [opening("W-2", ("19T20:00", 6), building="B"), opening("W-1", ("19T20:00", 6))]
)
def test_only_other_openings_of_the_same_building_are_neighbours(other: Opening) -> None:
    assert bounded(OWN, other).at(12) == ((-4, 20), None)


def test_humidity_is_bounded_in_its_own_way() -> None:
    own = opening("W-1", ("19T08:00", 8), ("20T08:00", 8), rh_pct=70)
    near = opening("W-2", ("19T20:00", 6), rh_pct=80)
    assert bounded(own, with_humidity=True).at(12)[1] == (30, 100)
    assert bounded(own, near, with_humidity=True).at(12)[1] == (70, 90)


def test_unread_air_after_the_wait_stays_what_it_was_at_its_end() -> None:
    found = bounded(opening("W-1", ("19T08:00", 8)))
    assert found.at(24) == found.at(1000) == ((-15, 32), None)


def test_weather_that_nobody_read_during_the_wait_is_not_bounded_at_all() -> None:
    work = build({"climate": [{"at": "2026-11-18T08:00+01:00", "air_c": 8}]})
    assert weather(work, START, END, with_humidity=False) is None
    read = build({"climate": [{"at": "2026-11-19T09:00+01:00", "air_c": 8}]})
    assert weather(read, START, END, with_humidity=False) is not None
    assert weather(read, START, END, with_humidity=True) is None
