import pytest

from revealbook.measures.physics.setting_blocks import (
    block_length_mm,
    block_width_mm,
    corner_rule_centres_mm,
    quarter_point_centres_mm,
)


def test_blocks_at_the_quarter_points() -> None:
    assert quarter_point_centres_mm(1200) == (300, 900)


def test_blocks_by_the_rule_of_the_near_edge() -> None:
    assert corner_rule_centres_mm(1200) == (150, 1050)
    assert corner_rule_centres_mm(1200, block_length_mm=80, from_corner_mm=50) == (90, 1110)


def test_blocks_stand_alike_from_both_corners() -> None:
    for centres in (quarter_point_centres_mm(977), corner_rule_centres_mm(977)):
        assert centres.first_mm == pytest.approx(977 - centres.second_mm)


def test_large_panes_need_longer_blocks() -> None:
    assert block_length_mm(1.8) == 100
    assert block_length_mm(5) == pytest.approx(136.5)


def test_a_block_carries_the_whole_thickness() -> None:
    assert block_width_mm(44) == 46


def test_blocks_that_would_meet_are_refused() -> None:
    assert corner_rule_centres_mm(400) == (150, 250)
    with pytest.raises(ValueError, match=r"two blocks of 100\.0 mm do not fit under 399 mm"):
        corner_rule_centres_mm(399)


def test_sizes_of_zero_are_refused() -> None:
    for function in (quarter_point_centres_mm, corner_rule_centres_mm, block_length_mm, block_width_mm):
        with pytest.raises(ValueError, match="must be above zero"):
            function(0)
