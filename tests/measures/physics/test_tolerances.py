import pytest

from revealbook.measures.physics.tolerances import (
    SizeRow,
    angular_deviation_mm,
    flatness_deviation_mm,
    interpolated_flatness_mm,
    limit_deviation_mm,
)


def test_the_worked_example_of_the_docs() -> None:
    """docs/calculations/geometry.md: an opening 1.23 m wide; an unfinished wall under a 2 m straightedge."""
    assert limit_deviation_mm("opening", 1230) == 12
    assert limit_deviation_mm("opening with finished reveals", 1230) == 10
    assert interpolated_flatness_mm(5, 2000) == pytest.approx(11.667, abs=5e-4)
    assert flatness_deviation_mm(5, 2000) == 12


@pytest.mark.parametrize(
    ("row", "printed"),
    [
        ("plan size", [10, 12, 16, 20, 24, 30]),
        ("elevation size", [10, 16, 16, 20, 30, 30]),
        ("clear plan size", [12, 16, 20, 24, 30, None]),
        ("clear elevation size", [16, 20, 20, 30, None, None]),
        ("opening", [10, 12, 16, None, None, None]),
        ("opening with finished reveals", [8, 10, 12, None, None, None]),
    ],
)
def test_each_border_belongs_to_the_smaller_limit(row: SizeRow, printed: list[float | None]) -> None:
    borders = [1000, 3000, 6000, 15000, 30000, 1e9]
    assert [limit_deviation_mm(row, border) for border in borders] == printed
    assert [limit_deviation_mm(row, border + 1) for border in borders[:-1]] == printed[1:]


def test_the_angular_limit_steps_with_the_size() -> None:
    sizes = [500, 1000, 3000, 6000, 15000, 30000, 40000]
    assert [angular_deviation_mm(size) for size in sizes] == [3, 6, 8, 12, 16, 20, 30]
    assert angular_deviation_mm(501) == 6


def test_flatness_is_met_at_the_printed_distances() -> None:
    assert [flatness_deviation_mm(6, distance) for distance in (100, 1000, 4000, 10000, 15000)] == (
        [3, 5, 10, 20, 25]
    )


def test_halves_are_rounded_up_and_less_is_not() -> None:
    assert interpolated_flatness_mm(3, 12495) == pytest.approx(13.497)
    assert flatness_deviation_mm(3, 12495) == 13
    assert interpolated_flatness_mm(3, 12500) == 13.5
    assert flatness_deviation_mm(3, 12500) == 14
    assert interpolated_flatness_mm(2, 12500) == 17.5
    assert flatness_deviation_mm(2, 7000) == 14
    assert interpolated_flatness_mm(4, 7000) == 10.5
    assert flatness_deviation_mm(4, 7000) == 11


@pytest.mark.parametrize("distance_mm", [99, 15001])
def test_there_is_no_flatness_outside_the_table(distance_mm: float) -> None:
    assert interpolated_flatness_mm(5, distance_mm) is None
    assert flatness_deviation_mm(5, distance_mm) is None


def test_unknown_rows_are_refused() -> None:
    with pytest.raises(ValueError, match="table 1 of DIN 18202 has no row 'window'"):
        limit_deviation_mm("window", 1000)  # type: ignore[arg-type]
    with pytest.raises(ValueError, match="table 3 of DIN 18202 has no row 8"):
        flatness_deviation_mm(8, 1000)


def test_sizes_of_zero_are_refused() -> None:
    with pytest.raises(ValueError, match="nominal_mm must be above zero"):
        limit_deviation_mm("opening", 0)
    with pytest.raises(ValueError, match="nominal_mm must be above zero"):
        angular_deviation_mm(-1)
    with pytest.raises(ValueError, match="distance_mm must be above zero"):
        flatness_deviation_mm(5, 0)
