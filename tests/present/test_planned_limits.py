from tests.present.setting_out import plan_of, site_of
from tests.setting_out.followed import before_work
from tests.setting_out.rules import PRACTICE, changed, with_changes

from revealbook.present.planned_limits import bounds_of, guard_words, limit_lines
from revealbook.present.words import words_in

EN = words_in("en")


def test_every_rule_that_the_plan_keeps_is_listed_once_in_the_order_of_the_work() -> None:
    plan = plan_of(site_of())
    ids = [line.rule_id for line in limit_lines(plan, PRACTICE, EN)]
    assert ids[0] == "frame-overlap"
    assert ids[-1] == "window-corner-held"
    assert len(ids) == len(set(ids)) == sum(len(bound.ids) for bound in bounds_of(plan))
    assert "plinth-brackets" in ids


def test_rules_of_what_is_not_set_out_are_left_out() -> None:
    bare = before_work(1230, 1480, supports={"called_for": False}, plinth={}, window={})
    ids = {line.rule_id for line in limit_lines(plan_of(site_of(bare)), PRACTICE, EN)}
    assert not any(one.startswith(("support", "plinth", "window")) for one in ids)


def test_what_the_site_changed_shows_both_limits_and_why() -> None:
    rules = changed(fixing_centres="at_most: 600")
    lines = {line.rule_id: line for line in limit_lines(plan_of(site_of(rules=rules)), rules, EN)}
    line = lines["fixing-centres"]
    assert (line.limit, line.changed) == ("at most 600\u00a0mm", "at most 700\u00a0mm")
    assert "letter 1 (invented)" in line.basis
    assert line.basis.endswith("asked for")
    assert lines["first-hole"].changed == ""


def test_a_rule_that_the_site_added_has_no_limit_of_the_rule_set() -> None:
    rules = with_changes(
        "add: [{id: closer, stage: frame, requirement: r, measure: hole_centres, at_most: 450, unit: mm,"
        " grade: major, why: w, remedy: r, basis: {kind: common practice}}]"
    )
    lines = {line.rule_id: line for line in limit_lines(plan_of(site_of(rules=rules)), rules, EN)}
    assert lines["closer"].changed == "none"


def test_what_is_kept_for_the_tape_is_said_if_there_is_one() -> None:
    assert guard_words(plan_of(site_of()), EN) == ""
    said = guard_words(plan_of(site_of(tape=True)), EN).replace("\u00a0", " ")
    assert "1 mm inside its limit" in said
    assert "1.4 mm" in said
