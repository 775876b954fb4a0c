from dataclasses import replace

import pytest
from tests.rules.changes import common_practice
from tests.setting_out.followed import SITE, around, before_work, work_on
from tests.setting_out.rules import PRACTICE, with_changes, without

from revealbook.setting_out.bounds import USUAL_RULES, Bound, bound, guard
from revealbook.setting_out.refusal import NotPossible, Reason

NO_TAPE = {**SITE, "instruments": []}
WORK = work_on(before_work(1230, 1480), around(PRACTICE))


def found(measure: str, overlay: str = "") -> Bound | NotPossible:
    rules = with_changes(overlay) if overlay else PRACTICE
    return bound(measure, rules, work_on(before_work(1230, 1480), around(rules)))


def test_every_measure_that_setting_out_looks_at_is_limited_by_its_usual_rule() -> None:
    for measure, rule in USUAL_RULES.items():
        bounded = bound(measure, PRACTICE, WORK)
        assert isinstance(bounded, Bound), measure
        assert rule in bounded.ids


def test_a_limit_is_the_one_in_force_on_the_site() -> None:
    bounded = found("hole_centres", "change: [{id: fixing-centres, at_most: 600, BASIS}]")
    assert isinstance(bounded, Bound)
    assert (bounded.low, bounded.high) == (None, 600)


def test_a_retired_rule_is_a_refusal_that_names_it() -> None:
    refused = found("hole_centres", "change: [{id: fixing-centres, retire: true, BASIS}]")
    assert refused == NotPossible(Reason.NO_RULE, (), ("fixing-centres",))


ADDED = """add:
  - {id: closer-still, stage: frame, requirement: Closer., measure: hole_centres, at_most: 450, unit: mm,
     grade: major, why: w, remedy: r, basis: {kind: common practice}CONDITION}
"""


def test_a_rule_that_the_site_adds_counts_and_the_tightest_holds() -> None:
    bounded = found("hole_centres", ADDED.replace("CONDITION", ""))
    assert isinstance(bounded, Bound)
    assert bounded.high == 450
    assert bounded.ids == ("fixing-centres", "closer-still")


@pytest.mark.parametrize(("condition", "high"), [("supports_called_for", 450), ("window_through_frame", 450)])
def test_a_rule_whose_condition_holds_or_is_not_recorded_yet_counts(condition: str, high: float) -> None:
    bounded = found("hole_centres", ADDED.replace("CONDITION", f", applies_when: [{condition}]"))
    assert isinstance(bounded, Bound)
    assert bounded.high == high


def test_a_rule_whose_condition_is_known_not_to_hold_is_left_out() -> None:
    bounded = found("hole_centres", ADDED.replace("CONDITION", ", applies_unless: [supports_called_for]"))
    assert isinstance(bounded, Bound)
    assert bounded.ids == ("fixing-centres",)


def test_rules_that_contradict_each_other_are_both_named() -> None:
    least = ADDED.replace("at_most: 450", "at_least: 800").replace("CONDITION", "")
    assert found("hole_centres", least) == NotPossible(
        Reason.RULES_DISAGREE, (), ("fixing-centres", "closer-still")
    )


BY_HEIGHT = """change:
  - {id: fixing-centres, at_most_by: SIZE, BASIS,
     steps: [{up_to: 1000, limit: 700}, {up_to: 2000, limit: 500}]}
"""


def test_a_limit_by_a_size_that_is_known_before_the_work_is_the_one_at_this_opening() -> None:
    bounded = found("hole_centres", BY_HEIGHT.replace("SIZE", "nominal_height"))
    assert isinstance(bounded, Bound)
    assert bounded.high == 500


def test_a_limit_by_a_size_that_only_the_work_shows_is_refused() -> None:
    refused = found("hole_centres", BY_HEIGHT.replace("SIZE", "bottom_surplus"))
    assert refused == NotPossible(Reason.LIMIT_BY_UNKNOWN_SIZE, (), ("fixing-centres", "bottom_surplus"))


def test_a_rule_that_the_buildings_set_does_not_hold_limits_nothing_there() -> None:
    held = tuple(
        replace(one, left_out_by="less") if one.id == "fixing-centres" else one for one in PRACTICE.rules
    )
    refused = bound("hole_centres", replace(PRACTICE, rules=held), WORK)
    assert refused == NotPossible(Reason.NO_RULE, (), ("fixing-centres",))


def test_the_guard_is_the_coarsest_tapes_uncertainty_and_more_for_a_difference() -> None:
    tapes = [
        {"id": "t1", "measures": "length", "uncertainty": 1},
        {"id": "t2", "measures": "length", "uncertainty": 2},
        {"id": "l1", "measures": "deviation", "uncertainty": 9},
    ]
    kept = guard(work_on(before_work(1230, 1480), around(PRACTICE, {**SITE, "instruments": tapes})))
    assert kept.one_mm == 2
    assert kept.two_mm == pytest.approx(2 * 2**0.5)


def test_without_a_tape_or_without_a_guard_band_nothing_is_kept() -> None:
    simple = replace(PRACTICE, method=PRACTICE.method.model_copy(update={"decision": "simple acceptance"}))
    for rules, site in ((PRACTICE, NO_TAPE), (simple, SITE)):
        kept = guard(work_on(before_work(1230, 1480), around(rules, site)))
        assert (kept.one_mm, kept.two_mm) == (0, 0)


def test_where_no_tape_is_listed_the_methods_own_uncertainty_is_kept() -> None:
    kept = guard(work_on(before_work(1230, 1480), around(common_practice(), NO_TAPE)))
    assert kept.one_mm == common_practice().method.default_uncertainty.length_mm == 1


def test_a_rule_set_without_the_rule_is_refused_like_a_retired_one() -> None:
    assert bound("bead_number", without("two-beads"), WORK) == NotPossible(Reason.NO_RULE, (), ("two-beads",))
