from typing import Any

import pytest
from tests.rules.sets import in_force, problems, read, stated

from revealbook.rules.limit import Limit
from revealbook.rules.rule_set import RuleInForce, RuleSet

BASIS = {"kind": "supplier", "document": "mounting instructions 2026-03"}


def change(**keys: Any) -> dict[str, Any]:
    return {"change": [{"id": "frame-overlap", "basis": BASIS, "reason": "wider profile", **keys}]}


def changed(**keys: Any) -> RuleInForce:
    (held,) = in_force(stated(), overlays=(change(**keys),)).rules
    return held


@pytest.mark.parametrize("limit", [100, 60])
def test_an_overlay_tightens_or_relaxes_a_limit_and_keeps_the_base(limit: float) -> None:
    held = changed(at_least=limit)
    assert held.rule.limit == Limit(low=limit)
    assert held.change is not None
    assert held.change.base is not None
    assert held.change.base.limit == Limit(low=80)
    assert (held.change.reason, held.change.place.file) == ("wider profile", "rules/0.yaml")


def test_the_change_brings_its_own_basis() -> None:
    held = changed(at_least=100)
    assert held.rule.basis.document == "mounting instructions 2026-03"
    assert held.change is not None
    assert held.change.base is not None
    assert held.change.base.basis.kind == "common practice"


def test_everything_else_of_the_rule_stays() -> None:
    held = changed(at_least=100)
    assert (held.rule.grade, held.rule.remedy, held.rule.stage) == ("critical", "Replace the piece.", "frame")
    assert held.rule.requirement == stated()["requirement"]


def test_a_change_may_bring_the_requirement_in_new_words() -> None:
    held = changed(at_least=100, requirement="The bottom piece runs at least 100 mm past the opening.")
    assert held.rule.requirement == "The bottom piece runs at least 100 mm past the opening."
    assert held.change is not None
    assert held.change.base is not None
    assert held.change.base.requirement == stated()["requirement"]


def test_a_limit_may_become_one_of_another_kind() -> None:
    assert changed(between=[80, 120]).rule.limit == Limit(low=80, high=120)
    steps = [{"up_to": 1000, "limit": 60}, {"up_to": 3000, "limit": 80}]
    assert changed(at_least_by="nominal_width", steps=steps).rule.limit.by == "nominal_width"


def test_a_second_overlay_still_shows_the_first_base() -> None:
    (held,) = in_force(stated(), overlays=(change(at_least=100), change(at_least=120))).rules
    assert held.rule.limit == Limit(low=120)
    assert held.change is not None
    assert held.change.base is not None
    assert held.change.base.limit == Limit(low=80)
    assert held.change.place.file == "rules/1.yaml"


def test_a_retired_rule_is_out_of_force_and_kept_with_its_reason() -> None:
    rules = in_force(stated(), stated(id="two-beads"), overlays=(change(retire=True),))
    assert [held.id for held in rules.rules] == ["two-beads"]
    (retired,) = rules.retired
    assert retired.id == "frame-overlap"
    assert retired.change is not None
    assert retired.change.reason == "wider profile"


def test_an_overlay_adds_a_rule_in_the_order_of_the_work() -> None:
    added = stated(id="substrate-dry", stage="survey", basis=BASIS)
    rules = in_force(stated(), overlays=({"add": [added]},))
    assert [held.id for held in rules.rules] == ["substrate-dry", "frame-overlap"]
    assert rules.rules[0].change is not None
    assert rules.rules[0].change.base is None


def test_an_added_rule_is_not_one_that_there_is() -> None:
    assert problems(stated(), overlays=({"add": [stated()]},)) == [("repeated_id", {"name": "frame-overlap"})]


def test_an_added_rule_that_fits_no_measure_is_refused_where_it_stands() -> None:
    (problem,) = read(stated(), overlays=({"add": [stated(id="our-own", unit="m")]},))
    assert (problem.code, problem.place.file) == ("unit_differs", "rules/0.yaml")


def test_a_retired_rule_may_be_replaced_in_the_same_overlay() -> None:
    rules = in_force(stated(), overlays=({**change(retire=True), "add": [stated(at_least=90)]},))
    assert [held.rule.limit for held in rules.rules] == [Limit(low=90)]
    assert len(rules.retired) == 1


def test_a_rule_that_is_not_there_is_named_with_the_nearest() -> None:
    ((code, facts),) = problems(stated(), overlays=(change(id="frame-overlaps", at_least=90),))
    assert (code, facts["name"], facts["nearest"]) == ("unknown_name", "frame-overlaps", "frame-overlap")


@pytest.mark.parametrize(
    ("keys", "code"),
    [
        ({}, "limit_kinds"),
        ({"at_least": 90, "at_most": 100}, "limit_kinds"),
        ({"retire": True, "at_least": 90}, "refused"),
        ({"between": [100, 90]}, "refused"),
        ({"at_least": 90, "basis": None}, "not_a_section"),
        ({"at_least": 90, "basis": {"kind": "supplier"}}, "refused"),
        ({"at_least": 90, "reason": ""}, "empty_text"),
        ({"at_least": 90, "unit": "m"}, "unknown_key"),
        ({"at_least": 90, "grade": "minor"}, "unknown_key"),
        ({"equal_to": True}, "limit_kind_differs"),
        ({"at_most_by": "nominal_widht", "steps": [{"up_to": 1, "limit": 1}]}, "unknown_measure"),
    ],
)
def test_a_change_that_cannot_be_meant_is_refused(keys: dict[str, Any], code: str) -> None:
    assert [found for found, _ in problems(stated(), overlays=(change(**keys),))] == [code]


def test_a_change_that_fits_no_measure_is_pointed_at_in_the_overlay() -> None:
    (problem,) = read(stated(), overlays=(change(equal_to=True),))
    assert problem.place.file == "rules/0.yaml"
    assert problem.place.line > 1


def method(**keys: Any) -> dict[str, Any]:
    return {"method": [{"basis": BASIS, "reason": "agreed with the client", **keys}]}


def test_an_overlay_changes_a_method_parameter_and_says_why() -> None:
    rules = in_force(stated(), overlays=(method(name="guard_band_factor", value=0.83),))
    assert rules.method.guard_band_factor == 0.83
    (made,) = rules.method_changes
    assert (made.name, made.base, made.value) == ("guard_band_factor", 1, 0.83)
    assert (made.basis.kind, made.reason) == ("supplier", "agreed with the client")


def test_a_list_of_the_method_may_be_changed() -> None:
    rules = in_force(stated(), overlays=(method(name="signing_roles", value=["installer", "client"]),))
    assert rules.method.signing_roles == ("installer", "client")


def test_a_method_parameter_that_is_not_there_is_named_with_the_nearest() -> None:
    ((code, facts),) = problems(stated(), overlays=(method(name="guard_band", value=1),))
    assert (code, facts["nearest"]) == ("unknown_name", "guard_band_factor")


@pytest.mark.parametrize(
    ("name", "value"),
    [("guard_band_factor", 9), ("decision", "by feel"), ("hold_points", ["roof"])],
)
def test_a_method_parameter_takes_no_value_outside_its_range(name: str, value: object) -> None:
    ((code, facts),) = problems(stated(), overlays=(method(name=name, value=value),))
    assert (code, facts["key"]) == ("refused", name)


def test_faults_of_all_overlays_are_told_together() -> None:
    found = problems(stated(), overlays=(change(id="two-beads", at_least=1), method(name="sigma", value=1)))
    assert [code for code, _ in found] == ["unknown_name", "unknown_name"]


# --- from format 2 on ------------------------------------------------------------------------------------


def refused(*overlays: dict[str, Any], rule: dict[str, Any] | None = None) -> list[tuple[str, Any]]:
    """What keeps a set of format 2 from being changed so; the same was taken in format 1."""
    assert isinstance(read(rule or stated(), overlays=overlays), RuleSet)
    return problems(rule or stated(), overlays=overlays, format=2)


def test_two_changes_of_one_rule_are_refused_with_both_places() -> None:
    for second in (change(at_least=120), change(at_least=100), change(retire=True)):
        (problem,) = read(stated(), overlays=(change(at_least=100), second), format=2)
        assert (problem.code, problem.place.file) == ("changed_twice", "rules/1.yaml")
        assert problem.facts["first"].startswith("rules/0.yaml:")
    one_file = {"change": [*change(at_least=100)["change"], *change(at_least=120)["change"]]}
    assert [code for code, _ in refused(one_file)] == ["changed_twice"]


def test_a_retired_rule_is_not_changed_and_an_added_one_is_stated_as_it_is_meant() -> None:
    found = problems(stated(), stated(id="b"), overlays=(change(retire=True), change(at_least=90)), format=2)
    assert [code for code, _ in found] == ["changed_twice"]
    added = {"add": [stated(id="own")]}
    assert [code for code, _ in refused(added, change(id="own", at_least=70))] == ["changed_twice"]


def test_two_changes_of_one_method_parameter_are_refused_with_both_places() -> None:
    twice = method(name="guard_band_factor", value=0.83), method(name="guard_band_factor", value=1.5)
    ((code, facts),) = refused(*twice)
    assert (code, facts["first"].split(":")[0]) == ("changed_twice", "rules/0.yaml")


def test_a_change_that_is_none_is_refused() -> None:
    assert [code for code, _ in refused(change(at_least=80))] == ["change_says_nothing_new"]
    assert [code for code, _ in refused(change(at_least=80, requirement="Other words."))] == [
        "change_says_nothing_new"
    ]
    assert [code for code, _ in refused(method(name="gamma_dead", value=1.35))] == ["change_says_nothing_new"]


def test_a_limit_cannot_be_turned_round() -> None:
    ((code, facts),) = refused(change(at_most=700))
    assert (code, facts["before"], facts["after"]) == ("limit_turned_round", "at_least", "at_most")
    bonded = stated(measure="joint_bonded", unit="yes/no", equal_to=True)
    assert [code for code, _ in refused(change(equal_to=False), rule=bonded)] == ["limit_turned_round"]


def test_a_limit_may_be_closed_on_its_other_side_as_well() -> None:
    assert in_force(stated(), overlays=(change(between=[80, 120]),), format=2).rules[0].rule.limit.high == 120


def test_the_edition_of_the_computations_is_not_the_sites_to_change() -> None:
    ((code, facts),) = problems(stated(), overlays=(method(name="computations", value=1),))
    assert code == "unknown_name"
    assert "computations" not in facts["known"]


def test_who_accepts_a_change_says_on_which_day() -> None:
    held = in_force(stated(), overlays=(change(at_least=60, accepted_by="cleo", accepted_on="2026-11-02"),))
    made = held.rules[0].change
    assert made is not None
    assert (made.accepted_by, str(made.accepted_on)) == ("cleo", "2026-11-02")
    for halved in ({"accepted_by": "cleo"}, {"accepted_on": "2026-11-02"}):
        assert [code for code, _ in problems(stated(), overlays=(change(at_least=60, **halved),))] == [
            "refused"
        ]
