import pytest

from revealbook.measures.physics.fixing_distances import fewest_fixings, fixing_distances_mm


def test_distances_are_taken_from_both_ends_and_between() -> None:
    distances = fixing_distances_mm(1500, [200, 750, 1350])
    assert distances == (200, 150, (550, 600))
    assert distances.last_mm == 150


def test_a_single_fixing_has_no_centres() -> None:
    assert fixing_distances_mm(400, [150]) == (150, 250, ())


def test_a_piece_is_never_held_by_fewer_than_two() -> None:
    assert fewest_fixings(100, 200, 700) == 2
    assert fewest_fixings(400, 200, 700) == 2


def test_one_more_millimetre_asks_for_one_more_fixing() -> None:
    assert fewest_fixings(1100, 200, 700) == 2
    assert fewest_fixings(1101, 200, 700) == 3


def test_distances_that_fit_exactly_ask_for_no_spare_fixing() -> None:
    assert fewest_fixings(0.3, 0, 0.1) == 4


@pytest.mark.parametrize(
    ("length_mm", "positions_mm"), [(1500, [1600]), (1500, []), (1500, [700, 200]), (0, [0])]
)
def test_impossible_positions_are_refused(length_mm: float, positions_mm: list[float]) -> None:
    with pytest.raises(ValueError, match="must"):
        fixing_distances_mm(length_mm, positions_mm)


@pytest.mark.parametrize("numbers", [(0, 200, 700), (1000, -1, 700), (1000, 200, 0)])
def test_impossible_distances_are_refused(numbers: tuple[float, float, float]) -> None:
    with pytest.raises(ValueError, match="must"):
        fewest_fixings(*numbers)
