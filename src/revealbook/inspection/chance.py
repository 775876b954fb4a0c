"""Chances of coincidences, and how many comparisons they must be held against."""

from collections.abc import Sequence
from functools import lru_cache
from math import exp, lgamma
from typing import NamedTuple


def all_counted(chance: float, comparisons: float) -> float:
    """Give the chance of one such coincidence or more in so many comparisons, at most (Bonferroni)."""
    return min(1.0, chance * max(comparisons, 1))


def at_least(matches: int, chances: Sequence[float]) -> float:
    """Give the probability of at least so many successes in independent trials of unequal chance.

    The sum over the Poisson binomial distribution, trial by trial (textbook).
    """
    return _at_least(matches, tuple(sorted(chances)))


@lru_cache(maxsize=4096)
def _at_least(matches: int, chances: tuple[float, ...]) -> float:
    spread = [1.0] + [0.0] * len(chances)
    for done, chance in enumerate(chances):
        for number in range(done + 1, 0, -1):
            spread[number] = spread[number] * (1 - chance) + spread[number - 1] * chance
        spread[0] *= 1 - chance
    return sum(spread[matches:])


class Tail(NamedTuple):
    """A chance, and the smallest that the same readings could have given."""

    chance: float
    least: float


def heaped(on: int, next_in: int, further_in: int, reach: int = 2) -> Tail:
    """Give the chance of so many readings on one step, from those on the steps inside it.

    Readings that scatter in one hump rise and fall smoothly: their shares p are log-concave, as those of
    a rounded normal distribution are. Then p0^(r-1) p(i1+...+ir) <= p(i1)...p(ir), and hence p0^(r-1) times
    the share of the steps m+1 to rm is at most the r-th power of the share of the steps 1 to m. At that bound
    the three shares are as 1, t and t^r with an unknown t; given the total and next_in + r further_in, the
    number on the first no longer depends on t, so that the test is exact (conditional test of an
    exponential family; textbook).

    Args:
        on: readings exactly on the step in question.
        next_in: readings on the m steps next to it.
        further_in: readings on the steps after those, as far as the `reach` times m-th.
        reach: r, at least 2.
    """
    total, weighted = on + next_in + further_in, next_in + reach * further_in
    weights = {}
    for further in range(weighted // reach + 1):
        between = weighted - reach * further
        first = total - between - further
        if first >= 0:
            weights[first] = -sum(lgamma(n + 1) for n in (first, between, further))
    top = max(weights.values())
    whole = sum(exp(weight - top) for weight in weights.values())
    tail = sum(exp(weight - top) for first, weight in weights.items() if first >= on)
    return Tail(tail / whole, exp(weights[max(weights)] - top) / whole)


def worth_counting(least: Sequence[float], allowed: float) -> int:
    """Give how many comparisons count: those that could come out unlikely (Tarone 1990, from memory).

    Args:
        least: the smallest chance that each comparison could have given.
        allowed: the chance allowed for all of them together.
    """
    for number in range(1, len(least) + 1):
        if sum(chance <= allowed / number for chance in least) <= number:
            return number
    return max(len(least), 1)
