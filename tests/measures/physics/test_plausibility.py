import math

import pytest

from revealbook.measures.physics.plausibility import (
    require_between,
    require_finite,
    require_not_negative,
    require_positions_mm,
    require_positive,
)


def test_a_piece_without_length_has_no_positions() -> None:
    with pytest.raises(ValueError, match="length_mm must be above zero"):
        require_positions_mm(0, (0,))


def test_a_range_has_no_place_for_what_is_no_number() -> None:
    with pytest.raises(ValueError, match="share_pct must be a finite number"):
        require_between(0, 100, share_pct=math.nan)


def test_sound_quantities_pass() -> None:
    require_finite(a=-1.0, b=0.0)
    require_positive(a=0.1)
    require_not_negative(a=0.0)
    require_between(0, 10, low=0, high=10)
    require_positions_mm(1000, (0, 500, 1000))


@pytest.mark.parametrize("check", [require_finite, require_positive, require_not_negative])
@pytest.mark.parametrize("value", [math.nan, math.inf, -math.inf])
def test_what_is_no_finite_number_is_refused_by_name(check: object, value: float) -> None:
    assert callable(check)
    with pytest.raises(ValueError, match=f"air_c must be a finite number, not {value}"):
        check(air_c=value)


def test_zero_is_refused_where_a_size_is_asked_for() -> None:
    with pytest.raises(ValueError, match="width_mm must be above zero, not 0"):
        require_positive(height_mm=1, width_mm=0)


def test_what_lies_below_zero_is_refused_where_zero_is_allowed() -> None:
    with pytest.raises(ValueError, match=r"load_n must not be below zero, not -0\.5"):
        require_not_negative(load_n=-0.5)


@pytest.mark.parametrize("value", [-0.001, 100.001, math.nan])
def test_what_lies_outside_a_range_is_refused(value: float) -> None:
    with pytest.raises(ValueError, match=r"share_pct must (lie between 0 and 100|be a finite number)"):
        require_between(0, 100, share_pct=value)


@pytest.mark.parametrize(
    ("positions", "sentence"),
    [
        ((), "at least one position"),
        ((100, 1001), "position 2 must lie between 0 and 1000, not 1001"),
        ((-1, 100), "position 1 must lie between 0 and 1000, not -1"),
        ((300, 200), "positions_mm must rise, but 200 follows 300"),
        ((300, 300), "positions_mm must rise, but 300 follows 300"),
    ],
)
def test_impossible_positions_are_refused_with_their_place(
    positions: tuple[float, ...], sentence: str
) -> None:
    with pytest.raises(ValueError, match=sentence):
        require_positions_mm(1000, positions)
