import pytest

from revealbook.measures.physics.tolerances import interpolated_flatness_mm


def test_the_worked_example_of_the_docs() -> None:
    """docs/calculations/geometry.md: an unfinished wall under a 2 m straightedge."""
    assert interpolated_flatness_mm(5, 2000) == pytest.approx(11.667, abs=5e-4)


def test_flatness_is_met_at_the_printed_distances() -> None:
    assert [interpolated_flatness_mm(6, distance) for distance in (100, 1000, 4000, 10000, 15000)] == (
        [3, 5, 10, 20, 25]
    )


@pytest.mark.parametrize("distance_mm", [99, 15001])
def test_there_is_no_flatness_outside_the_table(distance_mm: float) -> None:
    assert interpolated_flatness_mm(5, distance_mm) is None


def test_rows_that_are_not_there_and_distances_of_zero_are_refused() -> None:
    with pytest.raises(ValueError, match="table 3 of DIN 18202 has no row 8"):
        interpolated_flatness_mm(8, 1000)
    with pytest.raises(ValueError, match="distance_mm must be above zero"):
        interpolated_flatness_mm(5, 0)
