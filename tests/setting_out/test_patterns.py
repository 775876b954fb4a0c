from collections import Counter
from itertools import count
from time import monotonic
from typing import Any

import pytest

from revealbook.setting_out import patterns
from revealbook.setting_out.fillings import Pattern, task_of
from revealbook.setting_out.first_fit import first_fit
from revealbook.setting_out.patterns import _chosen, _without_surplus, best_plan
from revealbook.setting_out.stock import Demand, Plan, Size

DEMAND = Demand((2998, 2260, 1996, 1480, 1390, 1300, 1010, 635), (1, 1, 1, 1, 3, 2, 1, 2), 4)
SIZES = (Size(6000, None),)


def whole_bars(mm: float) -> int:
    return -(-int(mm - 1e-4) // 6000) * 6000


def found(time_limit_s: float = 10.0, sizes: tuple[Size, ...] = SIZES) -> Plan:
    return best_plan(DEMAND, sizes, first_fit(DEMAND, sizes), time_limit_s, whole_bars)


def test_patterns_find_a_bar_less_than_first_fit() -> None:
    assert first_fit(DEMAND, SIZES).bought_mm(SIZES) == 24000
    assert found().bought_mm(SIZES) == 18000


def test_the_bound_lies_below_the_plan_and_above_nothing() -> None:
    plan = found()
    assert 17000 < plan.bound_mm <= 18000


def test_every_piece_is_cut_exactly_once() -> None:
    cut = Counter(length for _, lengths in found().bars for length in lengths)
    assert cut == Counter(DEMAND.pieces())


def test_no_bar_holds_more_than_its_length() -> None:
    assert all(sum(lengths) + 4 * (len(lengths) - 1) <= 6000 for _, lengths in found().bars)


def test_an_offcut_is_never_used_more_often_than_it_is_there() -> None:
    sizes = (Size(1400, 2), Size(2700, 2), *SIZES)
    used = Counter(index for index, _ in found(sizes=sizes).bars)
    assert used[0] <= 2
    assert used[1] <= 2
    assert found(sizes=sizes).bought_mm(sizes) == 12000


def test_a_search_out_of_time_still_answers_and_says_so() -> None:
    large = Demand(tuple(range(2999, 999, -5)), (2,) * 400, 4)
    start = first_fit(large, SIZES)
    plan = best_plan(large, SIZES, start, 0.0, whole_bars)
    assert plan.bought_mm(SIZES) <= start.bought_mm(SIZES)
    assert "stopped by its limits" in plan.method


def test_the_same_job_gives_the_same_plan() -> None:
    assert found() == found()


def test_pieces_made_more_often_than_wanted_are_left_out_and_the_bar_shortened() -> None:
    sizes = (Size(6000, None), Size(3000, None))
    task = task_of(Demand((2000, 1400), (3, 1), 4), sizes)
    twice = [Pattern(0, ((0, 2), (1, 1)))] * 2
    assert _without_surplus(task, twice) == ((0, (2000, 2000, 1400)), (1, (2000,)))
    assert _without_surplus(task, [*twice, Pattern(0, ((1, 4),))]) == _without_surplus(task, twice)


def test_the_integer_programme_takes_the_cheapest_patterns_that_cover_the_pieces() -> None:
    task = task_of(Demand((2000, 1400), (3, 1), 4), SIZES)
    patterns = [Pattern(0, ((0, 1),)), Pattern(0, ((0, 2),)), Pattern(0, ((0, 2), (1, 1)))]
    chosen, ended = _chosen(task, patterns, 5.0)
    assert ended
    assert len(chosen) == 2
    assert patterns[2] in chosen


FULL = Demand((6000,), (200,), 0)
"""Two hundred whole bars: every plan buys 1,200 m."""


def searched(monkeypatch: pytest.MonkeyPatch, bound_mm: float, seconds: float = 10.0) -> dict[str, Any]:
    """What the search for a plan was told, the linear bound being given and every clock reading 3 s later."""
    told: dict[str, Any] = {}
    clock = count(100, 3)

    def relaxed(_task: object, _patterns: object, deadline: float, settled: object) -> object:
        told.update(deadline=deadline, settled=settled)
        return patterns._Relaxed({}, bound_mm, finished=True)

    def chosen(_task: object, _patterns: object, left: float) -> tuple[list[Pattern], bool]:
        told["left"] = left
        return [], True

    monkeypatch.setattr(patterns, "monotonic", lambda: float(next(clock)))
    monkeypatch.setattr(patterns, "_relaxed", relaxed)
    monkeypatch.setattr(patterns, "_chosen", chosen)
    best_plan(FULL, SIZES, first_fit(FULL, SIZES), seconds, int)
    return told


def test_the_bound_may_take_three_fifths_of_the_time_and_the_plan_what_is_left(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    told = searched(monkeypatch, 1_000_000)
    assert told["deadline"] == 106
    assert told["left"] == 7


def test_a_plan_within_half_a_percent_of_the_bound_is_good_enough(monkeypatch: pytest.MonkeyPatch) -> None:
    assert "left" not in searched(monkeypatch, 1_194_030)  # 1.005 times that is 1,200,000.15 mm
    assert "left" in searched(monkeypatch, 1_194_029)


def test_a_bound_within_a_thousandth_or_on_the_same_number_of_bars_is_settled(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    settled = searched(monkeypatch, 1_000_000)["settled"]
    assert not settled(998_900, 1_000_000)
    assert settled(999_100, 1_000_000)
    assert settled(1_000.2, 1_000.9)
    assert settled(1_200_000, 1_300_000)  # nothing is saved beside the plan to start from
    assert not settled(1_199_000, 1_300_000)


def test_a_pattern_is_rounded_up_from_the_share_that_is_asked() -> None:
    task = task_of(Demand((2000,), (6,), 0), SIZES)
    single = patterns._Relaxed({Pattern(0, ((0, 1),)): 1.5}, 0.0, finished=True)
    one, two, three = ((0, (2000,) * number) for number in (1, 2, 3))
    assert patterns._rounded(task, single, 0.5) == (one, one, three, one)
    assert patterns._rounded(task, single, 0.75) == (one, three, two)


def test_a_pattern_is_not_taken_for_more_pieces_or_offcuts_than_there_are() -> None:
    sizes = (Size(2500, 1), Size(6000, None))
    task = task_of(Demand((2000,), (3,), 0), sizes)
    stored = patterns._Relaxed({Pattern(0, ((0, 1),)): 2.0, Pattern(1, ((0, 2),)): 2.0}, 0.0, finished=True)
    assert patterns._rounded(task, stored, 0.5) == ((0, (2000,)), (1, (2000, 2000)))


def test_the_linear_search_ends_once_nothing_is_worth_its_stock_or_all_is_settled_or_time_is_up() -> None:
    task = task_of(DEMAND, SIZES)
    start = patterns._first_patterns(task, first_fit(DEMAND, SIZES))

    def ended(deadline: float, *, settled: bool) -> patterns._Relaxed:
        return patterns._relaxed(task, dict(start), deadline, lambda _proved, _bought: settled)

    through = ended(monotonic() + 5, settled=False)
    assert through.finished
    assert len(through.times) > len(start)
    at_once = ended(monotonic() + 5, settled=True)
    assert at_once.finished
    assert set(at_once.times) == set(start)
    cut_short = ended(0, settled=False)
    assert not cut_short.finished
    assert 0 < cut_short.bound_mm <= through.bound_mm
    assert set(cut_short.times) == set(start)


def test_first_patterns_say_how_often_each_length_stands_on_a_bar() -> None:
    task = task_of(Demand((2000, 1400), (4, 1), 0), SIZES)
    start = Plan(((0, (2000, 2000, 1400)), (0, (2000,)), (0, (2000,))), 0.0, "")
    assert list(patterns._first_patterns(task, start)) == [
        Pattern(0, ((0, 2), (1, 1))),
        Pattern(0, ((0, 1),)),
    ]
