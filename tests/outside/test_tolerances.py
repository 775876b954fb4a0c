"""Tolerances and plumb against published tables; table 2 of DIN 18202 is from memory and tested as such."""

import pytest

from revealbook.measures.physics.squareness import (
    diagonal_difference_mm,
    diagonal_mm,
    lateral_rack_mm,
    plumb_tolerance_mm,
)
from revealbook.measures.physics.tolerances import (
    SizeRow,
    angular_deviation_mm,
    flatness_deviation_mm,
    interpolated_flatness_mm,
    limit_deviation_mm,
)

# DIN 18202:2013-04 table 1 (published, a public page has it in full), typed a second time, by column.
TABLE_1: dict[float, dict[SizeRow, float | None]] = {
    1000: {"plan size": 10, "elevation size": 10, "clear plan size": 12, "clear elevation size": 16},
    3000: {"plan size": 12, "elevation size": 16, "clear plan size": 16, "clear elevation size": 20},
    6000: {"plan size": 16, "elevation size": 16, "clear plan size": 20, "clear elevation size": 20},
    15000: {"plan size": 20, "elevation size": 20, "clear plan size": 24, "clear elevation size": 30},
    30000: {"plan size": 24, "elevation size": 30, "clear plan size": 30, "clear elevation size": None},
    40000: {"plan size": 30, "elevation size": 30, "clear plan size": None, "clear elevation size": None},
}


@pytest.mark.parametrize("nominal_mm", TABLE_1)
def test_limit_deviations_of_sizes(nominal_mm: float) -> None:
    for row, expected in TABLE_1[nominal_mm].items():
        assert limit_deviation_mm(row, nominal_mm) == expected


@pytest.mark.parametrize(
    ("row", "nominal_mm", "expected_mm"),
    [
        ("opening", 1000, 10),
        ("opening", 1010, 12),
        ("opening", 3000, 12),
        ("opening", 3010, 16),
        ("opening", 6010, None),
        ("opening with finished reveals", 1000, 8),
        ("opening with finished reveals", 1510, 10),
        ("opening with finished reveals", 6000, 12),
    ],
)
def test_limit_deviations_of_openings(row: SizeRow, nominal_mm: float, expected_mm: float | None) -> None:
    """DIN 18202:2013-04 table 1 (published)."""
    assert limit_deviation_mm(row, nominal_mm) == expected_mm


def test_angular_deviations() -> None:
    """DIN 18202:2013-04 table 2: from memory only, no public copy was found."""
    expected = {500: 3, 1000: 6, 3000: 8, 6000: 12, 15000: 16, 30000: 20, 30001: 30}
    assert {size: angular_deviation_mm(size) for size in expected} == expected


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
    assert tuple(flatness_deviation_mm(row, distance_mm) for distance_mm in distances_mm) == printed


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
    assert interpolated_flatness_mm(row, distance_mm) == pytest.approx(exact_mm, abs=5.1e-4)
    assert flatness_deviation_mm(row, distance_mm) == rounded_mm


@pytest.mark.parametrize(
    ("length_mm", "expected_mm"), [(800, 1.2), (1230, 1.845), (2000, 3.0), (2400, 3.0), (3001, None)]
)
def test_plumb_of_an_installed_element(length_mm: float, expected_mm: float | None) -> None:
    """1.5 mm/m, at most 3 mm, up to 3.00 m: a test institute's answer (common practice, published)."""
    assert plumb_tolerance_mm(length_mm) == (None if expected_mm is None else pytest.approx(expected_mm))


def test_diagonals_of_a_racked_opening() -> None:
    """1230 x 1480 mm racked by 3 mm: 2 w s / diagonal = 3.835 mm, which is not the rack (geometry)."""
    diagonal = diagonal_mm(1230, 1480)
    assert diagonal == pytest.approx(1924.396, abs=5.1e-4)
    assert diagonal_difference_mm(3, 1230, 1480) == pytest.approx(3.835, abs=5.1e-4)
    assert diagonal_difference_mm(3, 1230, 1480) == pytest.approx(2 * 1230 * 3 / diagonal, rel=1e-5)
    assert lateral_rack_mm(diagonal + 3.835 / 2, diagonal - 3.835 / 2, 1230) == pytest.approx(3, abs=5e-4)
