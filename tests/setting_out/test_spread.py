import pytest

from revealbook.setting_out.brackets import bracket_positions
from revealbook.setting_out.holes import hole_positions
from revealbook.setting_out.lengths import FrameLengths, Parts, frame_lengths, split
from revealbook.setting_out.limits import Limits
from revealbook.setting_out.refusal import Reason, not_possible
from revealbook.setting_out.spread import Interval, Spacing, Spread, spread
from revealbook.setting_out.supports import support_positions

RULER = Spacing(
    end_min_mm=10,
    end_max_mm=20,
    centres_min_mm=5,
    centres_max_mm=50,
    joint_min_mm=4,
    joint_max_mm=16,
    per_part_min=1,
)


def laid(length_mm: int, spacing: Spacing = RULER, *joints_mm: int) -> Spread:
    found = spread(length_mm, spacing, joints_mm)
    assert isinstance(found, Spread), found
    return found


def test_tightening_draws_in_every_judged_limit_and_no_other() -> None:
    assert RULER.tightened(2) == Spacing(
        end_min_mm=12,
        end_max_mm=18,
        centres_min_mm=5,
        centres_max_mm=48,
        joint_min_mm=6,
        joint_max_mm=14,
        per_part_min=1,
    )


def test_an_interval_around_a_centre_keeps_the_clearance_on_both_sides() -> None:
    assert Interval.around(695, 60) == Interval(635, 755)


def test_a_single_position_is_enough_where_one_keeps_both_ends() -> None:
    assert laid(40).positions_mm == (20,)
    assert laid(30).positions_mm == (15,)


@pytest.mark.parametrize(("end_mm", "stretch"), [(0, Interval(5, 25)), (100, Interval(75, 95))])
def test_an_end_without_a_free_place_is_refused_with_its_place_and_the_reach_of_its_hole(
    end_mm: int, stretch: Interval
) -> None:
    found = spread(100, RULER, blocked=[stretch])
    assert found == not_possible(Reason.END_BLOCKED, end_mm=end_mm, distance_max_mm=20)


def test_positions_lie_in_the_middle_of_the_end_window_where_there_is_room() -> None:
    assert laid(100) == Spread((15, 50, 85), 5)


def test_the_margin_shrinks_before_a_position_is_added() -> None:
    assert laid(90) == Spread((20, 70), 0)
    assert laid(91).positions_mm == (15, 46, 76)


def test_the_joint_window_caps_the_margin_only_where_there_is_a_joint() -> None:
    wide_ends = Spacing(
        end_min_mm=10,
        end_max_mm=30,
        centres_min_mm=5,
        centres_max_mm=50,
        joint_min_mm=4,
        joint_max_mm=8,
        per_part_min=1,
    )
    assert laid(120, wide_ends).margin_mm == 10
    assert laid(120, wide_ends, 60).margin_mm == 2


def test_worked_example_of_the_documentation() -> None:
    limits = Limits(
        overlap_mm=80,
        end_distance_min_mm=150,
        end_distance_max_mm=200,
        centres_max_mm=700,
        joint_distance_max_mm=200,
        hole_diameter_mm=8,
        bead_count=2,
        support_length_mm=150,
        support_holes=2,
    )
    assert frame_lengths(6100, 2135, limits) == FrameLengths(6260, 2135, 2135, 6260)
    supports = support_positions(6260, (80, 3130, 6180), limits)
    assert isinstance(supports, tuple)
    assert [(s.start_mm, *s.holes_mm) for s in supports] == [
        (5, 40, 120),
        (3055, 3090, 3170),
        (6105, 6140, 6220),
    ]
    parts = split(6260, 6000, limits, [Interval(s.start_mm - 50, s.end_mm + 50) for s in supports])
    assert parts == Parts((3004, 3256), (3004,))
    assert hole_positions(6260, limits, parts.joints_mm) == Spread(
        (175, 838, 1502, 2165, 2829, 3179, 3721, 4312, 4903, 5494, 6085), 25
    )
    assert hole_positions(2135, limits) == Spread((175, 770, 1365, 1960), 25)
    assert bracket_positions(6100, limits) == Spread(
        (134, 718, 1302, 1886, 2470, 3054, 3638, 4222, 4806, 5390, 5974), 16
    )
