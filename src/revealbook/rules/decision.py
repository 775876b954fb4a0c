"""Deciding one reading against one limit.

Simple acceptance, or a guard band w = factor x U (JCGM 106:2012). The default factor of 1 is the simple rule
of ILAC-G8:09/2019 (from memory); the default of ISO 14253-1:2017 is about 0.83.
"""

from typing import NamedTuple

from revealbook.measures.method import Method
from revealbook.measures.physics.uncertainty import conformance_probability
from revealbook.rules.finding import Outcome
from revealbook.rules.limit import Limit

ROUNDING = 1e-9
"""Differences below this come from binary arithmetic, not from the work."""
K = 2
"""Coverage factor of a stated expanded uncertainty."""


class Decision(NamedTuple):
    """An outcome, its margin, and the probability that the true value conforms."""

    outcome: Outcome
    margin: float
    probability: float | None


def decide(
    value: float, uncertainty: float | None, limit: Limit, method: Method, *, signed: bool = True
) -> Decision:
    """Hold a number against a limit.

    Without a stated uncertainty the limit itself decides (simple acceptance). With one, and if the method
    says so, the reading conforms only beyond the guard band inside the limit, does not conform only beyond it
    outside, and is undecided in between.

    Args:
        value: the reading, unrounded.
        uncertainty: its expanded uncertainty (k = 2), or None.
        limit: a plain limit with a low or a high value.
        method: the decision rule and the width of the band.
        signed: whether the quantity may lie below zero. Of a deviation read without its sign the true one may
            lie on either side, so that both -limit and limit bound it.
    """
    margin = limit.margin(value)
    probability = None
    if uncertainty:
        low = _lowest(limit) if not signed and method.computations > 1 else limit.low
        probability = conformance_probability(value, uncertainty / K, lower=low, upper=limit.high)
    banded = method.decision == "guard band" and uncertainty is not None
    band = method.guard_band_factor * uncertainty if banded and uncertainty else 0.0
    if margin >= band - ROUNDING:
        return Decision(Outcome.CONFORMS, margin, probability)
    beyond = margin < -ROUNDING if not band else margin <= -band + ROUNDING
    return Decision(Outcome.DOES_NOT_CONFORM if beyond else Outcome.UNDECIDED, margin, probability)


def _lowest(limit: Limit) -> float | None:
    """Give the low end for a quantity read without its sign."""
    return -limit.high if limit.low is None and limit.high is not None and limit.high >= 0 else limit.low
