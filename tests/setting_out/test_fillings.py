from itertools import product

import numpy as np
import pytest

from revealbook.setting_out.fillings import Pattern, filled, proved_mm, task_of, worth_having
from revealbook.setting_out.stock import Demand, Size

DEMAND = Demand((35, 26, 19, 17), (2, 2, 3, 1), 1)
SIZES = (Size(60, None),)


def test_the_best_filling_agrees_with_trying_every_one() -> None:
    task, values = task_of(DEMAND, SIZES), np.array([31.0, 22.0, 17.0, 18.0])
    fill = filled(task, values)
    for capacity in range(62):
        best = max(
            sum(n * v for n, v in zip(often, values, strict=True))
            for often in product(range(3), range(3), range(4), range(2))
            if sum(n * (length + 1) for n, length in zip(often, DEMAND.lengths_mm, strict=True)) <= capacity
        )
        assert fill.best[capacity] == pytest.approx(best)
        traced = fill.pieces(capacity, len(fill.taken))
        assert sum(values[item] * count for item, count in traced) == pytest.approx(best)


def test_no_pattern_is_worth_having_where_none_is_worth_its_stock() -> None:
    task = task_of(DEMAND, SIZES)
    nothing = np.zeros(1)
    cheap = filled(task, np.array([10.0, 10.0, 10.0, 10.0]))
    assert list(worth_having(task, cheap, nothing)) == []
    dear = filled(task, np.array([40.0, 30.0, 20.0, 20.0]))
    found = list(worth_having(task, dear, nothing))
    # 35 + 19 are worth 60, which is what the stock costs, and no other filling is worth more.
    assert found == []
    dearer = filled(task, np.array([45.0, 30.0, 20.0, 20.0]))
    assert next(worth_having(task, dearer, nothing)) == Pattern(0, ((0, 1), (2, 1)))


def test_the_bound_scales_prices_that_are_too_high() -> None:
    """With the material as price, the bound is the material bound; four bars are enough."""
    task = task_of(DEMAND, SIZES)
    material = task.weights * 60 / 61
    bounds = [proved_mm(task, factor * material, filled(task, factor * material)) for factor in (1.0, 2.0)]
    assert bounds[0] == pytest.approx(float(material @ task.counts))
    # Doubled prices make some filling dearer than its stock; scaled down again they prove as much.
    assert bounds[0] * (1 - 1e-6) <= bounds[1] <= 4 * 60


def test_what_lies_in_the_store_lowers_the_bound() -> None:
    values = np.array([35.0, 26.0, 19.0, 17.0])
    bare, stored = task_of(DEMAND, SIZES), task_of(DEMAND, (Size(40, 1), *SIZES))
    without = proved_mm(bare, values, filled(bare, values))
    assert proved_mm(stored, values, filled(stored, values)) == pytest.approx(without - 37.0, abs=1.5)


def test_all_offcuts_together_weigh_less_than_one_step_of_new_stock() -> None:
    task = task_of(DEMAND, (Size(40, 5), Size(50, 2), Size(60, None), Size(90, None)))
    assert 5 * task.prices[0] + 2 * task.prices[1] < 30
    assert task.bought_mm() == [0.0, 0.0, 60.0, 90.0]


def test_where_the_store_holds_enough_nothing_is_proved_to_be_bought() -> None:
    values = np.array([35.0, 26.0, 19.0, 17.0])
    task = task_of(DEMAND, (Size(60, 9), *SIZES))
    assert proved_mm(task, values, filled(task, values)) == 0


def test_the_bound_scales_by_the_stock_that_is_worth_most_for_its_length() -> None:
    """Pieces of 20, worth 20 each: three on a bar of 60; worth 40, that bar holds twice its price."""
    task = task_of(Demand((20,), (6,), 0), (Size(60, None), Size(25, None)))
    single, double = np.array([20.0]), np.array([40.0])
    assert proved_mm(task, single, filled(task, single)) == pytest.approx(120)
    assert proved_mm(task, double, filled(task, double)) == pytest.approx(240 * 60 / 120)


def test_a_piece_worth_nothing_is_laid_on_no_bar_and_none_oftener_than_wanted() -> None:
    task = task_of(Demand((20, 10), (2, 9), 0), (Size(60, None),))
    fill = filled(task, np.array([20.0, 0.0]))
    assert fill.best[60] == 40
    assert fill.pieces(60, len(fill.taken)) == ((0, 2),)
    assert fill.pieces(60, 1) == ((0, 1),)
    assert fill.pieces(19, len(fill.taken)) == ()
    assert fill.pieces(20, len(fill.taken)) == ((0, 1),)


def test_a_pattern_just_worth_its_stock_is_not_worth_having() -> None:
    task = task_of(Demand((20,), (3,), 0), (Size(60, None),))
    for value, worth in ((20.0, False), (20.00001, False), (20.0001, True)):
        fill = filled(task, np.array([value]))
        assert bool(list(worth_having(task, fill, np.zeros(1)))) is worth
    fill = filled(task, np.array([20.0]))
    assert next(worth_having(task, fill, np.array([1.0]))) == Pattern(0, ((0, 3),))


def test_fillings_near_to_the_best_are_given_too_each_once() -> None:
    task = task_of(Demand((20,), (3,), 0), (Size(60, None),))
    found = list(worth_having(task, filled(task, np.array([30.0])), np.zeros(1)))
    assert found == [Pattern(0, ((0, 3),)), Pattern(0, ((0, 2),)), Pattern(0, ((0, 1),))]


def test_stock_is_priced_by_its_length_and_the_store_by_half_a_step_in_all() -> None:
    task = task_of(DEMAND, (Size(40, 5), Size(60, None), Size(90, None)))
    assert task.prices[1:] == (60, 90)
    assert 5 * task.prices[0] == pytest.approx(0.5 * 30)
    assert task.capacities == (41, 61, 91)
    assert list(task.weights) == [36, 27, 20, 18]
    assert task.stored == [0]
