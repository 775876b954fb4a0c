from revealbook.setting_out.full_bars import full_bars
from revealbook.setting_out.stock import Demand, Size


def test_a_bar_is_filled_up_where_first_fit_would_leave_room() -> None:
    plan = full_bars(Demand((3000, 2600, 1900, 1100), (1, 1, 1, 1), 0), (Size(6000, None),))
    assert plan.bars == ((0, (3000, 1900, 1100)), (0, (2600,)))


def test_the_kerf_counts_between_pieces_and_not_at_the_end() -> None:
    demand = Demand((2998,), (2,), 4)
    assert len(full_bars(demand, (Size(6000, None),)).bars) == 1
    assert len(full_bars(demand, (Size(5999, None),)).bars) == 2


def test_offcuts_are_filled_before_new_stock_is_opened() -> None:
    sizes = (Size(1804, 1), Size(6000, None))
    plan = full_bars(Demand((2900, 900), (2, 2), 4), sizes)
    assert plan.bars == ((0, (900, 900)), (1, (2900, 2900)))


def test_an_offcut_too_short_for_anything_is_left_in_the_store() -> None:
    assert full_bars(Demand((900,), (1,), 4), (Size(800, 3), Size(6000, None))).bars == ((1, (900,)),)


def test_the_stock_length_with_the_least_left_over_is_taken() -> None:
    sizes = (Size(6000, None), Size(3000, None))
    assert full_bars(Demand((2990,), (1,), 4), sizes).bars == ((1, (2990,)),)


def test_a_longer_bar_that_is_filled_goes_before_shorter_ones_that_are_not() -> None:
    sizes = (Size(6000, None), Size(4000, None))
    assert full_bars(Demand((2990,), (2,), 4), sizes).bars == ((0, (2990, 2990)),)
    assert full_bars(Demand((3990,), (2,), 4), sizes).bars == ((1, (3990,)), (1, (3990,)))


def test_what_is_left_over_counts_per_metre_of_stock() -> None:
    """3000 on 4000 leaves 24.98 %, with its kerf; 3000 and 1500 on 6000 leave 24.92 %."""
    sizes = (Size(6000, None), Size(4000, None))
    plan = full_bars(Demand((3000, 1500), (1, 1), 4), sizes)
    assert plan.bars == ((0, (3000, 1500)),)
    assert full_bars(Demand((3000, 1400), (1, 1), 4), sizes).bars[0] == (1, (3000,))


def test_a_piece_longer_than_the_shorter_stock_is_laid_on_the_longer() -> None:
    sizes = (Size(6000, None), Size(3000, None))
    assert full_bars(Demand((3001,), (1,), 0), sizes).bars == ((0, (3001,)),)
    assert full_bars(Demand((3000,), (1,), 0), sizes).bars == ((1, (3000,)),)


def test_each_of_several_equal_offcuts_is_filled() -> None:
    sizes = (Size(1000, 2), Size(6000, None))
    assert full_bars(Demand((1000,), (3,), 4), sizes).bars == ((0, (1000,)), (0, (1000,)), (1, (1000,)))
