import pytest

from revealbook.setting_out.positions import furthest, moved, nearest, span


def members(positions: int) -> set[int]:
    return {x for x in range(positions.bit_length()) if positions >> x & 1}


def test_a_span_holds_both_its_ends() -> None:
    assert members(span(3, 5)) == {3, 4, 5}
    assert members(span(4, 4)) == {4}


def test_a_span_the_wrong_way_round_is_empty() -> None:
    assert span(5, 4) == 0


def test_a_span_leaves_out_what_lies_off_the_piece() -> None:
    assert members(span(-3, 1)) == {0, 1}
    assert span(-3, -1) == 0


@pytest.mark.parametrize(("least", "most"), [(0, 0), (1, 1), (2, 4), (2, 9), (5, 12), (3, 2)])
def test_moved_reaches_every_distance_between_the_least_and_the_most(least: int, most: int) -> None:
    positions = {0, 3, 20}
    mask = sum(1 << x for x in positions)
    assert members(moved(mask, least, most)) == {x + d for x in positions for d in range(least, most + 1)}


def test_furthest_is_the_greatest_position() -> None:
    assert furthest(span(3, 17)) == 17
    assert furthest(0) == -1


@pytest.mark.parametrize(("target", "found"), [(-5, 3), (3, 3), (6, 3), (7, 10), (9, 10), (40, 11)])
def test_nearest_takes_the_closest_position(target: int, found: int) -> None:
    assert nearest(1 << 3 | 1 << 10 | 1 << 11, target) == found


def test_nearest_takes_the_smaller_of_two_equally_close() -> None:
    assert nearest(1 << 4 | 1 << 8, 6) == 4


def test_nearest_of_nothing_is_refused() -> None:
    with pytest.raises(ValueError, match="No position"):
        nearest(0, 6)
