from dataclasses import replace
from itertools import combinations, pairwise

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


def kept(holes: tuple[int, ...], length_mm: int, keep: Spacing, joints_mm: tuple[int, ...]) -> bool:
    """Whether holes keep every distance; written apart from the search."""
    parts = list(pairwise((0, *joints_mm, length_mm + 1)))
    held = [[at for at in holes if start <= at < end] for start, end in parts]
    if any(len(own) < keep.per_part_min for own in held):
        return False
    gaps = [after - before for before, after in pairwise(holes)]
    ends = (holes[0], length_mm - holes[-1])
    joints = [joint - left[-1] for joint, left in zip(joints_mm, held, strict=False)]
    joints += [right[0] - joint for joint, right in zip(joints_mm, held[1:], strict=True)]
    return (
        all(keep.end_min_mm <= end <= keep.end_max_mm for end in ends)
        and all(keep.centres_min_mm <= gap <= keep.centres_max_mm for gap in gaps)
        and all(keep.joint_min_mm <= off <= keep.joint_max_mm for off in joints)
    )


def tried(length_mm: int, keep: Spacing, joints_mm: tuple[int, ...]) -> tuple[int, int, int, int] | None:
    """Number, margin, greatest and smallest gap of the best layout, by trying every one."""
    for count in range(1, length_mm + 1):
        layouts = [
            holes
            for holes in combinations(range(length_mm + 1), count)
            if kept(holes, length_mm, keep, joints_mm)
        ]
        if layouts:
            break
    else:
        return None
    windows = [keep.end_max_mm - keep.end_min_mm]
    windows += [keep.joint_max_mm - keep.joint_min_mm] if joints_mm else []
    for margin in range(min(windows) // 2, -1, -1):
        drawn_in = [holes for holes in layouts if kept(holes, length_mm, keep.tightened(margin), joints_mm)]
        if drawn_in:
            break
    spans = [[after - before for before, after in pairwise(holes)] or [0] for holes in drawn_in]
    most = min(max(gaps) for gaps in spans)
    return count, margin, most, max(min(gaps) for gaps in spans if max(gaps) == most)


@pytest.mark.parametrize("per_part", [1, 2])
@pytest.mark.parametrize("joint_mm", [None, 5, 6, 8])
def test_of_all_layouts_the_fewest_with_the_greatest_margin_and_the_evenest_gaps_is_given(
    per_part: int, joint_mm: int | None
) -> None:
    keep = Spacing(
        end_min_mm=1, end_max_mm=4, centres_min_mm=2, centres_max_mm=5,
        joint_min_mm=1, joint_max_mm=3, per_part_min=per_part,
    )  # fmt: skip
    answered = 0
    for length_mm in range(2, 15):
        joints = () if joint_mm is None or joint_mm >= length_mm else (joint_mm,)
        best, found = tried(length_mm, keep, joints), spread(length_mm, keep, joints)
        if best is None:
            assert not isinstance(found, Spread), (length_mm, found)
            continue
        answered += 1
        assert isinstance(found, Spread), (length_mm, best, found)
        assert kept(found.positions_mm, length_mm, keep.tightened(found.margin_mm), joints)
        gaps = [after - before for before, after in pairwise(found.positions_mm)] or [0]
        assert (len(found.positions_mm), found.margin_mm, max(gaps), min(gaps)) == best, length_mm
    assert answered >= 4


def test_refusals_tell_what_would_have_been_enough() -> None:
    two = replace(RULER, per_part_min=2)
    assert spread(24, two) == not_possible(Reason.PIECE_TOO_SHORT, length_mm=24, shortest_mm=25)
    assert isinstance(spread(25, two), Spread)
    assert spread(19, RULER) == not_possible(Reason.PIECE_TOO_SHORT, length_mm=19, shortest_mm=20)
    assert laid(20).positions_mm == (10,)
    assert spread(100, RULER, margin_mm=6) == not_possible(Reason.MARGIN_TOO_WIDE, margin_mm=6, widest_mm=5)
    assert spread(100, RULER, margin_mm=5) == laid(100)
    assert spread(100, RULER, (40,), [Interval(24, 36)]) == not_possible(
        Reason.JOINT_NOT_HELD, joint_mm=40, distance_max_mm=16
    )
    assert isinstance(spread(100, RULER, (40,), [Interval(25, 36)]), Spread)
    assert spread(200, RULER, (), [Interval(60, 120)]) == not_possible(
        Reason.NO_ARRANGEMENT, reached_mm=59, centres_max_mm=50
    )


@pytest.mark.parametrize(
    ("joints_mm", "blocked", "words"),
    [
        ((0,), (), "between"),
        ((100,), (), "between"),
        ((-1, 50), (), "between"),
        ((), (Interval(5, 4),), "wrong way"),
    ],
)
def test_joints_off_the_piece_and_stretches_the_wrong_way_round_are_errors(
    joints_mm: tuple[int, ...], blocked: tuple[Interval, ...], words: str
) -> None:
    with pytest.raises(ValueError, match=words):
        spread(100, RULER, joints_mm, blocked)


def test_joints_one_millimetre_from_either_end_and_stretches_of_one_are_no_errors() -> None:
    for joints in ((1,), (99,)):
        assert not isinstance(spread(100, RULER, joints), Spread)
    assert spread(100, RULER, (), [Interval(50, 50)]) != laid(100)
    assert spread(100, RULER, (50, 50)) == spread(100, RULER, (50,))
