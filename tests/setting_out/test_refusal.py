import pytest

from revealbook.setting_out.refusal import Figure, NotPossible, Reason, not_possible


def test_a_refusal_gives_its_figures_by_name() -> None:
    refusal = not_possible(Reason.PIECE_TOO_SHORT, length_mm=299, shortest_mm=350)
    assert refusal == NotPossible(Reason.PIECE_TOO_SHORT, (Figure("length", 299), Figure("shortest", 350)))
    assert refusal.mm("shortest") == 350


def test_a_figure_that_a_refusal_does_not_have_is_an_error() -> None:
    with pytest.raises(KeyError):
        not_possible(Reason.END_BLOCKED, end_mm=0).mm("length")


def test_equal_refusals_are_one_in_a_set() -> None:
    assert len({not_possible(Reason.END_BLOCKED, end_mm=0), not_possible(Reason.END_BLOCKED, end_mm=0)}) == 1
