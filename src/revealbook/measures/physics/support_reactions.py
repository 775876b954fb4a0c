"""Share of each support under a window in its load: lever rule from support to support.

Statics: textbook. For two supports it is exact. For more it is the tributary model: the sill is taken as
hinged over every inner support, so each load goes to the two supports beside it, and beyond the outermost
supports the end spans reach out. Forces and moments balance exactly; what a stiff continuous sill would
move to an inner support (up to a quarter more for three equally spaced supports under an even load) is
not counted here but in `continuous_sill`.

Indicative only: loads defer to local codes, the supplier's written instructions and a licensed engineer.
"""

from bisect import bisect_right
from collections.abc import Sequence
from itertools import pairwise
from typing import NamedTuple

from revealbook.measures.physics.plausibility import require_finite, require_not_negative

FEWEST_SUPPORTS = 2
"""One support alone cannot keep a load from tipping."""


class PointLoad(NamedTuple):
    """A load in N, not below zero, at a distance in mm along the sill from a fixed end."""

    at_mm: float
    load_n: float


class SpreadLoad(NamedTuple):
    """A load in N, not below zero, spread evenly from one distance to another along the sill, in mm."""

    from_mm: float
    to_mm: float
    load_n: float


def _require_supports(supports_mm: Sequence[float]) -> None:
    if len(supports_mm) < FEWEST_SUPPORTS:
        raise ValueError(f"at least two supports are needed, not {len(supports_mm)}")
    for before, after in pairwise(supports_mm):
        require_finite(support_mm=before, next_support_mm=after)
        if after <= before:
            raise ValueError(f"supports_mm must rise, but {after} follows {before}")


def _pieces(load: SpreadLoad, supports_mm: Sequence[float]) -> list[PointLoad]:
    """Cut a spread load at the inner supports and return each piece as a point load in its middle.

    Inside one span the lever rule is linear in the place of the load, so the middle stands for the piece.
    """
    require_finite(from_mm=load.from_mm, to_mm=load.to_mm)
    if load.to_mm <= load.from_mm:
        raise ValueError(f"a spread load must end beyond its start, but {load.to_mm} follows {load.from_mm}")
    inner = [at for at in supports_mm[1:-1] if load.from_mm < at < load.to_mm]
    borders = [load.from_mm, *inner, load.to_mm]
    per_mm = load.load_n / (load.to_mm - load.from_mm)
    return [PointLoad((start + end) / 2, per_mm * (end - start)) for start, end in pairwise(borders)]


def support_reactions_n(
    supports_mm: Sequence[float], loads: Sequence[PointLoad | SpreadLoad]
) -> tuple[float, ...]:
    """Return the force of each support in N; negative where a load beyond the last support lifts the sill.

    Args:
        supports_mm: middles of the supports along the sill, rising, at least two.
        loads: point and spread loads along the same scale.

    Raises:
        ValueError: fewer than two supports, supports out of order, or a load below zero.
    """
    _require_supports(supports_mm)
    reactions = [0.0] * len(supports_mm)
    for load in loads:
        require_not_negative(load_n=load.load_n)
        for piece in _pieces(load, supports_mm) if isinstance(load, SpreadLoad) else [load]:
            require_finite(at_mm=piece.at_mm)
            span = min(max(bisect_right(supports_mm, piece.at_mm) - 1, 0), len(supports_mm) - 2)
            left_mm, right_mm = supports_mm[span], supports_mm[span + 1]
            share = (piece.at_mm - left_mm) / (right_mm - left_mm)
            reactions[span] += piece.load_n * (1 - share)
            reactions[span + 1] += piece.load_n * share
    return tuple(reactions)
