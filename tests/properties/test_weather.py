"""Laws of weather that was not read: fewer readings never help, nor does colder air, nor being read later."""

from datetime import datetime, timedelta
from functools import cache
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.builders import SITE, bonded, only

from revealbook.measures.catalogue import CATALOGUE
from revealbook.measures.method import Method
from revealbook.measures.reading import Outcome, Reading
from revealbook.measures.waits import load_wait
from revealbook.measures.work import Surroundings, Work
from revealbook.records.load import Folder, load_records, load_site, look_into
from revealbook.records.opening import Opening
from revealbook.records.record import Record, SiteFile
from revealbook.records.site import Site

LARCH_COURT = Path(__file__).parents[2] / "examples" / "larch-court"
START = datetime.fromisoformat("2026-11-19T08:00+01:00")
TABLES = st.sampled_from(
    [
        [{"air_c": -20, "hours": 90}, {"air_c": 5, "hours": 40}, {"air_c": 40, "hours": 9}],
        [{"air_c": -5, "hours": 60}, {"air_c": 10, "hours": 25}, {"air_c": 30, "hours": 10}],
        [{"air_c": -40, "hours": 50}, {"air_c": 50, "hours": 30}],
    ]
)
STEPS = st.tuples(st.floats(6.2, 11), st.floats(-1, 1))
"""Hours to the next reading - so far apart that without it the gap is too long - and change per hour."""
WEATHER = st.lists(STEPS, min_size=6, max_size=9)
RANK = {"conforms": 2, "not shown": 1, "does not conform": 0}
Read = tuple[float, float]


def walked(steps: list[Read], start_c: float) -> list[Read]:
    """Give readings as (hours, air) of air that changes no faster than the method takes it to."""
    found = [(0.0, start_c)]
    for hours, change in steps:
        at, air_c = found[-1]
        found.append((at + hours, min(max(air_c + change * hours * 0.9, -14), 34)))
    return found


def record(mark: str, read: list[Read], waited_h: float = 30) -> Opening:
    def moment(hours: float) -> str:
        return (START + timedelta(minutes=round(hours * 60))).isoformat()

    climate = [{"at": moment(hours), "air_c": air_c} for hours, air_c in read]
    frame = {"bonding": bonded(product="bond", laid_at=moment(0), pressed_at=moment(0))}
    window = {"set_at": moment(waited_h)}
    return Opening.model_validate(
        {"opening": {"mark": mark}, "frame": frame, "window": window, "climate": climate}
    )


def wait(table: Any, own: Opening, *others: Opening) -> Outcome:
    site = Site.model_validate(SITE | {"products": {"adhesives": [{"id": "bond", "load_after": table}]}})
    return only(load_wait(Work(own, Surroundings.of(site, Method(), (own, *others)))))


def judged(outcome: Outcome) -> str:
    if not isinstance(outcome, Reading):
        return "not shown"
    return "conforms" if float(outcome.value) >= 0 else "does not conform"


def never_improves(before: Outcome, after: Outcome) -> bool:
    """An outcome gets no better, and from one that does not conform at best to one that is not shown."""
    return RANK[judged(after)] <= max(RANK[judged(before)], 1) and not (
        judged(before) == "not shown" and judged(after) == "conforms"
    )


@settings(max_examples=40, deadline=None)
@given(WEATHER, st.floats(-5, 15), TABLES, st.data())
def test_taking_a_reading_away_never_helps(
    steps: list[Read], start_c: float, table: Any, data: st.DataObject
) -> None:
    read = walked(steps, start_c)
    gone = data.draw(st.sampled_from(read))
    rest = [one for one in read if one != gone]
    assert never_improves(wait(table, record("W-1", read)), wait(table, record("W-1", rest)))


@settings(max_examples=40, deadline=None)
@given(WEATHER, st.floats(-5, 15), TABLES, st.data())
def test_taking_a_neighbours_reading_away_never_helps(
    steps: list[Read], start_c: float, table: Any, data: st.DataObject
) -> None:
    read = walked(steps, start_c)
    own = record("W-1", read[::3])
    near = [(hours + 0.5, air_c) for hours, air_c in read[1:]]
    gone = data.draw(st.sampled_from(near))
    rest = [one for one in near if one != gone]
    before = wait(table, own, record("W-2", near))
    assert never_improves(before, wait(table, own, record("W-2", rest)))
    assert never_improves(before, wait(table, own))


@settings(max_examples=40, deadline=None)
@given(WEATHER, st.floats(-5, 15), TABLES, st.floats(0.5, 5))
def test_colder_air_never_helps(steps: list[Read], start_c: float, table: Any, colder: float) -> None:
    read = walked(steps, start_c)
    cold = [(hours, air_c - colder) for hours, air_c in read]
    for every in (1, 2):
        before, after = (wait(table, record("W-1", one[::every])) for one in (read, cold))
        assert RANK[judged(after)] <= RANK[judged(before)] or judged(before) == "not shown"
        assert never_improves(before, after)


@settings(max_examples=40, deadline=None)
@given(WEATHER, st.floats(-5, 15), TABLES, st.floats(0.5, 6))
def test_a_wait_whose_first_reading_came_later_is_no_better(
    steps: list[Read], start_c: float, table: Any, later_h: float
) -> None:
    read = walked(steps, start_c)
    late = [(later_h, read[0][1] + later_h * (read[1][1] - read[0][1]) / read[1][0]), *read[1:]]
    assert never_improves(wait(table, record("W-1", read)), wait(table, record("W-1", late)))


@settings(max_examples=40, deadline=None)
@given(WEATHER, st.floats(-5, 15), TABLES, st.floats(0.5, 20))
def test_setting_the_window_later_never_makes_the_wait_too_short(
    steps: list[Read], start_c: float, table: Any, later_h: float
) -> None:
    read = walked(steps, start_c)
    before = judged(wait(table, record("W-1", read, 30)))
    after = judged(wait(table, record("W-1", read, 30 + later_h)))
    assert before != "conforms" or after == "conforms"


WAITS = ("load_wait_margin", "trim_wait_margin", "cover_wait_margin", "bead_cure_reserve")


@cache
def example() -> tuple[Site, tuple[Opening, ...]]:
    folder = look_into(LARCH_COURT)
    assert isinstance(folder, Folder)
    site = load_site(folder)
    assert isinstance(site, SiteFile)
    loaded = load_records(folder, site.site)
    return site.site, tuple(record.opening for record in loaded if isinstance(record, Record))


def waits_of(own: Opening, others: list[Opening]) -> dict[tuple[str, Any], Outcome]:
    work = Work(own, Surroundings.of(example()[0], Method(), (own, *others)))
    return {(name, outcome.subject): outcome for name in WAITS for outcome in CATALOGUE[name].function(work)}


def without(opening: Opening, *gone: int) -> Opening:
    rest = tuple(read for number, read in enumerate(opening.climate) if number not in gone)
    return opening.model_copy(update={"climate": rest})


@pytest.mark.parametrize("mark", ["A-1.02", "B-0.01", "B-1.01"])
def test_no_reading_of_the_example_helps_by_being_left_out(mark: str) -> None:
    own = next(opening for opening in example()[1] if opening.mark == mark)
    others = [opening for opening in example()[1] if opening.mark != mark]
    before = waits_of(own, others)
    for number, read in enumerate(own.climate):
        after = waits_of(without(own, number), others)
        assert all(never_improves(before[what], after[what]) for what in before), read.at


def test_the_frosty_readings_of_the_example_cannot_be_left_out() -> None:
    own = next(opening for opening in example()[1] if opening.mark == "B-1.01")
    frosty = [number for number, read in enumerate(own.climate) if read.air_c is not None and read.air_c < 3]
    what = ("load_wait_margin", ())
    assert frosty
    assert judged(waits_of(own, [])[what]) == "does not conform"
    assert judged(waits_of(without(own, *frosty), [])[what]) != "conforms"


def test_no_reading_of_a_neighbour_in_the_example_helps_by_being_left_out() -> None:
    whole = next(opening for opening in example()[1] if opening.mark == "A-1.02")
    own = without(whole, *(number for number, read in enumerate(whole.climate) if read.at.hour != 16))
    near = next(opening for opening in example()[1] if opening.mark == "A-1.03")
    before = waits_of(own, [near])
    for number, read in enumerate(near.climate):
        after = waits_of(own, [without(near, number)])
        assert all(never_improves(before[what], after[what]) for what in before), read.at
