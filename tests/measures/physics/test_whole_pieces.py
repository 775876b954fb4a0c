import pytest

from revealbook.measures.physics.whole_pieces import fewest_whole


@pytest.mark.parametrize(("quotient", "pieces"), [(0, 0), (0.01, 1), (1, 1), (1.001, 2), (2.5, 3)])
def test_a_begun_piece_is_a_whole_piece(quotient: float, pieces: int) -> None:
    assert fewest_whole(quotient) == pieces


def test_binary_rounding_does_not_ask_for_one_more() -> None:
    quotient = (0.1 + 0.2) / 0.1
    assert quotient > 3
    assert fewest_whole(quotient) == 3


@pytest.mark.parametrize("quotient", [-0.1, float("nan"), float("inf")])
def test_what_is_no_count_is_refused(quotient: float) -> None:
    with pytest.raises(ValueError, match="quotient must"):
        fewest_whole(quotient)
