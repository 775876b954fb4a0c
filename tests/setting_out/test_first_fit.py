from revealbook.setting_out.first_fit import first_fit, shortest_holding
from revealbook.setting_out.stock import Demand, Size

NEW = (Size(6000, None), Size(3000, None))


def test_each_piece_goes_on_the_first_bar_with_room() -> None:
    plan = first_fit(Demand((3500, 2400, 1500), (1, 1, 2), 0), (Size(6000, None),))
    assert plan.bars == ((0, (3500, 2400)), (0, (1500, 1500)))


def test_a_bar_is_changed_for_the_shortest_stock_that_holds_it() -> None:
    assert first_fit(Demand((2900,), (1,), 4), NEW).bars == ((1, (2900,)),)
    assert shortest_holding(0, [1498, 1498], Demand((1498,), (2,), 4), NEW) == 1
    assert shortest_holding(0, [1499, 1498], Demand((1499, 1498), (1, 1), 4), NEW) == 0


def test_the_shortest_offcut_that_is_long_enough_is_opened_first() -> None:
    sizes = (Size(1000, 1), Size(1400, 1), Size(2000, 1), Size(6000, None))
    assert first_fit(Demand((1390,), (3,), 4), sizes).bars == ((1, (1390,)), (2, (1390,)), (3, (1390,)))


def test_an_offcut_stays_the_offcut_that_it_is() -> None:
    sizes = (Size(4000, 1), Size(3000, None))
    assert shortest_holding(0, [1000], Demand((1000,), (1,), 4), sizes) == 0
