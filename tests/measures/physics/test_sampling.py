import pytest

from revealbook.measures.physics.sampling import (
    AQLS,
    acceptance_probability_of_lot,
    code_letter,
    share_accepted_with,
    single_plan,
)


def test_a_lot_gives_its_letter_up_to_the_last_line() -> None:
    assert [code_letter(lot) for lot in (2, 8, 9, 90, 91, 500_000, 500_001, 10**7)] == list("AABEFPQQ")


def test_the_table_knows_no_lot_of_one() -> None:
    with pytest.raises(ValueError, match="begins with a lot of 2, not 1"):
        code_letter(1)


def test_a_lot_of_one_is_inspected() -> None:
    plan = single_plan(1, "2.5")
    assert (plan.sample_size, plan.accept, plan.reject, plan.whole_lot) == (1, 0, 1, True)


def test_an_arrow_down_takes_the_larger_sample_with_it() -> None:
    plan = single_plan(60, "2.5")
    assert (plan.lot_letter, plan.letter, plan.sample_size, plan.accept) == ("E", "F", 20, 1)


def test_an_arrow_up_takes_the_smaller_sample_with_it() -> None:
    plan = single_plan(40, "2.5")
    assert (plan.lot_letter, plan.letter, plan.sample_size, plan.accept) == ("D", "C", 5, 0)


def test_a_plan_as_large_as_the_lot_is_the_whole_lot() -> None:
    plan = single_plan(5, "1.0")
    assert (plan.letter, plan.sample_size, plan.whole_lot, plan.accept, plan.reject) == ("E", 5, True, 0, 1)
    assert single_plan(13, "1.0").whole_lot
    assert not single_plan(14, "1.0").whole_lot


@pytest.mark.parametrize("aql", AQLS)
def test_no_plan_accepts_all_that_it_inspects(aql: str) -> None:
    for lot in (*range(1, 600), 1200, 3200, 10_000, 35_000, 150_000, 500_000, 600_000):
        plan = single_plan(lot, aql)
        assert plan.accept < plan.reject <= plan.sample_size <= lot


def test_a_quality_limit_outside_the_table_is_refused() -> None:
    with pytest.raises(ValueError, match=r"one of 1\.0, 1\.5, 2\.5, 4\.0, 6\.5, not 3"):
        single_plan(40, "3")


def test_no_lot_is_refused() -> None:
    with pytest.raises(ValueError, match="at least 1, not 0"):
        single_plan(0)


def test_a_lot_without_nonconforming_openings_is_always_accepted() -> None:
    assert acceptance_probability_of_lot(60, 0, 20, 1) == 1


def test_the_whole_lot_inspected_leaves_nothing_to_chance() -> None:
    assert acceptance_probability_of_lot(12, 1, 12, 0) == 0
    assert acceptance_probability_of_lot(12, 1, 12, 1) == 1


@pytest.mark.parametrize(("size", "accept"), [(0, 0), (5, 6), (5, -1)])
def test_numbers_that_are_no_plan_are_refused(size: int, accept: int) -> None:
    with pytest.raises(ValueError, match="must lie between"):
        acceptance_probability_of_lot(9, 1, size, accept)


def test_more_than_the_lot_is_refused() -> None:
    with pytest.raises(ValueError, match="sample_size must lie between 1 and 4"):
        acceptance_probability_of_lot(4, 1, 5, 0)
    with pytest.raises(ValueError, match="nonconforming must lie between 0 and 4"):
        acceptance_probability_of_lot(4, 5, 3, 0)


def test_certainty_has_no_share() -> None:
    with pytest.raises(ValueError, match="probability must lie above 0 and below 1"):
        share_accepted_with(5, 0, 1)


def test_a_plan_that_accepts_everything_has_no_share() -> None:
    with pytest.raises(ValueError, match="not_accepted"):
        share_accepted_with(5, 5, 0.5)
