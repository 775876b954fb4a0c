"""Reactions under a stiff sill that runs over several supports: the other bound beside the lever rule.

Equation of three moments (Clapeyron; textbook statics, from memory): equal stiffness throughout, supports
that do not give. An inner support then gets more than from spans hinged over it: 5/8 instead of 1/2 of an
even load on three supports. For two supports both are the same.

Indicative only: loads defer to local codes, the supplier's written instructions and a licensed engineer.
"""

from collections.abc import Sequence
from itertools import pairwise

from revealbook.measures.physics.support_reactions import SpreadLoad, support_reactions_n


def continuous_reactions_n(supports_mm: Sequence[float], load: SpreadLoad) -> tuple[float, ...]:
    """Return the force of each support in N under a spread load; negative where the sill is lifted.

    Args:
        supports_mm: middles of the supports along the sill, rising, at least two.
        load: spread evenly along the same scale; it may reach beyond the outermost supports.

    Raises:
        ValueError: fewer than two supports, supports out of order, or a load below zero.
    """
    reactions = list(support_reactions_n(supports_mm, [load]))
    spans = [after - before for before, after in pairwise(supports_mm)]
    for inner, moment in enumerate(_inner_moments(supports_mm, spans, load), start=1):
        left, right = moment / spans[inner - 1], moment / spans[inner]
        reactions[inner - 1] += left
        reactions[inner] -= left + right
        reactions[inner + 1] += right
    return tuple(reactions)


def _inner_moments(supports_mm: Sequence[float], spans: Sequence[float], load: SpreadLoad) -> list[float]:
    """Solve the equations of three moments from the left to the right and back; Nmm, minus over a support."""
    per_mm = load.load_n / (load.to_mm - load.from_mm)
    first, last = supports_mm[0], supports_mm[-1]
    known_left = -per_mm * max(first - load.from_mm, 0.0) ** 2 / 2
    known_right = -per_mm * max(load.to_mm - last, 0.0) ** 2 / 2
    factors, sides = [0.0], [known_left]
    for inner in range(1, len(spans)):
        before, after = spans[inner - 1], spans[inner]
        loaded = _load_term(supports_mm[inner - 1], before, load, 1)
        loaded += _load_term(supports_mm[inner + 1], after, load, -1)
        pivot = 2 * (before + after) - before * factors[-1]
        sides.append((-per_mm * loaded - before * sides[-1]) / pivot)
        factors.append(after / pivot)
    moments = [known_right]
    for factor, side in zip(reversed(factors[1:]), reversed(sides[1:]), strict=True):
        moments.append(side - factor * moments[-1])
    return moments[:0:-1]


def _load_term(far_mm: float, span_mm: float, load: SpreadLoad, direction: int) -> float:
    """Integrate c (L^2 - c^2) / L over the loaded part of a span, c from its far support: mm3 for 1 N/mm."""
    ends = (direction * (load.from_mm - far_mm), direction * (load.to_mm - far_mm))
    start, end = (min(max(one, 0.0), span_mm) for one in sorted(ends))
    return (span_mm**2 * (end**2 - start**2) / 2 - (end**4 - start**4) / 4) / span_mm
