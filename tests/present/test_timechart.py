"""The time chart: order, room and lengths on paper, whatever the record holds."""

from collections.abc import Sequence
from datetime import datetime, timedelta
from itertools import combinations, pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.present.judging import ENGLISH, PEOPLE, Changes, opening

from revealbook.present.timechart import WIDTH_MM, Bar, Flag, TimeChart, time_chart
from revealbook.present.timeline import Event, events

DAY = datetime.fromisoformat("2026-11-19T08:00:00+01:00")
LATE_FROM_TO = {"seals.events[2].at": "2026-11-20T12:00+01:00"}
"""The foam is trimmed an hour after it was filled in; it needs about four."""


def chart(changes: Changes | None = None) -> TimeChart:
    judged = opening(changes)
    found = time_chart(judged, events(judged.record.opening, ENGLISH, PEOPLE), ENGLISH)
    assert found is not None
    return found


def of(*moments: datetime, only_weather: Sequence[datetime] = ()) -> TimeChart:
    """The chart of an opening without waits, with an event at each moment."""
    worked = [Event(at, "", "work", "", ("",) * 4) for at in moments]
    read = [Event(at, "", "read", "", ("",) * 4, only_weather=True) for at in only_weather]
    bare = opening({"frame.bonding": None, "seals": None, "window": None})
    found = time_chart(bare, [*worked, *read], ENGLISH)
    assert found is not None
    return found


def day(number: int, hour: float = 8) -> datetime:
    return DAY + timedelta(days=number, hours=hour - 8)


def rooms_of(flags: Sequence[Flag]) -> list[tuple[Flag, Flag]]:
    """Every two numbers of one row whose rooms overlap."""
    return [
        (one, other)
        for one, other in combinations(flags, 2)
        if one.y == other.y
        and one.left < other.left + other.width - 1e-9
        and other.left < one.left + one.width - 1e-9
    ]


def assert_sound(found: TimeChart) -> None:
    """What holds for every chart: inside the paper, days in order, numbers apart."""
    edges = [place for tick in found.ticks for place in (tick.start, tick.end)]
    assert edges == sorted(edges)
    assert edges[0] == 0
    assert edges[-1] == pytest.approx(WIDTH_MM)
    assert all(0 <= flag.x <= WIDTH_MM + 1e-9 for flag in found.flags)
    assert all(flag.left >= 0 and flag.left + flag.width <= WIDTH_MM + 1e-9 for flag in found.flags)
    assert rooms_of(found.flags) == []
    assert max(flag.y for flag in found.flags) < found.axis_y < found.height
    for bar in found.bars:
        assert 0 <= bar.start <= bar.needed <= WIDTH_MM + 1e-9
        assert 0 <= bar.went_on <= WIDTH_MM + 1e-9
        assert found.axis_y < bar.y < found.height


def test_nothing_dated_gives_no_chart() -> None:
    assert time_chart(opening(), (), ENGLISH) is None


def test_the_conforming_record_has_a_sound_chart() -> None:
    found = chart()
    assert_sound(found)
    dated = events(opening().record.opening, ENGLISH, PEOPLE)
    assert [flag.number for flag in sorted(found.flags, key=lambda flag: flag.number)] == list(
        range(1, len(dated) + 1)
    )
    assert [tick.label for tick in found.ticks] == [
        "2026-11-17", "2026-11-19", "2026-11-20", "2026-11-21", "2026-11-22", "2026-11-23",
    ]  # fmt: skip


def test_between_days_the_axis_breaks_and_within_a_day_time_runs_evenly() -> None:
    found = of(day(0, 6), day(0, 13), day(9, 6), day(9, 13))
    first, second = found.ticks
    assert second.start - first.end == pytest.approx(4)
    assert first.end - first.start == pytest.approx(second.end - second.start)
    places = [flag.x for flag in found.flags]
    assert places[:2] == pytest.approx([0, (first.start + first.end) / 2])
    assert places[2:] == pytest.approx([second.start, (second.start + second.end) / 2])
    assert second.end == pytest.approx(WIDTH_MM)


def test_a_day_reaches_from_six_to_eight_in_the_evening_and_further_if_there_was_work() -> None:
    usual, early_and_late = of(day(0, 9), day(1, 9)), of(day(0, 9), day(1, 4), day(1, 23))
    widths = [[tick.end - tick.start for tick in found.ticks] for found in (usual, early_and_late)]
    assert widths[0][0] == pytest.approx(widths[0][1])
    assert widths[1][1] / widths[1][0] == pytest.approx((19 + 1 / 60) / 14)


def test_weather_alone_opens_no_day_and_stands_at_the_nearest_place() -> None:
    found = of(day(1), only_weather=[day(0), day(5)])
    assert len(found.ticks) == 1
    assert {flag.number: flag.x for flag in found.flags if flag.number > 1} == {2: 0, 3: WIDTH_MM}
    assert_sound(found)


def test_if_nothing_but_weather_was_read_its_days_are_the_axis() -> None:
    assert [tick.label for tick in of(only_weather=[day(0), day(5)]).ticks] == ["2026-11-19", "2026-11-24"]


@pytest.mark.parametrize(
    "moments",
    [
        [DAY],
        [DAY] * 12,
        [DAY + timedelta(seconds=second) for second in range(40)],
        [day(0, 23.995), day(1, 0.001)],
        [day(0, 0), day(0, 24)],
        [day(3), day(1), day(2), day(1, 7)],
        [datetime.fromisoformat("2026-10-25T02:50+02:00"), datetime.fromisoformat("2026-10-25T02:10+01:00")],
        [datetime.fromisoformat("2026-03-29T01:59+01:00"), datetime.fromisoformat("2026-03-29T03:01+02:00")],
        [day(number) for number in range(20)],
        [day(number) for number in range(300)],
    ],
    ids=["one", "equal", "in a minute", "over midnight", "at midnight", "unordered", "autumn", "spring",
         "twenty days", "three hundred days"],
)  # fmt: skip
def test_whatever_the_moments_the_chart_is_sound(moments: list[datetime]) -> None:
    found = of(*moments)
    assert_sound(found)
    assert len(found.flags) == len(moments)


@settings(max_examples=60, deadline=None)
@given(st.lists(st.integers(0, 40 * 24 * 60), min_size=1, max_size=40))
def test_any_moments_stand_in_their_order(minutes: list[int]) -> None:
    found = of(*(DAY + timedelta(minutes=minute) for minute in sorted(minutes)))
    assert_sound(found)
    places = [flag.x for flag in sorted(found.flags, key=lambda flag: flag.number)]
    assert all(one <= other + 1e-9 for one, other in pairwise(places))


def test_dates_never_stand_in_one_another() -> None:
    """A date takes about 13 mm at 2.5 mm type."""
    found = of(*(day(number) for number in range(25)))
    named = [(tick.start + tick.end) / 2 for tick in found.ticks if tick.label]
    assert 5 < len(named) < 25
    assert all(other - one >= 13 for one, other in pairwise(named))


def test_near_numbers_stand_above_one_another_and_far_ones_in_one_row() -> None:
    near = of(*(DAY + timedelta(minutes=minute) for minute in range(3)))
    assert len({flag.y for flag in near.flags}) == 3
    far = of(day(0), day(0, 12), day(0, 16))
    assert len({flag.y for flag in far.flags}) == 1
    assert near.height - far.height == pytest.approx(2 * 4.4)


def waits(found: TimeChart) -> dict[str, Bar]:
    return {bar.label: bar for bar in found.bars}


def test_each_wait_has_its_bar_in_the_order_of_start_need_and_going_on() -> None:
    found = waits(chart())
    assert list(found) == [
        "adhesive, before it carried the window",
        "foam, before the trim",
        "adhesive, before it was covered",
        "inner tape, before it was covered",
        "foam, before it was covered",
        "outer tape, before it was covered",
    ]
    assert all(bar.start < bar.needed <= bar.went_on and not bar.short for bar in found.values())


def test_rows_of_bars_and_nothing_else_add_to_the_height() -> None:
    found = chart()
    gaps = {round(other.y - one.y, 6) for one, other in pairwise(found.bars)}
    assert gaps == {9.1}
    assert found.height == pytest.approx(found.axis_y + 7 + 9.1 * len(found.bars))
    assert chart(LATE_FROM_TO).height == pytest.approx(found.height, abs=4.4)


def test_a_wait_that_was_too_short_is_flagged_with_what_it_lacks() -> None:
    bar = waits(chart(LATE_FROM_TO))["foam, before the trim"]
    assert bar.short
    assert bar.start < bar.went_on < bar.needed
    assert bar.note.replace("\u00a0", " ") == "4.1 h needed, 1 h waited"
    assert "1 of them too short" in chart(LATE_FROM_TO).title
    assert "0 of them too short" in chart().title


def test_a_bar_begins_and_ends_at_the_numbers_of_its_events() -> None:
    judged = opening()
    listed = events(judged.record.opening, ENGLISH, PEOPLE)
    found = chart()
    at = {event.what: flag.x for event, flag in zip(
        listed, sorted(found.flags, key=lambda flag: flag.number), strict=True)}  # fmt: skip
    bar = waits(found)["adhesive, before it carried the window"]
    assert bar.start == pytest.approx(at["last frame piece pressed on"])
    assert bar.went_on == pytest.approx(at["window set"])


def test_work_that_went_on_before_its_wait_began_is_short_and_drawn_inside() -> None:
    found = chart({"window.set_at": "2026-11-19T09:00+01:00"})
    assert_sound(found)
    bar = waits(found)["adhesive, before it carried the window"]
    assert bar.short
    assert bar.went_on < bar.start == bar.needed


def test_a_wait_nobody_can_tell_has_no_bar() -> None:
    assert "foam, before the trim" not in waits(chart({"seals.events[2].at": None}))
