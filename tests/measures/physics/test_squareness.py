import math

import pytest

from revealbook.measures.physics.squareness import (
    bow_mm,
    corner_offset_mm,
    deviation_mm_per_m,
    diagonal_difference_mm,
    diagonal_mm,
    lateral_rack_mm,
    plumb_tolerance_mm,
)


def test_the_worked_example_of_the_docs() -> None:
    """docs/calculations/geometry.md: an opening of 1230 x 1480 mm racked by 3 mm."""
    assert diagonal_mm(1230, 1480) == pytest.approx(1924.396, abs=5e-4)
    assert diagonal_difference_mm(3, 1230, 1480) == pytest.approx(3.835, abs=5e-4)
    assert lateral_rack_mm(1926.3, 1922.5, 1230) == pytest.approx(2.973, abs=5e-4)


def test_the_diagonals_of_a_racked_opening_tell_its_rack_exactly() -> None:
    longer, shorter = math.hypot(1230 + 40, 1480), math.hypot(1230 - 40, 1480)
    assert lateral_rack_mm(longer, shorter, 1230) == pytest.approx(40)
    assert lateral_rack_mm(shorter, longer, 1230) == pytest.approx(-40)


def test_equal_diagonals_mean_no_rack() -> None:
    assert lateral_rack_mm(1924.4, 1924.4, 1230) == 0
    assert diagonal_difference_mm(0, 1230, 1480) == 0


def test_a_frame_pushed_far_over_is_still_a_parallelogram() -> None:
    assert lateral_rack_mm(1200, 900, 200) == pytest.approx(787.5)
    assert lateral_rack_mm(1230.1, 1230.1, 1230) == 0


def test_a_wide_corner_stands_off_the_square_line_outwards() -> None:
    assert corner_offset_mm(1000, 1000, math.hypot(1000, 1000)) == 0
    assert corner_offset_mm(1000, 1000, 1420) > 0
    assert corner_offset_mm(1000, 1000, 1410) < 0


def test_the_offset_at_a_corner_is_that_of_the_law_of_cosines() -> None:
    base, side, degrees = 1230, 1480, 90.2
    facing = math.sqrt(base**2 + side**2 - 2 * base * side * math.cos(math.radians(degrees)))
    assert corner_offset_mm(base, side, facing) == pytest.approx(side * math.sin(math.radians(0.2)))


def test_the_middle_is_held_against_the_ends() -> None:
    assert bow_mm(1230, 1234, 1232) == 3
    assert bow_mm(1230, 1230, 1234) == -2
    assert bow_mm(1230, 1231, 1232) == 0


def test_a_deviation_is_stated_per_metre_of_its_reading() -> None:
    assert deviation_mm_per_m(3, 2000) == 1.5
    assert deviation_mm_per_m(-1, 500) == -2


@pytest.mark.parametrize(
    ("length_mm", "tolerance_mm"), [(0, 0), (800, 1.2), (1230, 1.845), (2000, 3), (2400, 3), (3000, 3)]
)
def test_the_plumb_tolerance_grows_to_3_mm_and_stays(length_mm: float, tolerance_mm: float) -> None:
    assert plumb_tolerance_mm(length_mm) == pytest.approx(tolerance_mm)


def test_there_is_no_plumb_tolerance_beyond_3_m() -> None:
    assert plumb_tolerance_mm(3000.1) is None


@pytest.mark.parametrize(
    ("sentence", "call"),
    [
        ("width_mm must be above zero", lambda: diagonal_mm(0, 1)),
        ("lateral_rack_mm must be a finite number", lambda: diagonal_difference_mm(math.nan, 1, 1)),
        ("height_mm must be above zero", lambda: diagonal_difference_mm(1, 1, 0)),
        ("do not fit a width of 1230 mm", lambda: lateral_rack_mm(1200, 1200, 1230)),
        ("do not fit a width of 1200 mm", lambda: lateral_rack_mm(1200, 1200, 1200)),
        ("do not fit a width of 150 mm", lambda: lateral_rack_mm(1200, 900, 150)),
        ("do not fit a width of 100 mm", lambda: lateral_rack_mm(1200, 900, 100)),
        ("diagonal_mm must be above zero", lambda: lateral_rack_mm(0, 1200, 1230)),
        ("have no diagonal of 2000 mm", lambda: corner_offset_mm(1000, 1000, 2000)),
        ("have no diagonal of 500 mm", lambda: corner_offset_mm(1000, 500, 500)),
        ("have no diagonal of 400 mm", lambda: corner_offset_mm(1000, 500, 400)),
        ("side_mm must be above zero", lambda: corner_offset_mm(0, 500, 400)),
        ("middle_mm must be a finite number", lambda: bow_mm(1, math.nan, 1)),
        ("length_mm must be above zero", lambda: deviation_mm_per_m(1, 0)),
        ("deviation_mm must be a finite number", lambda: deviation_mm_per_m(math.inf, 1)),
        ("length_mm must not be below zero", lambda: plumb_tolerance_mm(-1)),
    ],
)
def test_nonsense_is_refused_in_a_plain_sentence(sentence: str, call: object) -> None:
    assert callable(call)
    with pytest.raises(ValueError, match=sentence):
        call()
