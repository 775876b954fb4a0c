from revealbook.setting_out.stock import Demand, Plan, Size

SIZES = (Size(1400, 2), Size(6000, None))


def test_a_demand_names_every_piece_longest_first() -> None:
    assert list(Demand((1480, 1390), (2, 1), 4).pieces()) == [1480, 1480, 1390]


def test_only_new_stock_is_bought() -> None:
    plan = Plan(((0, (1390,)), (1, (1480, 1480))), 0.0, "by hand")
    assert plan.bought_mm(SIZES) == 6000
    assert plan.cost_mm(SIZES) == (6000, 7400)
