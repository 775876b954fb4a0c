"""Flatness and squareness against published tables and geometry."""

import math

import pytest

from revealbook.measures.physics.squareness import lateral_rack_mm
from revealbook.measures.physics.tolerances import interpolated_flatness_mm


@pytest.mark.parametrize(
    ("row", "printed"),
    [
        (1, (10, 15, 20, 25, 30)),
        (2, (5, 8, 12, 15, 20)),
        (3, (2, 4, 10, 12, 15)),
        (4, (1, 3, 9, 12, 15)),
        (5, (5, 10, 15, 25, 30)),
        (6, (3, 5, 10, 20, 25)),
        (7, (2, 3, 8, 15, 20)),
    ],
)
def test_flatness(row: int, printed: tuple[int, ...]) -> None:
    """DIN 18202:2013-04 table 3 (published). An English page prints row 5 as 20 and 25 at the end: wrong."""
    distances_mm = (100, 1000, 4000, 10000, 15000)
    assert tuple(interpolated_flatness_mm(row, distance_mm) for distance_mm in distances_mm) == printed


@pytest.mark.parametrize(
    ("row", "distance_mm", "exact_mm", "rounded_mm"),
    [
        (5, 600, 7.778, 8),
        (5, 1500, 10.833, 11),
        (5, 2000, 11.667, 12),
        (6, 2000, 6.667, 7),
        (7, 2000, 4.667, 5),
    ],
)
def test_interpolated_flatness(row: int, distance_mm: float, exact_mm: float, rounded_mm: int) -> None:
    """A public table of interpolated limits has 8, 11, 12, 7, 5 mm here (published)."""
    found = interpolated_flatness_mm(row, distance_mm)
    assert found == pytest.approx(exact_mm, abs=5.1e-4)
    assert found is not None
    assert math.floor(found + 0.5) == rounded_mm


def test_diagonals_of_a_racked_opening() -> None:
    """1230 x 1480 mm racked by 3 mm: 2 w s / diagonal = 3.835 mm, which is not the rack (geometry)."""
    diagonal_mm = math.hypot(1230, 1480)
    assert diagonal_mm == pytest.approx(1924.396, abs=5.1e-4)
    assert math.hypot(1233, 1480) - math.hypot(1227, 1480) == pytest.approx(3.835, abs=5.1e-4)
    half_mm = 3.835 / 2
    assert lateral_rack_mm(diagonal_mm + half_mm, diagonal_mm - half_mm, 1230) == pytest.approx(3, abs=5e-4)
