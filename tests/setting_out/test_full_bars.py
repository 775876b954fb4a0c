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
