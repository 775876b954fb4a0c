import json

import pytest
from scipy.stats import binom, hypergeom
from tests.present.judging import site

from revealbook.inspection.draw import Candidate, Chosen
from revealbook.inspection.sample import (
    always_inspected,
    data,
    read_sample,
    risks,
    sample_site,
    share_in_series,
    take_sample,
)
from revealbook.measures.physics.sampling import single_plan

LOT = tuple(Candidate(f"W-{number:02}", elevation="north" if number % 3 else "south") for number in range(30))


def test_a_sample_is_read_back_from_what_was_written() -> None:
    taken = take_sample(LOT, "larch-court", "4.0", 5, by=("elevation",), chosen=Chosen(building="B"))
    assert read_sample(json.loads(json.dumps(data(taken)))) == taken


def test_a_sample_of_other_openings_than_its_seed_draws_is_refused() -> None:
    stated = data(take_sample(LOT, "larch-court", "2.5", 5))
    left = next(one.mark for one in LOT if one.mark not in stated["drawn"])
    stated["drawn"][0] = left
    with pytest.raises(ValueError, match="changed after the draw"):
        read_sample(stated)


def test_a_sample_with_another_seed_is_refused() -> None:
    stated = data(take_sample(LOT, "larch-court", "2.5", 5)) | {"seed": 6}
    with pytest.raises(ValueError, match="changed after the draw"):
        read_sample(stated)


def test_a_lot_that_names_an_opening_twice_is_refused() -> None:
    stated = data(take_sample(LOT, "larch-court", "2.5", 5))
    stated["lot"].append(stated["lot"][0])
    with pytest.raises(ValueError, match="twice"):
        read_sample(stated)


@pytest.mark.parametrize("stated", [{}, [], 3, {"format": "revealbook-sample-1"}])
def test_what_is_no_sample_is_refused(stated: object) -> None:
    with pytest.raises(ValueError, match="no sample"):
        read_sample(stated)


def test_an_empty_lot_gives_no_sample() -> None:
    with pytest.raises(ValueError, match="at least 1, not 0"):
        take_sample((), "larch-court", "2.5", 5)


def test_risks_fall_with_the_number_of_nonconforming_openings() -> None:
    found = risks(single_plan(40, "2.5"))
    assert [risk.nonconforming for risk in found] == [1, 2, 4, 8, 12]
    assert found[0].accepted == pytest.approx(0.875)
    assert [risk.accepted for risk in found] == sorted((risk.accepted for risk in found), reverse=True)


def test_the_consumers_risk_in_a_series_is_one_in_ten() -> None:
    plan = single_plan(60, "2.5")
    assert float(binom.cdf(plan.accept, plan.sample_size, share_in_series(plan))) == pytest.approx(0.1)


def test_critical_rules_are_never_left_to_a_sample() -> None:
    judged = site({"W-1": {}, "W-2": {"plinth.used": False}})
    sample = sample_site(judged, "6.5", 1, (), Chosen())
    found = dict(always_inspected(judged, sample.members))
    grades = {held.id: held.rule.grade for held in judged.rule_set.rules}
    assert {grades[rule] for rule in found} == {"critical"}
    assert found["frame-overlap"] == 2
    assert found["plinth-brackets"] == 1


def test_a_divided_lot_tells_its_parts() -> None:
    taken = take_sample(LOT, "larch-court", "6.5", 5, by=("elevation",))
    assert taken.divided == ((("north",), 20, 5), (("south",), 10, 3))
    assert sum(places for _, _, places in taken.divided) == taken.plan.sample_size


def test_the_risk_of_a_lot_is_that_of_so_many_openings_in_it() -> None:
    plan = single_plan(30, "2.5")
    found = risks(plan)
    assert [risk.nonconforming for risk in found] == [1, 2, 3, 6, 9]  # 1, 2.5, 5, 10, 20, 30 % rounded up
    assert [risk.share for risk in found] == pytest.approx([1 / 30, 2 / 30, 0.1, 0.2, 0.3])
    for risk in found:
        none = float(hypergeom.cdf(plan.accept, 30, risk.nonconforming, plan.sample_size))
        assert risk.accepted == pytest.approx(none)


def test_only_rules_that_apply_in_the_lot_are_inspected_everywhere() -> None:
    judged = site({"W-1": {}, "W-2": {"plinth.used": False}})
    lot_of_one = tuple(
        one for one in sample_site(judged, "6.5", 1, (), Chosen()).members if one.mark == "W-2"
    )
    found = dict(always_inspected(judged, lot_of_one))
    assert "plinth-brackets" not in found
    assert found["frame-overlap"] == 1
    order = [held.id for held in judged.rule_set.rules]
    assert list(found) == sorted(found, key=order.index)


@pytest.mark.parametrize(
    ("key", "value"), [("seed", -1), ("by", ["colour"]), ("aql_pct", "3.0"), ("lot", [{"x": "y"}])]
)
def test_a_sample_with_a_value_that_makes_no_sense_is_refused(key: str, value: object) -> None:
    stated = data(take_sample(LOT, "larch-court", "2.5", 5)) | {key: value}
    with pytest.raises(ValueError, match="no sample"):
        read_sample(stated)


def test_a_seed_of_nought_is_a_seed() -> None:
    taken = take_sample(LOT, "larch-court", "2.5", 0)
    assert read_sample(data(taken)) == taken


def test_what_a_later_version_wrote_into_a_sample_does_not_hinder_reading_it() -> None:
    taken = take_sample(LOT, "larch-court", "2.5", 5)
    assert read_sample(data(taken) | {"later": 1}) == taken
