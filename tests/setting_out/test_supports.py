from dataclasses import replace

import pytest
from tests.setting_out.practice import PRACTICE

from revealbook.setting_out.refusal import NotPossible, Reason
from revealbook.setting_out.supports import Support, quarter_points, support_positions


def refused(found: tuple[Support, ...] | NotPossible) -> NotPossible:
    assert isinstance(found, NotPossible), found
    return found


def starts(found: tuple[Support, ...] | NotPossible) -> list[int]:
    assert not isinstance(found, NotPossible), found
    return [support.start_mm for support in found]


def test_a_support_stands_centred_under_its_load_point() -> None:
    assert support_positions(1390, [400], PRACTICE) == (Support(400, 325, 475, (360, 440)),)


def test_load_points_may_come_in_any_order() -> None:
    assert starts(support_positions(1390, [1000, 400], PRACTICE)) == [325, 925]


def test_a_window_without_load_points_needs_no_support() -> None:
    assert support_positions(1390, [], PRACTICE) == ()


def test_a_support_near_the_end_moves_inside_the_piece() -> None:
    assert starts(support_positions(1390, [60, 1340], PRACTICE)) == [0, 1240]


@pytest.mark.parametrize("load_point_mm", [34, 1356, -10, 2000])
def test_a_load_point_outside_the_supports_holes_is_refused(load_point_mm: int) -> None:
    found = refused(support_positions(1390, [load_point_mm], PRACTICE))
    assert found.reason is Reason.LOAD_POINT_OFF_PIECE
    assert found.mm("load_point") == load_point_mm


def test_a_piece_shorter_than_a_support_is_refused() -> None:
    assert refused(support_positions(149, [75], PRACTICE)).reason is Reason.LOAD_POINT_OFF_PIECE


@pytest.mark.parametrize(("joint_mm", "start_mm"), [(525, 325), (524, 324), (500, 300), (276, 326)])
def test_a_support_moves_clear_of_a_joint(joint_mm: int, start_mm: int) -> None:
    assert starts(support_positions(1390, [400], PRACTICE, [joint_mm])) == [start_mm]


def test_a_joint_at_the_load_point_is_refused() -> None:
    found = refused(support_positions(1390, [400], PRACTICE, [410]))
    assert (found.reason, found.mm("joint")) == (Reason.JOINT_AT_SUPPORT, 410)


def test_supports_side_by_side_make_room_for_each_other() -> None:
    assert starts(support_positions(1390, [400, 520], PRACTICE)) == [325, 475]


def test_supports_that_would_overlap_are_refused() -> None:
    found = refused(support_positions(1390, [400, 509], PRACTICE))
    assert (found.reason, found.mm("taken_to")) == (Reason.SUPPORTS_OVERLAP, 475)


@pytest.mark.parametrize(("count", "holes"), [(1, (400,)), (2, (360, 440)), (3, (360, 400, 440))])
def test_a_supports_holes_are_spread_between_its_edges(count: int, holes: tuple[int, ...]) -> None:
    (support,) = supports(support_positions(1390, [400], replace(PRACTICE, support_holes=count)))
    assert support.holes_mm == holes


def supports(found: tuple[Support, ...] | NotPossible) -> tuple[Support, ...]:
    assert not isinstance(found, NotPossible), found
    return found


def test_quarter_points_of_a_glass_pane() -> None:
    # Published (secondary source): glass 1.2 m wide is set at 300 and 900 mm.
    assert quarter_points(1200) == (300, 900)


def test_quarter_points_count_from_the_bottom_pieces_end() -> None:
    assert quarter_points(1230, start_mm=80) == (80 + 308, 80 + 1230 - 308)


def test_a_rule_on_the_distance_to_the_load_point_keeps_a_support_from_moving_further() -> None:
    assert starts(support_positions(1390, [400], PRACTICE, [490])) == [290]  # 35 mm aside
    strict = replace(PRACTICE, support_offset_max_mm=30)
    assert refused(support_positions(1390, [400], strict, [490])).reason is Reason.JOINT_AT_SUPPORT
    assert starts(support_positions(1390, [400], replace(PRACTICE, support_offset_max_mm=85), [490])) == [290]


def test_limits_that_say_nothing_of_supports_place_none() -> None:
    with pytest.raises(ValueError, match="nothing of supports"):
        support_positions(1390, [400], replace(PRACTICE, support_length_mm=None))


def test_the_middle_of_a_support_of_odd_length_lies_on_half_a_millimetre() -> None:
    (support,) = supports(support_positions(1390, [400], replace(PRACTICE, support_length_mm=151)))
    assert support.centre_mm == 400.5


def test_a_width_is_quartered_inwards_from_its_own_start() -> None:
    assert quarter_points(1201) == (301, 900)
    assert quarter_points(1203) == (301, 902)
    assert quarter_points(1) == (1, 0)
    with pytest.raises(ValueError, match="at least 1"):
        quarter_points(0)


def test_a_support_of_odd_length_stays_within_the_rule_on_its_middle() -> None:
    odd = replace(PRACTICE, support_length_mm=151, support_offset_max_mm=30)
    for load_point_mm, joint_mm in ((400, 500), (400, 301)):
        found = support_positions(1390, [load_point_mm], odd, [joint_mm])
        if not isinstance(found, NotPossible):
            assert abs(found[0].centre_mm - load_point_mm) <= 30
    near = support_positions(1390, [400], odd, [497])
    assert starts(near) == [296]
    assert refused(support_positions(1390, [400], odd, [496])).reason is Reason.JOINT_AT_SUPPORT


def test_a_support_that_may_not_move_stands_under_its_load_point_or_nowhere() -> None:
    fixed = replace(PRACTICE, support_offset_max_mm=0)
    assert starts(support_positions(1390, [400], fixed)) == [325]
    assert refused(support_positions(1390, [74], fixed)).reason is Reason.LOAD_POINT_OFF_PIECE
    assert starts(support_positions(1390, [75], fixed)) == [0]
    assert starts(support_positions(1390, [1315], fixed)) == [1240]
    assert refused(support_positions(1390, [1316], fixed)).reason is Reason.LOAD_POINT_OFF_PIECE


def test_the_outermost_load_points_that_a_support_can_carry() -> None:
    """Its outer holes stand 35 mm from its ends, and it may not stand out past the piece."""
    assert starts(support_positions(1390, [35, 1355], PRACTICE)) == [0, 1240]
