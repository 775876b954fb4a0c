import pytest
from tests.rules.sets import rule

from revealbook.rules.limit import Limit, Step

STEPS = [{"up_to": 1000, "limit": 10}, {"up_to": 3000, "limit": 12}]


@pytest.mark.parametrize(
    ("stated", "limit"),
    [
        ({"at_least": 80}, Limit(low=80)),
        ({"at_most": 700}, Limit(high=700)),
        ({"between": [150, 200]}, Limit(low=150, high=200)),
        ({"equal_to": 8}, Limit(low=8, high=8)),
        ({"equal_to": True}, Limit(equals=True)),
        ({"equal_to": False}, Limit(equals=False)),
        ({"one_of": ["pressed", "other"]}, Limit(choices=("pressed", "other"))),
    ],
)
def test_each_kind_states_its_limit(stated: dict[str, object], limit: Limit) -> None:
    assert rule(**stated).limit == limit


def test_a_limit_of_zero_is_a_limit() -> None:
    assert rule(at_most=0).limit == Limit(high=0)
    assert rule(at_least=0).limit == Limit(low=0)


def test_a_limit_by_size_bounds_above_or_below() -> None:
    steps = (Step(1000, 10), Step(3000, 12))
    above, below = (
        rule(at_most_by="nominal_width", steps=STEPS),
        rule(at_least_by="nominal_width", steps=STEPS),
    )
    assert above.limit == Limit(by="nominal_width", steps=steps)
    assert below.limit == Limit(by="nominal_width", steps=steps, steps_bound_below=True)
    assert above.limit.at_size(2000) == Limit(high=12)
    assert below.limit.at_size(2000) == Limit(low=12)


@pytest.mark.parametrize(("size", "limit"), [(0, 10), (999.9, 10), (1000, 10), (1000.1, 12), (3000, 12)])
def test_a_size_on_the_border_belongs_to_the_step_that_ends_there(size: float, limit: float) -> None:
    assert rule(at_most_by="nominal_width", steps=STEPS).limit.at_size(size) == Limit(high=limit)


def test_beyond_the_last_step_no_limit_is_known() -> None:
    assert rule(at_most_by="nominal_width", steps=STEPS).limit.at_size(3000.1) is None


@pytest.mark.parametrize(
    ("limit", "value", "margin"),
    [
        (Limit(low=80), 83, 3),
        (Limit(low=80), 79, -1),
        (Limit(high=700), 690, 10),
        (Limit(high=700), 701, -1),
        (Limit(low=150, high=200), 160, 10),
        (Limit(low=150, high=200), 195, 5),
        (Limit(low=150, high=200), 210, -10),
        (Limit(low=150, high=200), 149, -1),
        (Limit(low=8, high=8), 8, 0),
        (Limit(low=8, high=8), 8.5, -0.5),
        (Limit(low=8, high=8), 7.5, -0.5),
        (Limit(high=700), float("inf"), float("-inf")),
    ],
)
def test_the_margin_is_taken_to_the_nearer_end_and_negative_outside(
    limit: Limit, value: float, margin: float
) -> None:
    assert limit.margin(value) == margin
