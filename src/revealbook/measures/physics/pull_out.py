"""What trials on the wall itself say of a fixing's resistance to being pulled out.

Source: EN 1990:2002, annex D, D.7.2 and table D1 (5 % fractile of a normal distribution, coefficient of
variation unknown, no prior knowledge; from memory, held against printed values of that table). Indicative:
how trials are made and judged is a matter of the fixing's approval, local codes and a licensed engineer.
"""

import math
from collections.abc import Sequence
from statistics import fmean, stdev

_FRACTILE = 0.05
_LEAST_TRIALS = 3


def fractile_factor(trials: int) -> float:
    """Factor k on the standard deviation for the 5 % fractile from so many trials: t sqrt(1 + 1/n).

    t is the 95 % quantile of Student's distribution with n - 1 degrees of freedom; 2.33 for 5 trials, 1.92
    for 10. Raises ValueError for fewer than three.
    """
    if trials < _LEAST_TRIALS:
        raise ValueError(f"At least {_LEAST_TRIALS} trials are needed, not {trials}.")
    # scipy.special alone, and only here: few sites have trials
    from scipy.special import stdtrit  # noqa: PLC0415

    return float(stdtrit(trials - 1, 1 - _FRACTILE)) * math.sqrt(1 + 1 / trials)


def characteristic_resistance_n(loads_n: Sequence[float]) -> float:
    """Load in N that 19 of 20 fixings bear: mean - k s of the loads at which trial fixings came out.

    Below zero where they scatter so much that nothing can be counted on.

    Raises:
        ValueError: fewer than three trials, or a load that is not positive.
    """
    for load in loads_n:
        if not (math.isfinite(load) and load > 0):
            raise ValueError(f"A trial's load must be more than zero, not {load}.")
    factor = fractile_factor(len(loads_n))
    return fmean(loads_n) - factor * stdev(loads_n)
