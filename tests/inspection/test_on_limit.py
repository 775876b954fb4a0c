from collections import Counter
from collections.abc import Iterable
from random import Random
from types import SimpleNamespace
from typing import Any

import pytest
from tests.inspection.asking import ask

from revealbook.inspection.chance import heaped
from revealbook.inspection.on_limit import (
    _counted,
    _fits,
    _heap,
    _on,
    _side,
    _tail,
    _thinned,
    _used,
    on_limit,
)
from revealbook.inspection.question import Evidence, Spot
from revealbook.measures.reading import Missing, Reading
from revealbook.rules.finding import Finding, Outcome
from revealbook.rules.limit import Limit


def overlaps(random: Random, share: float, number: int = 40) -> dict[str, dict[str, object]]:
    """Openings whose bottom pieces run 87 mm past, give or take; a share of them is written as 80."""

    def read() -> float:
        return 80.0 if random.random() < share else float(max(80, round(random.gauss(87, 1))))

    sides = [f"frame.pieces.bottom.overlap_{side}_mm" for side in ("left", "right")]
    return {f"W-{n:02}": {side: read() for side in sides} for n in range(number)}


def test_a_heap_exactly_on_the_limit_is_asked_about() -> None:
    (found,) = ask(on_limit, overlaps(Random(1), 0.5))
    assert found.facts["rule"] == "frame-overlap"
    assert found.facts["limit"] == 80
    assert found.chance is not None
    assert found.chance < 0.01
    assert len(found.spots) == found.facts["on"]


def test_a_smooth_scatter_that_reaches_the_limit_is_not() -> None:
    assert ask(on_limit, overlaps(Random(1), 0.02)) == []


def test_who_aims_at_the_limit_and_hits_it_is_not_asked() -> None:
    random = Random(1)
    side = "frame.pieces.bottom.overlap_left_mm"
    assert ask(on_limit, {f"W-{n:02}": {side: float(round(random.gauss(80, 1)))} for n in range(40)}) == []


def test_who_reads_to_five_millimetres_is_not_asked() -> None:
    random = Random(1)
    side = "frame.pieces.bottom.overlap_left_mm"
    read = {f"W-{n:02}": {side: float(5 * round(random.gauss(83, 2) / 5))} for n in range(40)}
    assert ask(on_limit, read) == []


@pytest.mark.parametrize("seed", range(5))
def test_readings_that_some_take_to_five_millimetres_are_not_asked_about(seed: int) -> None:
    random = Random(seed)
    sides = [f"frame.pieces.bottom.overlap_{side}_mm" for side in ("left", "right")]

    def read() -> float:
        step = random.choice((1, 1, 5))
        return float(step * round(random.gauss(83, 2) / step))

    assert ask(on_limit, {f"W-{n:02}": {side: read() for side in sides} for n in range(40)}) == []


def test_a_reading_lies_on_a_grid_by_its_value_and_not_by_its_distance_from_the_limit() -> None:
    assert _on([0.3, 0.2], limit=80.2, step=0.5) == 1


def test_coarse_lines_give_up_what_their_share_explains_and_fine_ones_keep_everything() -> None:
    read = Counter({0: 10, 1: 3, -2: 1, 3: 7, 5: 4, 7: 2})
    assert _thinned(read, apart=5, share=0.5) == Counter({0: 3, 1: 3, -2: 1, 3: 7, 7: 2})


def test_a_grid_is_in_use_only_beyond_two_and_a_half_standard_deviations() -> None:
    # 25 readings taken on 1 mm: 5 of them lie on a 5 mm grid by coincidence, with a deviation of 2
    def taken(on: int) -> list[float]:
        return [5.0] * on + [1.0] * (25 - on)

    assert not _used(taken(10), limit=80, finest=1, step=5)
    assert _used(taken(11), limit=80, finest=1, step=5)


def test_a_heap_is_held_against_the_two_steps_beside_it_and_those_from_the_fourth_to_the_eighth() -> None:
    read = Counter({0: 9, 1: 2, 2: 1, 3: 50, 4: 1, 6: 1, 8: 2, 9: 50, -1: 50})
    assert _heap(read) == heaped(9, 3, 4, 4)


def finding(value: Any, **limit: Any) -> Finding:
    return Finding(Outcome.CONFORMS, (), Reading((), value, ("frame", "at")), Limit(**limit))


@pytest.mark.parametrize(
    ("value", "limit", "side"),
    [
        (82.0, {"low": 80}, (80, False, 2)),
        (79.0, {"low": 80}, (80, False, -1)),
        (2.0, {"high": 3}, (3, True, 1)),
        (160.0, {"low": 150, "high": 200}, (150, False, 10)),
        (195.0, {"low": 150, "high": 200}, (200, True, 5)),
        (True, {"low": 80}, None),
        ("left", {"low": 80}, None),
        (82.0, {}, None),
    ],
)
def test_a_reading_is_held_against_the_limit_nearer_to_it(
    value: Any, limit: dict[str, float], side: tuple[float, bool, float] | None
) -> None:
    assert _side(finding(value, **limit)) == side


def test_what_has_no_limit_or_no_reading_lies_on_none() -> None:
    assert _side(Finding(Outcome.NOT_SHOWN, (), Missing((), "at", ()), Limit(low=80))) is None
    assert _side(Finding(Outcome.NOT_SHOWN, (), Reading((), 80.0, ()), None)) is None


def readings(values: Iterable[float], unit: str = "mm", **limit: float) -> Evidence:
    """One reading of one rule in each opening."""
    held: Any = SimpleNamespace(rule=SimpleNamespace(unit=unit))
    openings = [
        SimpleNamespace(
            mark=f"W-{number}",
            judgements=[SimpleNamespace(held=held, rule_id="some-rule", findings=[finding(value, **limit)])],
        )
        for number, value in enumerate(values)
    ]
    site: Any = SimpleNamespace(openings=openings)
    return Evidence(site)


def test_ten_of_thirteen_readings_on_a_limit_are_a_heap_and_of_twelve_are_none() -> None:
    values = [80.0] * 10 + [85.0, 86.0, 87.0]
    (found,) = on_limit(readings(values, low=80))
    assert found.facts == {"rule": "some-rule", "on": 10, "readings": 13, "limit": 80}
    assert found.openings == tuple(f"W-{number}" for number in range(10))
    assert found.spots == tuple(Spot(mark, ("frame", "at")) for mark in found.openings)
    assert found.comparisons == 1
    assert list(on_limit(readings(values[1:], low=80))) == []


def test_below_a_limit_a_heap_is_one_as_well() -> None:
    (found,) = on_limit(readings([3.0] * 10 + [-2.0, -3.0, -4.0], high=3))
    assert found.facts["limit"] == 3
    assert list(on_limit(readings([3.0] * 10 + [8.0, 9.0, 10.0], high=3))) == []


@pytest.mark.parametrize("unit", ["number", "-", "yes/no", "choice"])
def test_what_is_counted_or_chosen_scatters_around_no_limit(unit: str) -> None:
    assert list(on_limit(readings([80.0] * 10 + [85.0, 86.0, 87.0], unit, low=80))) == []


@pytest.mark.parametrize(("value", "fits"), [(80.5, True), (80.50000001, True), (80.51, False), (80.0, True)])
def test_a_reading_fits_a_grid_but_for_rounding(value: float, fits: bool) -> None:
    assert _fits(value, 0.5) is fits


def test_readings_are_counted_by_their_steps_from_the_limit() -> None:
    assert _counted([0.0, 1.0, 1.0, -0.5, 0.3], 0.5) == Counter({0: 1, 2: 2, -1: 1})


@pytest.mark.parametrize("step", [0.1, 0.5, 1.0, 5.0, 10.0])
def test_the_grid_is_the_coarsest_that_all_readings_off_the_limit_lie_on(step: float) -> None:
    """So a heap is counted in steps of the grid that people read on, of whichever."""
    inside = [0.0] * 9 + [4 * step, 5 * step, 5 * step, 7 * step]
    assert _tail(inside, 0) == heaped(9, 0, 4, 4)


def test_readings_on_no_known_grid_are_counted_on_the_finest() -> None:
    assert _tail([0.0] * 9 + [0.15, 0.44, 0.5, 0.7], 0) == heaped(9, 0, 2, 4)


def test_a_coarser_grid_in_use_by_some_lowers_what_stands_on_the_limit() -> None:
    """20 of 30 readings off the limit are taken to 5 mm: the lines are thinned by that share."""
    off = [5.0] * 12 + [10.0] * 8 + [1.0, 2.0, 3.0, 4.0, 6.0, 7.0, 8.0, 9.0, 11.0, 12.0]
    inside = [0.0] * 12 + off
    by_fives = heaped(12, 20, 0, 4)
    # around the limit, within 2 mm: 12 + 1 + 1; two thirds of them are explained, rounded up
    by_one = heaped(12 - 10, 2, 1 + (12 - 10) + 1 + 1 + 1, 4)
    assert _tail(inside, 100) == max(by_fives, by_one)
