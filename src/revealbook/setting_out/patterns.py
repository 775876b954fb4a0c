"""Cutting patterns: the linear bound by column generation, and a plan by an integer programme over them.

Method: Gilmore and Gomory's column generation for the cutting-stock problem (textbook); the bound after any
round by scaling the dual prices until no pattern is worth more than its stock costs (Farley's bound,
textbook). Both programmes are solved with HiGHS through scipy. Imported only where a cutting list is really
sought, because scipy takes its time to load.
"""

from collections.abc import Callable, Sequence
from itertools import chain
from time import monotonic
from typing import Any, NamedTuple

import numpy as np
from scipy.optimize import Bounds, LinearConstraint, linprog, milp
from scipy.sparse import csc_array

from revealbook.setting_out.fillings import Floats, Pattern, Task, filled, proved_mm, task_of, worth_having
from revealbook.setting_out.first_fit import shortest_holding
from revealbook.setting_out.full_bars import full_bars
from revealbook.setting_out.stock import Demand, Plan, Size

# Share of the time that the bound may take; the rest is for the plan.
BOUND_SHARE = 0.6
# A plan this near to the bound is not worth the integer programme's time (one bar in 200).
GOOD_ENOUGH = 0.005
# A linear solution this near to its bound gains nothing by further patterns.
BOUND_NEAR = 0.001
# How much of a pattern the linear solution must hold for it to be rounded up.
ROUNDED_UP_FROM = (0.9, 0.7, 0.5, 0.3, 0.1)
# A node limit instead of the clock alone, so that the same input gives the same plan.
NODE_LIMIT = 2_000


def _matrix(task: Task, patterns: Sequence[Pattern]) -> csc_array:
    """Give a row per piece length (made at least as often as wanted) and per offcut size (what is there)."""
    cells = [(item, k, -count) for k, pattern in enumerate(patterns) for item, count in pattern.pieces]
    row_of = {index: len(task.weights) + row for row, index in enumerate(task.stored)}
    cells += [(row_of[p.size], k, 1) for k, p in enumerate(patterns) if p.size in row_of]
    rows, columns, data = zip(*cells, strict=True)
    shape = (len(task.weights) + len(task.stored), len(patterns))
    return csc_array((np.array(data, dtype=float), (rows, columns)), shape=shape)


def _limits(task: Task) -> Floats:
    return np.array(
        [*-task.counts, *(task.sizes[index].available or 0 for index in task.stored)], dtype=float
    )


class _Relaxed(NamedTuple):
    """The linear solution: how often each pattern, the proved bound, whether the search came to its end."""

    times: dict[Pattern, float]
    bound_mm: float
    finished: bool


def _relaxed(
    task: Task, patterns: dict[Pattern, None], deadline: float, settled: Callable[[float, float], bool]
) -> _Relaxed:
    """Add patterns until none is worth its stock, or what is bought cannot get less."""
    bound = 0.0
    while True:
        known = list(patterns)
        costs = [task.prices[pattern.size] for pattern in known]
        solved: Any = linprog(costs, A_ub=_matrix(task, known), b_ub=_limits(task), method="highs")
        prices = -solved.ineqlin.marginals
        store_prices = np.zeros(len(task.sizes))
        store_prices[task.stored] = -prices[len(task.weights) :]
        values = np.maximum(prices[: len(task.weights)], 0.0)
        fill = filled(task, values)
        bound = max(bound, proved_mm(task, values, fill))
        patterns.update(dict.fromkeys(worth_having(task, fill, store_prices)))
        bought = sum(task.bought_mm()[p.size] * x for p, x in zip(known, solved.x, strict=True))
        finished = len(patterns) == len(known) or settled(bound, bought)
        if finished or monotonic() > deadline:
            return _Relaxed(dict(zip(known, map(float, solved.x), strict=True)), bound, finished)


def _rounded(task: Task, relaxed: _Relaxed, up_from: float) -> tuple[tuple[int, tuple[int, ...]], ...]:
    """Take the linear solution's patterns as whole bars while they fit, then fill bars with what is left."""
    wanted, left = task.counts.copy(), [size.available for size in task.sizes]
    bars: list[tuple[int, tuple[int, ...]]] = []
    for pattern, times in sorted(relaxed.times.items(), key=lambda one: (-one[1], one[0])):
        items = np.array([item for item, count in pattern.pieces for _ in range(count)])
        made = np.bincount(items, minlength=len(wanted))
        for _ in range(int(times + 1 - up_from)):
            stored = left[pattern.size]
            if stored == 0 or (made > wanted).any():
                break
            wanted -= made
            left[pattern.size] = None if stored is None else stored - 1
            bars.append((pattern.size, tuple(task.demand.lengths_mm[item] for item in items)))
    rest = [(length, int(n)) for length, n in zip(task.demand.lengths_mm, wanted, strict=True) if n]
    demand = Demand(tuple(length for length, _ in rest), tuple(n for _, n in rest), task.demand.kerf_mm)
    sizes = [Size(size.length_mm, count) for size, count in zip(task.sizes, left, strict=True)]
    return (*bars, *full_bars(demand, sizes).bars)


def _chosen(task: Task, patterns: Sequence[Pattern], seconds: float) -> tuple[list[Pattern], bool]:
    """Solve the integer programme over the known patterns; say whether it came to its end."""
    solved: Any = milp(
        [task.prices[pattern.size] for pattern in patterns],
        constraints=LinearConstraint(_matrix(task, patterns), ub=_limits(task)),
        integrality=np.ones(len(patterns)),
        bounds=Bounds(lb=0),
        options={"time_limit": max(seconds, 0.1), "node_limit": NODE_LIMIT, "mip_rel_gap": 1e-4},
    )
    times = np.zeros(len(patterns), dtype=int) if solved.x is None else np.rint(solved.x).astype(int)
    bars = chain.from_iterable([p] * int(n) for p, n in zip(patterns, times, strict=True))
    return list(bars), solved.status == 0


def _without_surplus(task: Task, chosen: Sequence[Pattern]) -> tuple[tuple[int, tuple[int, ...]], ...]:
    """Leave out pieces made more often than wanted, and take the shortest stock that holds the rest."""
    wanted = task.counts.copy()
    bars = []
    for pattern in chosen:
        lengths: list[int] = []
        for item, count in pattern.pieces:
            made = min(count, int(wanted[item]))
            wanted[item] -= made
            lengths += [task.demand.lengths_mm[item]] * made
        if lengths:
            bars.append((shortest_holding(pattern.size, lengths, task.demand, task.sizes), tuple(lengths)))
    return tuple(bars)


def _first_patterns(task: Task, start: Plan) -> dict[Pattern, None]:
    place = {length: item for item, length in enumerate(task.demand.lengths_mm)}
    bars = ((index, [place[length] for length in lengths]) for index, lengths in start.bars)
    return dict.fromkeys(
        Pattern(index, tuple((item, items.count(item)) for item in sorted(set(items))))
        for index, items in bars
    )


def best_plan(
    demand: Demand,
    sizes: Sequence[Size],
    start: Plan,
    time_limit_s: float,
    attainable: Callable[[float], int],
) -> Plan:
    """Find a plan that buys the least new stock, with a proved bound.

    Args:
        demand: the pieces.
        sizes: offcuts in the store and stock to buy.
        start: a plan that works, from which the search starts and which it falls back on.
        time_limit_s: when to stop.
        attainable: rounds a bound up to the next total that whole bars can have.
    """
    task, began = task_of(demand, sizes), monotonic()
    patterns = _first_patterns(task, start)
    relaxed = _relaxed(
        task,
        patterns,
        began + BOUND_SHARE * time_limit_s,
        lambda proved, bought: (
            attainable(proved) >= min(attainable(bought), start.bought_mm(sizes))
            or proved >= (1 - BOUND_NEAR) * bought
        ),
    )
    rounded = (_rounded(task, relaxed, up_from) for up_from in ROUNDED_UP_FROM)
    plans = [start, *(Plan(bars, 0.0, "column generation, rounded") for bars in rounded)]
    least, finished = min(plan.bought_mm(sizes) for plan in plans), relaxed.finished
    if least > (1 + GOOD_ENOUGH) * attainable(relaxed.bound_mm):
        chosen, ended = _chosen(task, list(patterns), time_limit_s - (monotonic() - began))
        finished = finished and ended
        if chosen:
            bars = _without_surplus(task, chosen)
            plans.append(Plan(bars, 0.0, "column generation and an integer programme"))
    plan = min(plans, key=lambda one: one.cost_mm(sizes))
    cut_short = "" if finished else ", search stopped by its limits"
    return plan._replace(bound_mm=relaxed.bound_mm, method=plan.method + cut_short)
