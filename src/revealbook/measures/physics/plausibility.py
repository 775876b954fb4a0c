"""Refusal of nonsense: the plain sentences with which a formula turns impossible numbers away.

Each function takes its quantities as keyword arguments, so that the sentence names the quantity and its unit.
"""

import math
from itertools import pairwise


def require_finite(**quantities: float) -> None:
    """Refuse a quantity that is no number (nan) or is infinite.

    Raises:
        ValueError: naming the quantity and the value that was given.
    """
    for name, value in quantities.items():
        if not math.isfinite(value):
            raise ValueError(f"{name} must be a finite number, not {value}")


def require_positive(**quantities: float) -> None:
    """Refuse a quantity that is not above zero.

    Raises:
        ValueError: naming the quantity and the value that was given.
    """
    require_finite(**quantities)
    for name, value in quantities.items():
        if value <= 0:
            raise ValueError(f"{name} must be above zero, not {value}")


def require_not_negative(**quantities: float) -> None:
    """Refuse a quantity below zero.

    Raises:
        ValueError: naming the quantity and the value that was given.
    """
    require_finite(**quantities)
    for name, value in quantities.items():
        if value < 0:
            raise ValueError(f"{name} must not be below zero, not {value}")


def require_between(low: float, high: float, /, **quantities: float) -> None:
    """Refuse a quantity outside `low` to `high`, both ends allowed.

    Raises:
        ValueError: naming the quantity, the value that was given and the range.
    """
    require_finite(**quantities)
    for name, value in quantities.items():
        if not low <= value <= high:
            raise ValueError(f"{name} must lie between {low} and {high}, not {value}")


def require_positions_mm(length_mm: float, positions_mm: tuple[float, ...]) -> None:
    """Refuse positions along a piece that are none, lie beyond its ends, or do not rise.

    Args:
        length_mm: length of the piece, above zero.
        positions_mm: distances from the piece's first end, in rising order.

    Raises:
        ValueError: saying what is wrong with which position.
    """
    require_positive(length_mm=length_mm)
    if not positions_mm:
        raise ValueError("positions_mm must name at least one position")
    require_between(0, length_mm, **{f"position {i}": at for i, at in enumerate(positions_mm, start=1)})
    for before, after in pairwise(positions_mm):
        if after <= before:
            raise ValueError(f"positions_mm must rise, but {after} follows {before}")
