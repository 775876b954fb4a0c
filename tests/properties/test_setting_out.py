"""Laws of setting out: whatever the piece, no answer breaks a limit, and none takes a hole too many."""

import random
from dataclasses import replace
from itertools import combinations, pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.setting_out.practice import PRACTICE

from revealbook.setting_out.holes import hole_positions
from revealbook.setting_out.lengths import Parts, frame_lengths, split
from revealbook.setting_out.limits import Limits
from revealbook.setting_out.refusal import NotPossible
from revealbook.setting_out.spread import Interval, Spread
from revealbook.setting_out.supports import support_positions

# A small ruler, on which every layout can be tried.
SMALL = Limits(
    overlap_mm=2,
    end_distance_min_mm=2,
    end_distance_max_mm=4,
    centres_max_mm=7,
    joint_distance_max_mm=3,
    joint_distance_min_mm=1,
    centres_min_mm=2,
    hole_diameter_mm=1,
    bead_count=2,
    support_length_mm=80,
    support_holes=2,
)


def broken(
    holes: tuple[int, ...], length: int, joints: list[int], blocked: list[Interval], limits: Limits
) -> list[str]:
    """Name every limit that the holes break; written apart from the code that lays them out."""
    faults = []
    ends = range(limits.end_distance_min_mm, limits.end_distance_max_mm + 1)
    if not holes or holes[0] not in ends or length - holes[-1] not in ends:
        faults.append("end distance")
    gaps = [b - a for a, b in pairwise(holes)]
    if any(gap > limits.centres_max_mm for gap in gaps):
        faults.append("centres too wide")
    if any(gap < limits.centres_min_mm for gap in gaps):
        faults.append("centres too close")
    if any(start <= hole <= end for hole in holes for start, end in blocked):
        faults.append("blocked")
    beside = range(limits.joint_distance_min_mm, limits.joint_distance_max_mm + 1)
    edges = [0, *sorted(joints), length]
    for left, right in pairwise(edges):
        own = [hole for hole in holes if left <= hole <= right]
        if len(own) < limits.holes_per_part_min:
            faults.append("part not held")
        if right != length and (not own or right - own[-1] not in beside):
            faults.append("joint not held on its left")
        if left != 0 and (not own or own[0] - left not in beside):
            faults.append("joint not held on its right")
    return faults


def random_case(rng: random.Random) -> tuple[int, list[int], list[Interval]]:
    length = rng.randint(400, 6000)
    joints = sorted(rng.sample(range(250, length - 249), rng.randint(0, 2))) if length > 600 else []
    blocked = [Interval.around(rng.randint(0, length), rng.randint(4, 90)) for _ in range(rng.randint(0, 4))]
    return length, joints, blocked


def test_two_thousand_random_pieces_keep_every_limit() -> None:
    rng = random.Random(20)
    answered = 0
    for _ in range(2000):
        length, joints, blocked = random_case(rng)
        found = hole_positions(length, PRACTICE, joints, blocked)
        if isinstance(found, Spread):
            answered += 1
            assert broken(found.positions_mm, length, joints, blocked, PRACTICE) == []
    assert answered > 1200


def test_every_plain_length_has_the_fewest_holes_that_the_limits_allow() -> None:
    edges = (400 + 700 * gaps + near for gaps in range(1, 9) for near in (-1, 0, 1))
    for length in (*edges, *range(400, 6001, 41)):
        found = hole_positions(length, PRACTICE)
        assert isinstance(found, Spread)
        # Two holes 200 mm from the ends, and a gap for every 700 mm begun between them.
        assert len(found.positions_mm) == max(2, 1 - (400 - length) // 700)
        assert broken(found.positions_mm, length, [], [], PRACTICE) == []


def small_cases() -> list[tuple[int, list[int], list[Interval], int]]:
    rng = random.Random(5)
    cases = []
    for _ in range(160):
        length = rng.randint(4, 14)
        joints = sorted(rng.sample(range(1, length), rng.choice((0, 0, 1, 2))))
        starts = [rng.randint(0, length) for _ in range(rng.randint(0, 2))]
        blocked = [Interval(start, start + rng.randint(0, 2)) for start in starts]
        cases.append((length, joints, blocked, rng.choice((1, 2))))
    return cases


@pytest.mark.parametrize("per_part", [1, 2])
def test_small_pieces_agree_with_trying_every_layout(per_part: int) -> None:
    limits = replace(SMALL, holes_per_part_min=per_part)
    answered = refused = 0
    for length, joints, blocked, wanted in small_cases():
        if wanted != per_part:
            continue
        fewest = next(
            (
                count
                for count in range(1, length // 2 + 2)
                for holes in combinations(range(length + 1), count)
                if not broken(holes, length, joints, blocked, limits)
            ),
            None,
        )
        found = hole_positions(length, limits, joints, blocked)
        if fewest is None:
            refused += 1
            assert isinstance(found, NotPossible)
        else:
            answered += 1
            assert isinstance(found, Spread)
            assert len(found.positions_mm) == fewest
            assert broken(found.positions_mm, length, joints, blocked, limits) == []
    assert answered > 20
    assert refused > 20


@settings(max_examples=60, deadline=None)
@given(st.integers(400, 6000), st.integers(0, 25))
def test_a_promised_margin_is_kept(length: int, margin: int) -> None:
    found = hole_positions(length, PRACTICE, margin_mm=margin)
    if isinstance(found, Spread):
        holes, kept = found.positions_mm, found.margin_mm
        assert kept >= margin
        assert 150 + kept <= holes[0] <= 200 - kept
        assert 150 + kept <= length - holes[-1] <= 200 - kept
        assert all(b - a <= 700 - kept for a, b in pairwise(holes))


@settings(max_examples=60, deadline=None)
@given(st.integers(400, 6000))
def test_a_plain_piece_is_evenly_divided(length: int) -> None:
    found = hole_positions(length, PRACTICE)
    assert isinstance(found, Spread)
    gaps = [b - a for a, b in pairwise(found.positions_mm)]
    assert max(gaps) - min(gaps) <= 1


@settings(max_examples=60, deadline=None)
@given(st.integers(1, 20000), st.integers(250, 7000), st.lists(st.integers(0, 20000), max_size=3))
def test_parts_make_up_the_piece_and_fit_the_stock(length: int, stock: int, supports: list[int]) -> None:
    clear_of = [Interval.around(centre, 100) for centre in supports]
    found = split(length, stock, PRACTICE, clear_of)
    if isinstance(found, Parts):
        assert sum(found.lengths_mm) == length
        assert max(found.lengths_mm) <= stock
        assert not any(start <= joint <= end for joint in found.joints_mm for start, end in clear_of)
        assert len(found.lengths_mm) == 1 or min(found.lengths_mm) >= PRACTICE.part_min_mm
    else:
        assert length > stock


@settings(max_examples=40, deadline=None)
@given(st.integers(6001, 14000))
def test_a_joined_piece_can_always_be_drilled(length: int) -> None:
    parts = split(length, 6000, PRACTICE)
    assert isinstance(parts, Parts)
    assert len(parts.lengths_mm) == -(-length // 6000)
    holes = hole_positions(length, PRACTICE, parts.joints_mm)
    assert isinstance(holes, Spread)
    assert broken(holes.positions_mm, length, list(parts.joints_mm), [], PRACTICE) == []


@given(st.integers(1, 6000), st.integers(1, 3000))
def test_the_frame_goes_around_the_opening(width: int, height: int) -> None:
    pieces = frame_lengths(width, height, PRACTICE)
    assert pieces.bottom_mm == pieces.top_mm == width + 160
    assert pieces.left_mm == pieces.right_mm == height


@settings(max_examples=100)
@given(
    st.integers(150, 4000),
    st.lists(st.integers(0, 4000), max_size=4),
    st.lists(st.integers(1, 3999), max_size=2),
)
def test_supports_carry_their_points_and_stay_clear(
    length: int, points: list[int], joints: list[int]
) -> None:
    found = support_positions(length, points, PRACTICE, joints)
    if isinstance(found, NotPossible):
        return
    assert [support.load_point_mm for support in found] == sorted(points)
    assert all(b.start_mm >= a.end_mm for a, b in pairwise(found))
    for support in found:
        assert 0 <= support.start_mm < support.end_mm <= length
        assert support.end_mm - support.start_mm == 150
        assert support.holes_mm[0] <= support.load_point_mm <= support.holes_mm[-1]
        assert all(joint <= support.start_mm - 50 or joint >= support.end_mm + 50 for joint in joints)
