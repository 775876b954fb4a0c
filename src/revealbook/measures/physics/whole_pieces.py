"""How many whole pieces a quotient asks for, without one too many from binary rounding."""

import math

from revealbook.measures.physics.plausibility import require_not_negative

ROUNDING_SLACK = 1e-9
"""Relative. A quotient above a whole number by no more than this is that number: 0.3 / 0.1 asks for three."""


def fewest_whole(quotient: float) -> int:
    """Return the least whole number not below a quotient, which must not be below zero.

    Raises:
        ValueError: the quotient is below zero or no finite number.
    """
    require_not_negative(quotient=quotient)
    return math.ceil(quotient * (1 - ROUNDING_SLACK))
