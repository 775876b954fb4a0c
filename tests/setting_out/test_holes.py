from dataclasses import replace
from itertools import pairwise

import pytest
from tests.setting_out.practice import PRACTICE

from revealbook.setting_out.holes import hole_positions
from revealbook.setting_out.refusal import NotPossible, Reason
from revealbook.setting_out.spread import Interval, Spread


def positions(found: Spread | NotPossible) -> tuple[int, ...]:
    assert isinstance(found, Spread), found
    return found.positions_mm


def refusal(found: Spread | NotPossible) -> NotPossible:
    assert isinstance(found, NotPossible), found
    return found


@pytest.mark.parametrize(
    ("length_mm", "expected"),
    [
        (350, (150, 200)),
        (400, (175, 225)),
        (1100, (200, 900)),
        (1101, (175, 550, 926)),
        (1390, (175, 695, 1215)),
        (1800, (200, 900, 1600)),
        (1801, (175, 658, 1142, 1626)),
    ],
)
def test_a_plain_piece_gets_the_fewest_holes_evenly_spread(length_mm: int, expected: tuple[int, ...]) -> None:
    assert positions(hole_positions(length_mm, PRACTICE)) == expected


def test_the_margin_is_the_least_distance_to_a_limit() -> None:
    roomy, tight = hole_positions(1390, PRACTICE), hole_positions(1790, PRACTICE)
    assert isinstance(roomy, Spread)
    assert isinstance(tight, Spread)
    assert roomy.margin_mm == 25
    assert (tight.positions_mm, tight.margin_mm) == ((198, 895, 1592), 2)


def test_a_wanted_margin_costs_a_hole_where_the_piece_has_none_to_give() -> None:
    assert len(positions(hole_positions(1800, PRACTICE))) == 3
    assert positions(hole_positions(1800, PRACTICE, margin_mm=5)) == (175, 658, 1142, 1625)


def test_a_margin_wider_than_the_window_is_refused() -> None:
    found = refusal(hole_positions(1800, PRACTICE, margin_mm=26))
    assert (found.reason, found.mm("widest")) == (Reason.MARGIN_TOO_WIDE, 25)


@pytest.mark.parametrize("length_mm", [1, 299, 349])
def test_a_piece_too_short_for_two_holes_is_refused_with_the_shortest_length(length_mm: int) -> None:
    found = refusal(hole_positions(length_mm, PRACTICE))
    assert found.reason is Reason.PIECE_TOO_SHORT
    assert (found.mm("length"), found.mm("shortest")) == (length_mm, 350)


@pytest.mark.parametrize(("length_mm", "expected"), [(300, (150,)), (350, (175,)), (400, (200,))])
def test_a_single_hole_stands_in_the_middle_where_one_is_allowed(
    length_mm: int, expected: tuple[int, ...]
) -> None:
    assert positions(hole_positions(length_mm, replace(PRACTICE, holes_per_part_min=1))) == expected


def test_a_single_hole_may_not_break_the_end_rule() -> None:
    found = refusal(hole_positions(299, replace(PRACTICE, holes_per_part_min=1)))
    assert (found.reason, found.mm("shortest")) == (Reason.PIECE_TOO_SHORT, 300)


def test_a_joint_is_held_on_both_sides() -> None:
    found = positions(hole_positions(6160, PRACTICE, [3080]))
    before = max(x for x in found if x < 3080)
    after = min(x for x in found if x > 3080)
    assert 50 <= 3080 - before <= 200
    assert 50 <= after - 3080 <= 200
    assert max(b - a for a, b in pairwise(found)) <= 700


def test_every_part_between_joints_has_holes_of_its_own() -> None:
    found = positions(hole_positions(2000, PRACTICE, [900, 1150]))
    assert len([x for x in found if 900 < x < 1150]) == 2


def test_one_hole_holds_a_short_part_where_one_is_allowed() -> None:
    limits = replace(PRACTICE, holes_per_part_min=1)
    found = positions(hole_positions(2000, limits, [900, 1150]))
    assert len([x for x in found if 900 < x < 1150]) == 1


def test_holes_keep_out_of_blocked_stretches() -> None:
    free = positions(hole_positions(1390, PRACTICE))
    kept_out = positions(hole_positions(1390, PRACTICE, blocked=[Interval.around(695, 60)]))
    assert 695 in free
    assert not any(635 <= x <= 755 for x in kept_out)
    assert len(kept_out) == 3


def test_a_hole_more_is_taken_where_blocked_stretches_force_it() -> None:
    assert len(positions(hole_positions(1700, PRACTICE, blocked=[Interval(780, 920)]))) == 4


@pytest.mark.parametrize(("stretch", "end_mm"), [(Interval(150, 200), 0), (Interval(1190, 1240), 1390)])
def test_a_blocked_end_is_named(stretch: Interval, end_mm: int) -> None:
    found = refusal(hole_positions(1390, PRACTICE, blocked=[stretch]))
    assert (found.reason, found.mm("end")) == (Reason.END_BLOCKED, end_mm)


@pytest.mark.parametrize("stretch", [Interval(600, 750), Interval(850, 1000)])
def test_a_joint_that_cannot_be_held_on_one_side_is_named(stretch: Interval) -> None:
    found = refusal(hole_positions(1600, PRACTICE, [800], [stretch]))
    assert (found.reason, found.mm("joint")) == (Reason.JOINT_NOT_HELD, 800)


def test_a_joint_too_near_to_an_end_is_refused() -> None:
    assert isinstance(hole_positions(1600, PRACTICE, [190]), NotPossible)


def test_a_blocked_stretch_longer_than_the_greatest_centres_is_refused() -> None:
    found = refusal(hole_positions(3000, PRACTICE, blocked=[Interval(901, 1599), Interval(900, 900)]))
    assert (found.reason, found.mm("reached")) == (Reason.NO_ARRANGEMENT, 899)


def test_a_blocked_stretch_that_can_just_be_spanned_is_spanned() -> None:
    found = positions(hole_positions(3000, PRACTICE, blocked=[Interval(901, 1599)]))
    assert {900, 1600} <= set(found)


def test_joints_may_come_in_any_order() -> None:
    assert hole_positions(3000, PRACTICE, [2000, 1000]) == hole_positions(3000, PRACTICE, [1000, 2000, 1000])


@pytest.mark.parametrize("joint_mm", [0, 1390, -5, 1400])
def test_a_joint_off_the_piece_is_an_error(joint_mm: int) -> None:
    with pytest.raises(ValueError, match="between the piece's ends"):
        hole_positions(1390, PRACTICE, [joint_mm])


def test_a_stretch_the_wrong_way_round_is_an_error() -> None:
    with pytest.raises(ValueError, match="wrong way round"):
        hole_positions(1390, PRACTICE, blocked=[Interval(700, 600)])


@pytest.mark.parametrize("length_mm", [0, -1390])
def test_a_piece_without_length_is_an_error(length_mm: int) -> None:
    with pytest.raises(ValueError, match="length_mm"):
        hole_positions(length_mm, PRACTICE)
