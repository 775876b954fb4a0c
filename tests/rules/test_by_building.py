from pathlib import Path

import pytest
from tests.rules.changes import judged
from tests.rules.sets import HEAD, file, files, stated
from tests.site_folders import change, conforming

from revealbook.present.export import findings
from revealbook.present.words import words_in
from revealbook.records.load import Folder, load_site, look_into
from revealbook.records.record import SiteFile
from revealbook.records.site import Site
from revealbook.rules.by_building import rules_of_building
from revealbook.rules.finding import Outcome
from revealbook.rules.judge_site import judge_site, rules_of
from revealbook.rules.judged import JudgedOpening
from revealbook.rules.read import assemble
from revealbook.rules.rule_set import RuleSet

OWN = "fixing-resistance"
"""A rule that published-limits brings and common-practice does not hold."""


def three_sets() -> RuleSet:
    """A set on a set on a set, and a rule that the site adds."""
    sets = {
        "base": [file("set.yaml", {**HEAD, "set": "base"}), file("rules.yaml", {"rules": [stated(id="a")]})],
        "mid": [
            file("set.yaml", {**HEAD, "set": "mid", "extends": "base"}),
            file("rules.yaml", {"rules": [stated(id="b")]}),
        ],
        "trial": files(stated(id="c"), extends="mid"),
    }
    changed = {"id": "c", "at_least": 90, "basis": {"kind": "common practice"}, "reason": "asked for"}
    overlay = {"overlay": "own", "add": [stated(id="own")], "change": [changed]}
    rules = assemble("trial", None, sets, [file("rules/own.yaml", overlay)])
    assert isinstance(rules, RuleSet), rules
    return rules


def site(*buildings: dict[str, str]) -> Site:
    return Site.model_validate(
        {
            "id": "s",
            "name": "S",
            "rules": {"set": "trial", "edition": "1"},
            "people": [],
            "buildings": buildings,
        }
    )


def left_out(building: str | None, *buildings: dict[str, str]) -> set[str]:
    rules = rules_of_building(three_sets(), site(*buildings), building)
    return {held.id for held in rules.rules if held.left_out_by is not None}


def test_a_building_may_be_judged_by_less_than_the_sites_rule_set() -> None:
    assert left_out("A", {"name": "A", "rules": "base"}) == {"b", "c"}
    assert left_out("A", {"name": "A", "rules": "mid"}) == {"c"}
    assert left_out("A", {"name": "A", "rules": "trial"}) == set()


def test_another_building_and_an_opening_without_one_get_every_rule() -> None:
    buildings = {"name": "A", "rules": "base"}, {"name": "B"}
    assert left_out("B", *buildings) == left_out("C", *buildings) == left_out(None, *buildings) == set()


def test_of_two_entries_for_one_building_the_one_that_asks_for_more_counts() -> None:
    few, more, unsaid = {"name": "A", "rules": "base"}, {"name": "A", "rules": "mid"}, {"name": "A"}
    assert left_out("A", few, more) == left_out("A", more, few) == {"c"}
    assert left_out("A", few, unsaid) == left_out("A", unsaid, few) == set()


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    """The conforming site judged by published-limits, its only opening in building A by common-practice."""
    made = conforming(tmp_path / "s")
    change(made / "site.yaml", "set: common-practice", "set: published-limits")
    change(made / "site.yaml", "  - {name: A, ", "  - {name: A, rules: common-practice, ")
    return made


def looked_into(path: Path) -> Folder:
    found = look_into(path)
    assert isinstance(found, Folder)
    return found


def only(path: Path) -> JudgedOpening:
    checked = judge_site(looked_into(path))
    assert checked.judged is not None, checked.problems
    return checked.judged.openings[0]


def test_rules_that_the_buildings_set_does_not_hold_do_not_apply(folder: Path) -> None:
    outcomes = {one.rule_id: one for one in only(folder).judgements}
    assert outcomes[OWN].outcome is Outcome.DOES_NOT_APPLY
    assert outcomes[OWN].held.left_out_by == "common-practice"
    assert {one.rule_id: one.outcome for one in outcomes.values() if one.held.left_out_by is None} == {
        name: one.outcome for name, one in judged({}).items()
    }
    change(folder / "site.yaml", "rules: common-practice, ", "")
    assert {one.rule_id: one.outcome for one in only(folder).judgements}[OWN] is not Outcome.DOES_NOT_APPLY


def test_findings_for_machines_name_the_set_that_rules_a_rule_out(folder: Path) -> None:
    checked = judge_site(looked_into(folder))
    assert checked.judged is not None
    said = findings(checked.judged, words_in("en"))
    ruled_out = {one["rule"]: one.get("ruled_out_by_set") for one in said["openings"][0]["judgements"]}
    assert ruled_out[OWN] == "common-practice"
    assert ruled_out["frame-overlap"] is None
    assert said["rule_set"]["id"] == "published-limits"


def test_a_building_cannot_be_judged_by_a_set_that_the_sites_set_does_not_extend(tmp_path: Path) -> None:
    made = conforming(tmp_path / "s")
    change(made / "site.yaml", "  - {name: A, ", "  - {name: A, rules: published-limits, ")
    loaded = load_site(looked_into(made))
    assert isinstance(loaded, SiteFile)
    found = rules_of(looked_into(made), loaded)
    assert not isinstance(found, RuleSet)
    ((problem),) = found
    assert (problem.code, problem.facts["name"]) == ("building_set_unknown", "published-limits")
    text = (made / "site.yaml").read_text(encoding="utf-8").splitlines()
    assert "published-limits" in text[problem.place.line - 1]
