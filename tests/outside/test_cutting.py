"""Cutting lists against brute force, against an independent integer programme, and against themselves."""

import random
from collections import Counter
from functools import cache

import numpy as np
import pytest
from scipy.optimize import Bounds, LinearConstraint, milp

from revealbook.setting_out.cutting import Cut, CuttingList, cutting_list

KERF_MM = 4


def made(
    lengths: list[int], stock: tuple[int, ...], offcuts: tuple[int, ...] = (), kerf: int = KERF_MM
) -> CuttingList:
    cuts = [Cut(length, f"{number:03}") for number, length in enumerate(lengths)]
    found = cutting_list(cuts, stock, kerf_mm=kerf, usable_offcut_mm=500, offcuts_mm=offcuts)
    assert isinstance(found, CuttingList)
    return found


def least_by_trying_everything(
    lengths: list[int], stock: tuple[int, ...], offcuts: tuple[int, ...], kerf: int
) -> int:
    """Least new stock over all ways to share the pieces among bars. Of a bar in use only its room counts."""

    @cache
    def least(waiting: tuple[int, ...], bars: tuple[int, ...], store: tuple[int, ...]) -> int:
        if not waiting:
            return 0
        need, rest = waiting[0] + kerf, waiting[1:]
        costs = [
            least(rest, tuple(sorted((*bars[:index], room - need, *bars[index + 1 :]))), store)
            for index, room in enumerate(bars)
            if room >= need
        ]
        costs += [
            least(rest, tuple(sorted((*bars, room + kerf - need))), store[:index] + store[index + 1 :])
            for index, room in enumerate(store)
            if room + kerf >= need
        ]
        costs += [
            new + least(rest, tuple(sorted((*bars, new + kerf - need))), store)
            for new in stock
            if new + kerf >= need
        ]
        return min(costs)

    return least(tuple(sorted(lengths, reverse=True)), (), tuple(sorted(offcuts)))


@pytest.mark.parametrize("seed", range(60))
def test_small_jobs_buy_the_least_that_trying_everything_finds(seed: int) -> None:
    rng = random.Random(seed)
    lengths = [rng.choice((510, 635, 1010, 1390, 1480, 1996, 2260, 2998)) for _ in range(rng.randint(1, 8))]
    stock = rng.choice(((6000,), (3000,), (3000, 4500), (4000, 6000)))
    offcuts = tuple(rng.choice((700, 1400, 2100, 2600)) for _ in range(rng.randint(0, 2)))
    found = made(lengths, stock, offcuts)
    best = least_by_trying_everything(lengths, stock, offcuts, KERF_MM)
    assert found.bought_mm == best
    assert found.bound_mm <= best


@pytest.mark.parametrize("seed", range(6))
def test_the_bound_holds_against_an_assignment_programme(seed: int) -> None:
    """A different model of the same job: which piece lies on which bar, as 0/1 variables (Kantorovich)."""
    rng = random.Random(100 + seed)
    lengths = [rng.randint(900, 2900) for _ in range(12)]
    found = made(lengths, (6000,))
    bars, pieces = len(found.bars), len(lengths)
    cost = np.concatenate([np.ones(bars), np.zeros(bars * pieces)])
    once = np.zeros((pieces, len(cost)))
    room = np.zeros((bars, len(cost)))
    for bar in range(bars):
        room[bar, bar] = -(6000 + KERF_MM)
        for piece, length in enumerate(lengths):
            once[piece, bars + bar * pieces + piece] = 1
            room[bar, bars + bar * pieces + piece] = length + KERF_MM
    solved = milp(
        cost,
        constraints=[LinearConstraint(once, 1, 1), LinearConstraint(room, ub=0)],
        integrality=np.ones(len(cost)),
        bounds=Bounds(0, 1),
    )
    assert solved.success
    assert found.bound_mm <= 6000 * round(solved.fun) == found.bought_mm


def a_buildings_pieces(openings: int, seed: int) -> list[int]:
    rng = random.Random(seed)
    pieces = []
    for _ in range(openings):
        width, height = rng.randint(500, 2500), rng.randint(500, 2400)
        pieces += [width + 160, width + 160, height, height]
    return pieces


@pytest.mark.parametrize(
    ("stock", "offcuts"),
    [((6000,), ()), ((4000, 6000), ()), ((6000,), (2600, 1800, 900)), ((3000,), (1500,))],
)
def test_a_buildings_list_stays_within_a_hundredth_of_its_bound(
    stock: tuple[int, ...], offcuts: tuple[int, ...]
) -> None:
    found = made(a_buildings_pieces(60, seed=len(offcuts)), stock, offcuts)
    assert found.bound_mm <= found.bought_mm
    assert found.gap_pct <= 1.0 or found.bought_mm - found.bound_mm <= min(stock)


@pytest.mark.parametrize("seed", range(25))
def test_no_millimetre_is_lost_or_made(seed: int) -> None:
    rng = random.Random(seed)
    lengths = [rng.randint(400, 2900) for _ in range(rng.randint(1, 40))]
    stock = rng.choice(((6000,), (3000, 5000)))
    offcuts = tuple(rng.randint(400, 2500) for _ in range(rng.randint(0, 5)))
    kerf = rng.randint(0, 6)
    found = made(lengths, stock, offcuts, kerf)
    for bar in found.bars:
        cut = sum(one.length_mm for one in bar.cuts)
        assert bar.stock_mm == cut + bar.kerf_mm + bar.offcut_mm
        saw_cuts = len(bar.cuts) - 1 if bar.offcut_mm == 0 else len(bar.cuts)
        assert kerf * (len(bar.cuts) - 1) <= bar.kerf_mm <= kerf * len(bar.cuts)
        assert bar.offcut_mm == 0 or bar.kerf_mm == kerf * saw_cuts
    assert Counter(one.length_mm for bar in found.bars for one in bar.cuts) == Counter(lengths)
    assert not Counter(bar.stock_mm for bar in found.bars if bar.from_store) - Counter(offcuts)
    assert {bar.stock_mm for bar in found.bars if not bar.from_store} <= set(stock)
    used = sum(bar.stock_mm for bar in found.bars)
    assert found.waste_pct == pytest.approx(100 * (used - sum(lengths) - sum(found.returned_mm)) / used)
