"""Tension and shear together on a fixing, and how many fixings a load needs.

bN and bV are the design tension and shear of one fixing by its design resistance. Interaction rules of metal
anchors: ETAG 001 annex C and, from memory, EN 1992-4 7.2.3; of bolts: EN 1993-1-8 table 3.4; both published
(secondary source). Without an approval that says otherwise the straight line up to 1 is the safe choice.

Indicative only: fixings defer to their approval, local codes, the supplier's written instructions and a
licensed engineer. Edge distance, spacing and the substrate's own failure stand in the approval, not here.
"""

import math
from enum import Enum
from typing import NamedTuple

from revealbook.measures.physics.plausibility import require_not_negative, require_positive
from revealbook.measures.physics.whole_pieces import fewest_whole

BOLT_TENSION_FACTOR = 1.4
"""EN 1993-1-8 table 3.4."""


class _Curve(NamedTuple):
    exponent: float
    tension_factor: float
    limit: float


class Interaction(Enum):
    """How tension and shear are added; a value of `combined` up to its `limit` is admitted."""

    LINEAR = _Curve(1, 1, 1)
    """bN + bV <= 1: the safe default."""
    LINEAR_TO_1_2 = _Curve(1, 1, 1.2)
    """bN + bV <= 1.2 (ETAG 001 annex C)."""
    POWER_1_5 = _Curve(1.5, 1, 1)
    """bN^1.5 + bV^1.5 <= 1 (ETAG 001 annex C, concrete failure; EN 1992-4 from memory)."""
    POWER_2 = _Curve(2, 1, 1)
    """bN^2 + bV^2 <= 1 (ETAG 001 annex C, steel failure; timber screws EN 1995-1-1 8.28, from memory)."""
    BOLT = _Curve(1, BOLT_TENSION_FACTOR, 1)
    """bN / 1.4 + bV <= 1 (EN 1993-1-8 table 3.4)."""

    @property
    def limit(self) -> float:
        """The combined value up to which the rule holds."""
        curve: _Curve = self.value
        return curve.limit


def combined(tension_use: float, shear_use: float, rule: Interaction = Interaction.LINEAR) -> float:
    """Return the left side of an interaction rule, to be held against `rule.limit`.

    Args:
        tension_use: bN, not below zero.
        shear_use: bV, not below zero.
        rule: the interaction rule.
    """
    require_not_negative(tension_use=tension_use, shear_use=shear_use)
    curve: _Curve = rule.value
    tension = math.pow(tension_use / curve.tension_factor, curve.exponent)
    return tension + math.pow(shear_use, curve.exponent)


def utilisation(tension_use: float, shear_use: float, rule: Interaction = Interaction.LINEAR) -> float:
    """Return the worst of bN, bV and the combined value by its limit; up to 1 the rule admits it."""
    return max(tension_use, shear_use, combined(tension_use, shear_use, rule) / rule.limit)


def fixings_needed(
    tension_n: float,
    shear_n: float,
    tension_resistance_n: float,
    shear_resistance_n: float,
    rule: Interaction = Interaction.LINEAR,
) -> int:
    """Return the fewest fixings, at least 1, that hold a tension and a shear shared alike among them.

    Args:
        tension_n: design tension of all fixings together, not below zero.
        shear_n: design shear of all fixings together, not below zero.
        tension_resistance_n: design resistance of one fixing, above zero.
        shear_resistance_n: design resistance of one fixing, above zero.
        rule: the interaction rule.
    """
    require_not_negative(tension_n=tension_n, shear_n=shear_n)
    require_positive(tension_resistance_n=tension_resistance_n, shear_resistance_n=shear_resistance_n)
    tension, shear = tension_n / tension_resistance_n, shear_n / shear_resistance_n
    # n fixings divide bN and bV by n, hence the combined value by n to the power of the rule's exponent.
    together = math.pow(combined(tension, shear, rule) / rule.limit, 1 / rule.value.exponent)
    return max(1, fewest_whole(max(tension, shear, together)))
