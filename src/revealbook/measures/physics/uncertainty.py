"""Measurement uncertainty and what it leaves of a verdict.

Sources: JCGM 100:2008 (standard uncertainty), JCGM 106:2012 clauses 7 and 8 (conformance probability,
guard band), ISO 14253-1:2017 and ILAC-G8:09/2019 (ratios r of the guard band; published, secondary
source). Every quantity is taken as normally distributed about the value read, and every contribution as
independent of the others.
"""

import math
from statistics import NormalDist
from typing import NamedTuple

_STANDARD_NORMAL = NormalDist()


def _require_not_negative(value: float, what: str) -> None:
    if not math.isfinite(value) or value < 0:
        raise ValueError(f"{what} must be zero or more, not {value}.")


def rectangular(half_width: float) -> float:
    """Standard uncertainty of an error known only to lie within +- `half_width`: half_width / sqrt(3).

    For the maximum permissible error of an instrument. Any unit, the same comes back (JCGM 100:2008,
    4.3.7). Raises ValueError for a negative half width.
    """
    _require_not_negative(half_width, "The half width of an error")
    return half_width / math.sqrt(3)


def from_resolution(step: float) -> float:
    """Standard uncertainty from reading to the nearest `step` of a scale: step / sqrt(12).

    Any unit, the same comes back (JCGM 100:2008, F.2.2.1). Raises ValueError for a negative step.
    """
    _require_not_negative(step, "The step of a scale")
    return step / math.sqrt(12)


def combined(*standard_uncertainties: float) -> float:
    """Root of the sum of squares of independent standard uncertainties in one unit.

    JCGM 100:2008, 5.1.2. A contribution that acts through a factor is passed already multiplied by it.
    Raises ValueError when none is given or one is negative.
    """
    if not standard_uncertainties:
        raise ValueError("At least one standard uncertainty is needed to combine.")
    for part in standard_uncertainties:
        _require_not_negative(part, "A standard uncertainty")
    return math.hypot(*standard_uncertainties)


def expanded(standard_uncertainty: float, coverage: float = 2.0) -> float:
    """Expanded uncertainty U = k u; k = 2 covers about 95 % of a normal distribution (JCGM 100:2008, 6.2).

    Raises ValueError for a negative uncertainty or a coverage factor that is not positive.
    """
    _require_not_negative(standard_uncertainty, "A standard uncertainty")
    if not (math.isfinite(coverage) and coverage > 0):
        raise ValueError(f"The coverage factor must be more than zero, not {coverage}.")
    return coverage * standard_uncertainty


def _require_limits(lower: float | None, upper: float | None) -> None:
    given = [limit for limit in (lower, upper) if limit is not None]
    if not given:
        raise ValueError("A lower or an upper limit is needed.")
    if any(math.isnan(limit) for limit in given):
        raise ValueError("A limit must be a number.")
    if lower is not None and upper is not None and lower > upper:
        raise ValueError(f"The lower limit {lower} lies above the upper limit {upper}.")


def conformance_probability(
    value: float, standard_uncertainty: float, *, lower: float | None = None, upper: float | None = None
) -> float:
    """Probability, 0 to 1, that the true value lies within the limits, given the value read.

    One-sided with one limit, two-sided with both: Phi((upper - y) / u) - Phi((lower - y) / u) (JCGM
    106:2012, clause 7, no prior knowledge). Without uncertainty the answer is 0 or 1; a limit itself
    conforms.

    Raises:
        ValueError: no limit, limits crossed, a negative uncertainty, or a value that is no number.
    """
    _require_limits(lower, upper)
    _require_not_negative(standard_uncertainty, "A standard uncertainty")
    if not math.isfinite(value):
        raise ValueError(f"The value must be a number, not {value}.")
    low = -math.inf if lower is None else lower
    high = math.inf if upper is None else upper
    if standard_uncertainty == 0:
        return 1.0 if low <= value <= high else 0.0
    distribution = NormalDist(value, standard_uncertainty)
    return distribution.cdf(high) - distribution.cdf(low)


def guard_ratio(false_acceptance: float, coverage: float = 2.0) -> float:
    """Ratio r of guard band to expanded uncertainty that keeps one-sided false acceptance to the share given.

    r = z / k with Phi(-z) = `false_acceptance`, a share of more than 0 and at most 0.5 (0.05 is 5 %). The
    rounded 0.83 of ISO 14253-1:2017 is r for 5 % and k = 2 (0.822) on the safe side. Raises ValueError
    outside.
    """
    if not 0 < false_acceptance <= 0.5:  # noqa: PLR2004 - beyond one half a guard band would turn negative
        raise ValueError(
            f"The share of false acceptance must lie above 0 and at or below 0.5, not {false_acceptance}."
        )
    return -_STANDARD_NORMAL.inv_cdf(false_acceptance) / expanded(1.0, coverage)


def false_acceptance(ratio: float, coverage: float = 2.0) -> float:
    """Largest probability, one-sided, of accepting what does not conform: Phi(-r k) for w = r U.

    0.5 without guard band (r = 0), 0.0228 for r = 1 and k = 2 (ILAC-G8:09/2019). Raises ValueError for r
    below 0.
    """
    _require_not_negative(ratio, "The ratio of a guard band")
    return _STANDARD_NORMAL.cdf(-ratio * expanded(1.0, coverage))


def guard_band(standard_uncertainty: float, ratio: float = 1.0, coverage: float = 2.0) -> float:
    """Guard band w = r U = r k u, in the unit of `standard_uncertainty` (ILAC-G8:09/2019; r = 1 gives w = U).

    Raises ValueError for a negative ratio or uncertainty.
    """
    _require_not_negative(ratio, "The ratio of a guard band")
    return ratio * expanded(standard_uncertainty, coverage)


class AcceptanceLimits(NamedTuple):
    """Limits for the value read; None where no limit was given. `lower` may exceed `upper`: see `empty`."""

    lower: float | None
    upper: float | None

    @property
    def empty(self) -> bool:
        """Whether the guard bands leave nothing to accept: the instrument is too coarse for the tolerance."""
        return self.lower is not None and self.upper is not None and self.lower > self.upper


def acceptance_limits(
    guard: float, *, lower: float | None = None, upper: float | None = None
) -> AcceptanceLimits:
    """Limits drawn in by the guard band on each side: lower + w, upper - w (JCGM 106:2012, clause 8).

    All in one unit. Raises ValueError when no limit is given, they are crossed, or the guard band is
    negative.
    """
    _require_limits(lower, upper)
    _require_not_negative(guard, "A guard band")
    return AcceptanceLimits(
        None if lower is None else lower + guard,
        None if upper is None else upper - guard,
    )
