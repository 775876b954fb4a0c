from dataclasses import replace

import pytest
from tests.setting_out.practice import PRACTICE

from revealbook.setting_out.lengths import FrameLengths, Parts, frame_lengths, split
from revealbook.setting_out.refusal import NotPossible, Reason
from revealbook.setting_out.spread import Interval


def test_the_bottom_piece_is_longer_than_the_opening_by_both_overlaps() -> None:
    assert frame_lengths(1230, 1480, PRACTICE).bottom_mm == 1230 + 160
    assert frame_lengths(1230, 1480, replace(PRACTICE, overlap_mm=60)).bottom_mm == 1230 + 120


def test_the_side_pieces_follow_the_openings_height() -> None:
    assert frame_lengths(1230, 1480, PRACTICE) == FrameLengths(1390, 1480, 1480, 1390)
    assert frame_lengths(1230, 1480, PRACTICE, height_right_mm=1483) == FrameLengths(1390, 1480, 1483, 1390)


def test_the_top_piece_spans_the_outer_edges_of_the_side_pieces() -> None:
    assert frame_lengths(1230, 1480, PRACTICE, side_face_mm=60).top_mm == 1230 + 120


def test_a_side_piece_wider_than_the_overlap_has_nothing_to_stand_on() -> None:
    with pytest.raises(ValueError, match="stand out past the bottom piece"):
        frame_lengths(1230, 1480, PRACTICE, side_face_mm=81)


@pytest.mark.parametrize("size", [(0, 1480), (1230, 0), (-1, 1480)])
def test_an_opening_without_size_is_an_error(size: tuple[int, int]) -> None:
    with pytest.raises(ValueError, match="whole number of at least 1"):
        frame_lengths(*size, PRACTICE)


def test_a_piece_no_longer_than_the_stock_stays_whole() -> None:
    assert split(6000, 6000, PRACTICE) == Parts((6000,), ())


def test_a_longer_piece_is_joined_in_the_middle() -> None:
    assert split(6160, 6000, PRACTICE) == Parts((3080, 3080), (3080,))
    assert split(6161, 6000, PRACTICE) == Parts((3081, 3080), (3081,))


def test_no_more_joints_than_the_stock_calls_for() -> None:
    assert len(split_parts(12000, 6000).joints_mm) == 1
    assert split_parts(12001, 6000) == Parts((4001, 4000, 4000), (4001, 8001))


def split_parts(length_mm: int, stock_mm: int, *clear_of: Interval) -> Parts:
    found = split(length_mm, stock_mm, PRACTICE, clear_of)
    assert isinstance(found, Parts), found
    return found


def test_a_joint_keeps_clear_of_the_supports() -> None:
    found = split_parts(6160, 6000, Interval(2980, 3180))
    assert found.joints_mm in {(2979,), (3181,)}
    assert sum(found.lengths_mm) == 6160


def test_supports_at_the_ends_leave_the_ends_where_they_are() -> None:
    assert split_parts(6160, 6000, Interval(-20, 130), Interval(6000, 6200)).joints_mm == (3080,)


def test_a_joint_more_is_made_where_the_supports_leave_no_other_place() -> None:
    assert len(split_parts(7000, 6000, Interval(1000, 6000)).joints_mm) == 2


def test_no_part_is_too_short_for_its_own_fixings() -> None:
    found = split_parts(6160, 6000, Interval(251, 5909))
    assert found.lengths_mm == (250, 5910)


def test_no_place_for_a_joint_is_refused() -> None:
    found = split(6160, 6000, PRACTICE, [Interval(250, 5910)])
    assert isinstance(found, NotPossible)
    assert found.reason is Reason.NO_ARRANGEMENT


def test_stock_shorter_than_the_shortest_part_is_refused() -> None:
    found = split(6160, 249, PRACTICE)
    assert isinstance(found, NotPossible)
    assert (found.reason, found.mm("shortest")) == (Reason.PIECE_TOO_SHORT, 250)
