"""Continuous beams under an even load against coefficients that stand in every textbook of statics."""

import pytest

from revealbook.measures.physics.continuous_sill import continuous_reactions_n
from revealbook.measures.physics.support_reactions import SpreadLoad


@pytest.mark.parametrize(
    ("spans", "coefficients"),
    [
        (2, (0.375, 1.25, 0.375)),
        (3, (0.4, 1.1, 1.1, 0.4)),
        (4, (0.3929, 1.1429, 0.9286, 1.1429, 0.3929)),
        (5, (0.3947, 1.1316, 0.9737, 0.9737, 1.1316, 0.3947)),
    ],
)
def test_equal_spans(spans: int, coefficients: tuple[float, ...]) -> None:
    """Reactions by q L of two to five equal spans, all loaded (textbook tables, from memory)."""
    reactions = continuous_reactions_n(
        [600.0 * one for one in range(spans + 1)], SpreadLoad(0, 600 * spans, spans)
    )
    assert reactions == pytest.approx(coefficients, abs=6e-5)


def test_one_of_two_spans_loaded() -> None:
    """7/16, 5/8 and -1/16 of q L (textbook tables, from memory)."""
    reactions = continuous_reactions_n([0, 900, 1800], SpreadLoad(0, 900, 16))
    assert reactions == pytest.approx((7, 10, -1))
