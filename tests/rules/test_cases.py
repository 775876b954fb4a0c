"""Every rule bites: each change to the conforming record changes the outcomes that it must, and no other.

tests/rules/cases/<rule-id>.yaml lists the cases. A case is named after its kind: at, inside or outside the
limit; as required or otherwise, where the limit is no number; missing; beyond the last step; undecided; does
not apply. Rules of another way of working are held on the record as ways.yaml changes it.
"""

from collections.abc import Iterator
from pathlib import Path
from typing import Any, NamedTuple

import pytest
from tests.rules.changes import WAYS, bare, judged, plain, set_of, shipped

from revealbook.measures.catalogue import CATALOGUE
from revealbook.measures.left_out import CONDITIONS as LEFT_OUT
from revealbook.rules.finding import Judgement, Outcome
from revealbook.rules.read import shipped_sets
from revealbook.rules.rule import Rule

CASES = Path(__file__).parent / "cases"
SETS = {name: shipped(name) for name in shipped_sets()}
RULES = {held.id: held.rule for rules in SETS.values() for held in rules.rules}
KINDS = {
    "at": Outcome.CONFORMS,
    "inside": Outcome.CONFORMS,
    "outside": Outcome.DOES_NOT_CONFORM,
    "as required": Outcome.CONFORMS,
    "otherwise": Outcome.DOES_NOT_CONFORM,
    "missing": Outcome.NOT_SHOWN,
    "beyond": Outcome.NOT_SHOWN,
    "undecided": Outcome.UNDECIDED,
    "does not apply": Outcome.DOES_NOT_APPLY,
}
NO_INSIDE = {
    "support-gap": "no gap is below 0 mm",
    "holes-filled": "no number of empty holes is below 0",
    "hole-diameter": "one diameter is right",
    "support-hole-diameter": "one diameter is right",
    "support-holes": "one number is right",
    "foam-closed-both-sides": "a joint has no third side",
    "joint-tape-closed": "a joint has no third side",
}
STEPS = {
    "d": 1,
    "mm": 1, "mm/m": 0.1, "number": 1, "h": 1 / 60, "min": 1, "K": 0.1, "%": 0.1, "Nm": 0.1, "-": 0.1,
    "N": 1, "kg": 1, "Pa": 1, "m3/(h m)": 0.01,
}  # fmt: skip
"""What counts as one step beside a limit, by unit."""


class Case(NamedTuple):
    """One case of one rule."""

    rule: str
    name: str
    set: dict[str, Any]
    outcome: str
    also: tuple[str, ...] = ()
    way: str = ""

    @property
    def kind(self) -> str:
        """What the case is about, from its name."""
        return next(kind for kind in KINDS if self.name.replace(",", " ").startswith(kind))


def _cases() -> Iterator[Case]:
    for rule in RULES:
        path = CASES / f"{rule}.yaml"
        for stated in plain(path) if path.exists() else ():
            yield Case(rule, **{**stated, "also": tuple(stated.get("also", ()))})


ALL = tuple(_cases())
IN_WAYS = ("", *plain(WAYS))
GUARDED = {(rules.id, way): judged({}, rules, way) for rules in SETS.values() for way in IN_WAYS}
UNCHANGED = {(rules.id, way): judged({}, bare(rules), way) for rules in SETS.values() for way in IN_WAYS}


def _ids(case: Case) -> str:
    return f"{case.rule}: {case.name}"


def _outcomes(name: str, way: str) -> dict[str, Outcome]:
    return {rule: found.outcome for rule, found in GUARDED[name, way].items()}


@pytest.mark.parametrize("name", SETS)
@pytest.mark.parametrize("way", IN_WAYS)
def test_the_conforming_record_conforms_in_every_way_of_working(name: str, way: str) -> None:
    fair = {Outcome.CONFORMS, Outcome.DOES_NOT_APPLY}
    assert {rule: found for rule, found in _outcomes(name, way).items() if found not in fair} == {}


@pytest.mark.parametrize("name", SETS)
def test_the_conforming_record_meets_every_rule_in_one_way_of_working_or_another(name: str) -> None:
    outcomes = [_outcomes(name, way).items() for way in IN_WAYS]
    met = {rule for found in outcomes for rule, outcome in found if outcome is Outcome.CONFORMS}
    assert {held.id for held in SETS[name].rules} - met == set()


@pytest.mark.parametrize("case", ALL, ids=_ids)
def test_a_change_has_its_outcome_and_changes_no_other_rule(case: Case) -> None:
    rules = set_of(case.rule)
    guarded = case.kind == "undecided"
    after = judged(case.set, rules if guarded else bare(rules), case.way)
    before = UNCHANGED[rules.id, case.way]
    assert after[case.rule].outcome == case.outcome == KINDS[case.kind]
    changed = {name for name, found in after.items() if found.outcome != before[name].outcome}
    own = {case.rule} if case.outcome != before[case.rule].outcome else set()
    assert changed == own | set(case.also)
    _assert_one_step_from_the_limit(case, after[case.rule])


def _assert_one_step_from_the_limit(case: Case, found: Judgement) -> None:
    """A case at the limit is exactly there, one inside or outside it one step beside: no other limit fits."""
    if "limit" not in case.name or case.kind not in {"at", "inside", "outside"}:
        return
    unchanged = UNCHANGED[set_of(case.rule).id, case.way][case.rule]
    before = {(finding.subject, finding.margin) for finding in unchanged.findings}
    after = {(finding.subject, finding.margin) for finding in found.findings}
    nearest = min(margin for _, margin in after - before or after if margin is not None)
    step = STEPS[RULES[case.rule].unit] + 1e-6
    if case.kind == "at":
        assert nearest == pytest.approx(0, abs=1e-9)
    elif case.kind == "inside":
        assert 0 < nearest <= step
    else:
        assert -step <= nearest < 0


def _kinds_needed(rule: Rule) -> set[str]:
    if rule.equal_to in {True, False} or rule.one_of:
        needed = {"as required", "otherwise"}
    elif rule.between:
        ends = ("the lower limit", "the upper limit")
        needed = {f"{where} {end}" for where in ("at", "inside", "outside") for end in ends}
    else:
        needed = {"at the limit", "outside the limit"} | ({"inside the limit"} - set(_exempt(rule)))
    conditions = {name for name, _ in rule.conditions} - set(LEFT_OUT)  # those have a test of their own
    conditional = {"does not apply"} if conditions else set()
    return needed | conditional | {"missing"} | ({"beyond the last step"} if rule.limit.by else set())


def _exempt(rule: Rule) -> tuple[str, ...]:
    return ("inside the limit",) if rule.id in NO_INSIDE else ()


@pytest.mark.parametrize("rule", RULES.values(), ids=list(RULES))
def test_no_rule_goes_without_its_cases(rule: Rule) -> None:
    names = [case.name for case in ALL if case.rule == rule.id]
    lacking = {kind for kind in _kinds_needed(rule) if not any(name.startswith(kind) for name in names)}
    assert lacking == set()
    assert len(names) == len(set(names))


def test_a_condition_that_is_not_recorded_is_not_shown_and_names_where_it_should_stand() -> None:
    found = judged({"plinth.used": None})["plinth-bonded"]
    assert found.outcome == Outcome.NOT_SHOWN
    assert [finding.reading.path for finding in found.findings] == [("plinth", "used")]


def test_no_case_file_is_left_of_a_rule_that_is_no_more() -> None:
    assert {path.stem for path in CASES.glob("*.yaml")} == set(RULES)


def test_every_measure_of_the_catalogue_is_judged_by_some_rule_or_decides_when_one_applies() -> None:
    spare = {
        "work_covered": "covering is judged by its waits; without it they are not shown",
        "leakage_by_area": "its limit is the contract's; the class is judged",
        "eccentric_moment": "its limit is the supplier's; the fixings are judged",
        "hinge_pull": "its limit is the hardware maker's; the fixing is judged",
        "wind_suction": "its limit is the supplier's; the fixings are judged",
        "fixing_tension": "a supplier may limit it by itself; tension and shear are judged together",
        "fixing_shear": "a supplier may limit it by itself; tension and shear are judged together",
    }
    used = {name for rules in SETS.values() for name in rules.measures}
    assert set(CATALOGUE) - used == set(spare)
