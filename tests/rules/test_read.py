import re
from pathlib import Path
from typing import Any

import pytest
from tests.rules.sets import HEAD, file, files, in_force, problems, read, stated

from revealbook.rules.read import assemble, read_rules, set_files, shipped_sets
from revealbook.rules.rule_set import RuleSet, SourceFile


def test_the_shipped_set_reads_without_a_problem() -> None:
    rules = read_rules("common-practice", "2026-12")
    assert isinstance(rules, RuleSet)
    assert len({held.id for held in rules.rules}) == len(rules.rules) > 80
    assert all(held.change is None for held in rules.rules)


def test_shipped_sets_are_folders_of_editions_with_a_head() -> None:
    assert list(shipped_sets()["common-practice"])[:2] == ["2026-11", "2026-12"]
    heads = [folder / "set.yaml" for editions in shipped_sets().values() for folder in editions.values()]
    assert all(head.is_file() for head in heads)


def test_the_head_of_a_set_is_read_first() -> None:
    names = [found.name for found in set_files(shipped_sets()["common-practice"]["2026-12"])]
    assert names[0] == "rule_sets/common-practice/set.yaml"
    assert names[1:] == sorted(names[1:])


def test_rules_stand_in_the_order_of_the_work_whatever_their_files_are_called() -> None:
    late, early = stated(id="signed-off", stage="acceptance"), stated(id="substrate-dry", stage="survey")
    assert [held.id for held in in_force(late, stated(), early).rules] == [
        "substrate-dry",
        "frame-overlap",
        "signed-off",
    ]


def test_the_set_keeps_what_it_was_read_from() -> None:
    made = files(stated())
    rules = assemble("trial", None, {"trial": made})
    assert isinstance(rules, RuleSet)
    assert rules.files == tuple(made)


def test_another_edition_than_the_site_asks_for_is_refused() -> None:
    found = assemble("trial", "2", {"trial": files(stated())})
    assert not isinstance(found, RuleSet)
    assert [(problem.code, problem.facts["asked"], problem.facts["known"]) for problem in found] == [
        ("edition_differs", "2", "1")
    ]


def test_an_unknown_set_is_named_with_the_nearest() -> None:
    found = read_rules("common-practise", None)
    assert not isinstance(found, RuleSet)
    assert found[0].code == "unknown_rule_set"
    assert found[0].facts["nearest"] == "common-practice"


def test_a_set_builds_on_another() -> None:
    base = [file("set.yaml", {**HEAD, "set": "base"}), file("rules.yaml", {"rules": [stated()]})]
    above = files(stated(id="two-beads"), extends="base")
    rules = assemble("trial", None, {"base": base, "trial": above})
    assert isinstance(rules, RuleSet)
    assert [held.id for held in rules.rules] == ["frame-overlap", "two-beads"]
    assert len(rules.files) == 4


def test_a_set_takes_over_the_method_of_the_set_below_save_what_it_states_itself() -> None:
    below = {"decision": "simple acceptance", "guard_band_factor": 0.5}
    base = [
        file("set.yaml", {**HEAD, "set": "base", "method": below}),
        file("rules.yaml", {"rules": [stated()]}),
    ]
    above = files(stated(id="two-beads"), extends="base", method={"guard_band_factor": 2.0})
    rules = assemble("trial", None, {"base": base, "trial": above})
    assert isinstance(rules, RuleSet)
    assert rules.method.decision == "simple acceptance"
    assert rules.method.guard_band_factor == 2.0


def test_sets_that_extend_each_other_are_refused() -> None:
    first = [file("set.yaml", {**HEAD, "set": "first", "extends": "trial"})]
    found = assemble("trial", None, {"first": first, "trial": files(stated(), extends="first")})
    assert not isinstance(found, RuleSet)
    assert [problem.code for problem in found] == ["sets_extend_each_other"]


def test_a_base_that_is_not_there_is_told() -> None:
    assert problems(stated(), extends="triall")[0][0] == "unknown_rule_set"


def test_a_rule_stated_twice_is_refused_across_files_and_bases() -> None:
    twice = [*files(stated()), file("more.yaml", {"rules": [stated()]})]
    base = [file("set.yaml", {**HEAD, "set": "base"}), file("base.yaml", {"rules": [stated()]})]
    for sets in ({"trial": twice}, {"base": base, "trial": files(stated(), extends="base")}):
        found = assemble("trial", None, sets)
        assert not isinstance(found, RuleSet)
        assert [(problem.code, problem.facts["name"]) for problem in found] == [
            ("repeated_id", "frame-overlap")
        ]


@pytest.mark.parametrize(
    ("changes", "code"),
    [
        ({"measure": "frame_overlapp"}, "unknown_measure"),
        ({"unit": "m"}, "unit_differs"),
        ({"at_least": True}, "not_a_number"),
        ({"equal_to": True}, "limit_kind_differs"),
        ({"between": [200, 150]}, "refused"),
        ({"basis": {"kind": "published", "standard": "DIN 18202"}}, "refused"),
        ({"grade": "severe"}, "not_one_of"),
        ({"applies_when": ["hole_centres"]}, "condition_not_yes_or_no"),
        ({"when": "width > 3"}, "unknown_key"),
        ({"remedy": None}, "missing_key"),
        (
            {"at_most_by": "nominal_width", "steps": [{"up_to": 2, "limit": 1}, {"up_to": 1, "limit": 2}]},
            "refused",
        ),
    ],
)
def test_a_rule_that_cannot_be_meant_is_refused_where_it_stands(changes: dict[str, Any], code: str) -> None:
    found = read(stated(id="first"), stated(**changes))
    assert not isinstance(found, RuleSet)
    assert [problem.code for problem in found] == [code]
    assert found[0].place.file == "rules.yaml"
    assert found[0].place.line > len(stated())


def test_everything_wrong_is_told_at_once_in_the_order_of_the_files() -> None:
    found = read(stated(unit="m", applies_when=["plinth"]), stated(id="next", measure="beads"))
    codes = [problem.code for problem in found]
    assert sorted(codes) == ["unit_differs", "unknown_measure", "unknown_measure"]
    assert [problem.place for problem in found] == sorted(problem.place for problem in found)


def test_a_file_that_is_no_yaml_is_told_with_its_line() -> None:
    found = assemble("trial", None, {"trial": [*files(), SourceFile("frame.yaml", b"rules:\n\t- id: x\n")]})
    assert not isinstance(found, RuleSet)
    assert str(found[0].place).startswith("frame.yaml:2")


def test_a_set_states_its_method() -> None:
    assert in_force(stated(), method={"decision": "simple acceptance"}).method.decision == "simple acceptance"
    assert problems(stated(), method={"guard_band_factor": -1})[0][0] == "too_small"


def test_every_shipped_rule_file_is_named_after_the_stage_of_its_rules() -> None:
    rules = read_rules("common-practice", None)
    assert isinstance(rules, RuleSet)
    stages = {held.rule.stage for held in rules.rules}
    assert {Path(found.name).stem for found in rules.files} == {"set", *stages}


def test_what_shipped_rules_say_is_whole_sentences() -> None:
    rules = read_rules("common-practice", None)
    assert isinstance(rules, RuleSet)
    said = [text for held in rules.rules for text in (held.rule.requirement, held.rule.why, held.rule.remedy)]
    assert [
        text for text in said if not (text[0].isupper() and text.endswith(".") and "  " not in text)
    ] == []
    assert [held.id for held in rules.rules if held.rule.requirement.rstrip(".").count(". ")] == []


def test_a_requirement_names_the_figures_of_its_limit() -> None:
    rules = read_rules("common-practice", None)
    assert isinstance(rules, RuleSet)
    silent = []
    for held in rules.rules:
        limit, said = held.rule.limit, set(re.findall(r"\d+(?:\.\d+)?", held.rule.requirement))
        figures = {f"{abs(end):g}" for end in (limit.low, limit.high) if end}
        figures |= {f"{step.limit:g}" for step in limit.steps if held.id != "substrate-flat"}
        if not figures <= said:
            silent.append((held.id, figures - said))
    assert silent == []
