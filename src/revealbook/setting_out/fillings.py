"""How a bar can be filled: patterns, the most valuable of them, and the bound that their values prove."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from math import gcd
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from revealbook.setting_out.stock import Demand, Size

Floats = NDArray[np.float64]

# Values come with the solver's tolerance (1e-7); a pattern must be worth more than that over its price.
TOLERANCE = 1e-6


class Pattern(NamedTuple):
    """What one bar is cut into: the size's index, and (index of the length, how many) pairs."""

    size: int
    pieces: tuple[tuple[int, int], ...]


@dataclass(frozen=True, slots=True)
class Task:
    """The problem in arrays: every length and bar grown by one kerf, so that kerfs add up."""

    demand: Demand
    sizes: tuple[Size, ...]
    weights: NDArray[np.int64]
    counts: NDArray[np.int64]
    capacities: tuple[int, ...]
    prices: tuple[float, ...]

    @property
    def stored(self) -> list[int]:
        """Give the indices of the sizes that lie in the store."""
        return [index for index, size in enumerate(self.sizes) if size.available is not None]

    def bought_mm(self) -> list[float]:
        """Give each size's length where it has to be bought, and 0 where it lies in the store."""
        return [float(size.length_mm) if size.available is None else 0.0 for size in self.sizes]


def task_of(demand: Demand, sizes: Sequence[Size]) -> Task:
    """Price new stock by its length; offcuts at so little that all of them weigh less than one bar's step."""
    step = gcd(*(size.length_mm for size in sizes if size.available is None))
    stored = sum(size.length_mm * size.available for size in sizes if size.available is not None)
    cheap = 0.5 * step / stored if stored else 0.0
    return Task(
        demand,
        tuple(sizes),
        np.array(demand.lengths_mm, dtype=np.int64) + demand.kerf_mm,
        np.array(demand.counts, dtype=np.int64),
        tuple(size.length_mm + demand.kerf_mm for size in sizes),
        tuple(size.length_mm * (1.0 if size.available is None else cheap) for size in sizes),
    )


@dataclass(frozen=True, slots=True)
class Fill:
    """The most valuable filling of every capacity at once (bounded knapsack by dynamic programming)."""

    weights: NDArray[np.int64]
    best: Floats
    taken: list[tuple[int, NDArray[np.bool_]]] = field(default_factory=list)

    def pieces(self, capacity: int, among: int) -> tuple[tuple[int, int], ...]:
        """Trace the best filling of ``capacity`` from the first ``among`` copies of pieces."""
        held: dict[int, int] = {}
        for item, taken in reversed(self.taken[:among]):
            if taken[capacity]:
                held[item] = held.get(item, 0) + 1
                capacity -= int(self.weights[item])
        return tuple(sorted(held.items()))


def filled(task: Task, values: Floats) -> Fill:
    """Fill every capacity with the pieces that are worth most, none more often than it is wanted."""
    most = max(task.capacities)
    best = np.zeros(most + 1)
    fill = Fill(task.weights, best)
    for item in np.flatnonzero(values > TOLERANCE):
        weight, value = int(task.weights[item]), values[item]
        for _ in range(min(int(task.counts[item]), most // weight)):
            with_it = best[:-weight] + value
            taken = np.zeros(most + 1, dtype=np.bool_)
            taken[weight:] = with_it > best[weight:] + TOLERANCE * 1e-3
            best[weight:] = np.maximum(best[weight:], with_it)
            fill.taken.append((int(item), taken))
    return fill


def worth_having(task: Task, fill: Fill, store_prices: Floats) -> Iterator[Pattern]:
    """Give patterns worth more than their stock costs: the best of each size, and some near to it."""
    for index, capacity in enumerate(task.capacities):
        price = task.prices[index] - store_prices[index]
        if fill.best[capacity] <= price + TOLERANCE * max(price, 1):
            continue
        seen = {fill.pieces(capacity, len(fill.taken))}
        yield Pattern(index, next(iter(seen)))
        for among in range(len(fill.taken) - 1, 0, -max(1, len(fill.taken) // 40)):
            pieces = fill.pieces(capacity, among)
            if pieces and pieces not in seen:
                seen.add(pieces)
                yield Pattern(index, pieces)


def proved_mm(task: Task, values: Floats, fill: Fill) -> float:
    """Bound the new stock from below: dual prices scaled down until they are feasible for every pattern."""
    scale = min(
        (
            size.length_mm / fill.best[capacity]
            for size, capacity in zip(task.sizes, task.capacities, strict=True)
            if size.available is None and fill.best[capacity] > size.length_mm
        ),
        default=1.0,
    )
    free = sum(
        float(fill.best[task.capacities[index]]) * (task.sizes[index].available or 0) for index in task.stored
    )
    return max(0.0, float(scale) * (float(values @ task.counts) - free) * (1 - 1e-9))
