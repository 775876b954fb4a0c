"""Fixing distances against published trade rules, which differ in the corner they are taken from."""

import pytest

from revealbook.measures.physics.fixing_distances import FixingDistances, fewest_fixings, fixing_distances_mm


def keeps(distances: FixingDistances, corner_mm: tuple[float, float], greatest_centres_mm: float) -> bool:
    low, high = corner_mm
    ends = (distances.first_mm, distances.last_mm)
    return all(low <= end <= high for end in ends) and max(distances.centres_mm) <= greatest_centres_mm


@pytest.mark.parametrize(
    ("positions_mm", "kept"),
    [
        ([200, 750, 1300], True),
        ([200, 801, 1300], False),
        ([260, 750, 1300], False),
        ([100, 700, 1350], False),
    ],
)
def test_a_british_jamb_of_1500(positions_mm: list[float], kept: bool) -> None:
    """NHBC Standards 6.7.11: 150 to 250 mm from the outer corner, centres up to 600 mm (published)."""
    assert keeps(fixing_distances_mm(1500, positions_mm), (150, 250), 600) is kept


def test_the_offending_centres_are_601() -> None:
    assert fixing_distances_mm(1500, [200, 801, 1300]).centres_mm == (601, 499)


@pytest.mark.parametrize(
    ("length_mm", "british", "austrian"),
    [(600, 2, 2), (900, 2, 2), (1200, 3, 3), (1500, 3, 3), (2100, 4, 4), (2400, 5, 4)],
)
def test_fewest_fixings(length_mm: float, british: int, austrian: int) -> None:
    """British as above; Austrian: 100 to 200 mm from the inner corner, centres up to 700 mm (published)."""
    assert fewest_fixings(length_mm, greatest_end_mm=250, greatest_centres_mm=600) == british
    assert fewest_fixings(length_mm, greatest_end_mm=200, greatest_centres_mm=700) == austrian
