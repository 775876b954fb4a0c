import math

import pytest

from revealbook.measures.physics.squareness import (
    lateral_rack_mm,
)


def test_the_worked_example_of_the_docs() -> None:
    """docs/calculations/geometry.md: an opening of 1230 x 1480 mm racked by 3 mm."""
    assert lateral_rack_mm(1926.3, 1922.5, 1230) == pytest.approx(2.973, abs=5e-4)


def test_the_diagonals_of_a_racked_opening_tell_its_rack_exactly() -> None:
    longer, shorter = math.hypot(1230 + 40, 1480), math.hypot(1230 - 40, 1480)
    assert lateral_rack_mm(longer, shorter, 1230) == pytest.approx(40)
    assert lateral_rack_mm(shorter, longer, 1230) == pytest.approx(-40)


def test_equal_diagonals_mean_no_rack() -> None:
    assert lateral_rack_mm(1924.4, 1924.4, 1230) == 0


def test_a_frame_pushed_far_over_is_still_a_parallelogram() -> None:
    assert lateral_rack_mm(1200, 900, 200) == pytest.approx(787.5)
    assert lateral_rack_mm(1230.1, 1230.1, 1230) == 0


@pytest.mark.parametrize(
    ("sentence", "call"),
    [
        ("do not fit a width of 1230 mm", lambda: lateral_rack_mm(1200, 1200, 1230)),
        ("do not fit a width of 1200 mm", lambda: lateral_rack_mm(1200, 1200, 1200)),
        ("do not fit a width of 150 mm", lambda: lateral_rack_mm(1200, 900, 150)),
        ("do not fit a width of 100 mm", lambda: lateral_rack_mm(1200, 900, 100)),
        ("diagonal_mm must be above zero", lambda: lateral_rack_mm(0, 1200, 1230)),
    ],
)
def test_nonsense_is_refused_in_a_plain_sentence(sentence: str, call: object) -> None:
    assert callable(call)
    with pytest.raises(ValueError, match=sentence):
        call()
