import pytest
from tests.setting_out.practice import PRACTICE

from revealbook.setting_out import pieces
from revealbook.setting_out.pieces import Cut, Piece, around, drilled, first_possible
from revealbook.setting_out.refusal import NotPossible, Reason
from revealbook.setting_out.spread import Interval, Spread


def piece(length_mm: int, joints_mm: tuple[int, ...] = (), others_mm: tuple[float, ...] = ()) -> Piece:
    found = drilled(Cut("bottom", "frame-profile", length_mm, joints_mm), PRACTICE, others_mm)
    assert isinstance(found, Piece), found
    return found


def test_a_pieces_parts_add_up_to_its_length() -> None:
    assert piece(5000, (1700, 3350)).parts_mm == (1700, 1650, 1650)
    assert piece(1390).parts_mm == (1390,)


def test_holes_keep_as_clear_of_other_fixings_as_can_be() -> None:
    assert piece(1390).holes_mm == (175, 695, 1215)
    apart = piece(1390, others_mm=(160, 695)).holes_mm
    assert min(abs(hole - other) for hole in apart for other in (160, 695)) > 30


def test_the_wish_for_clearance_is_given_up_before_the_limits_are() -> None:
    everywhere = tuple(float(at) for at in range(140, 211, 5))
    crowded = piece(1390, others_mm=everywhere)
    assert 150 <= crowded.holes_mm[0] <= 200


def test_a_refusal_names_the_piece() -> None:
    refused = drilled(Cut("left", "frame-profile", 300, ()), PRACTICE)
    assert isinstance(refused, NotPossible)
    assert (refused.reason, refused.about) == (Reason.PIECE_TOO_SHORT, ("left",))


def test_a_stretch_around_a_broken_position_is_rounded_outwards() -> None:
    assert around([100.5], 10) == (Interval(90, 111),)


def test_the_first_layout_is_taken_else_the_last_refusal() -> None:
    refusals = [NotPossible(Reason.END_BLOCKED), NotPossible(Reason.NO_ARRANGEMENT)]
    assert first_possible([*refusals, Spread((1,), 0), Spread((2,), 0)]) == Spread((1,), 0)
    assert first_possible(refusals) == refusals[-1]
    with pytest.raises(ValueError, match="nothing to choose"):
        first_possible([])


def test_the_wish_is_given_up_step_by_step(monkeypatch: pytest.MonkeyPatch) -> None:
    asked: list[object] = []

    def refused(*given: object) -> NotPossible:
        asked.append(given[3])
        return NotPossible(Reason.NO_ARRANGEMENT)

    monkeypatch.setattr(pieces, "hole_positions", refused)
    drilled(Cut("bottom", "frame-profile", 1390, ()), PRACTICE, (500,))
    widths = [(Interval(500 - at, 500 + at),) for at in (40, 30, 20, 10)]
    assert asked == [*widths, ()]
