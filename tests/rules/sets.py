"""Small rule sets written for a test, in the words that a rule file would use."""

import json
from collections.abc import Mapping
from typing import Any

from revealbook.rules.read import assemble
from revealbook.rules.rule import Rule
from revealbook.rules.rule_set import RuleSet, SourceFile
from revealbook.source.problem import Problem

STATED: dict[str, Any] = {
    "id": "frame-overlap",
    "stage": "frame",
    "requirement": "The bottom piece runs at least 80 mm past the opening on each side.",
    "measure": "frame_overlap",
    "at_least": 80,
    "unit": "mm",
    "grade": "critical",
    "basis": {"kind": "common practice"},
    "why": "The side pieces stand on these ends.",
    "remedy": "Replace the piece.",
}
"""A rule that is right; tests change one thing about it."""
HEAD = {"set": "trial", "edition": "1", "title": "A set for trying things out"}
NUMBER_KINDS = ("at_least", "at_most", "between", "equal_to", "one_of", "at_most_by", "at_least_by")


def stated(**changes: Any) -> dict[str, Any]:
    """The right rule with changes; a stated limit takes the place of its own, None takes a key away."""
    if set(changes) & set(NUMBER_KINDS):
        changes = {"at_least": None, **changes}
    return {key: value for key, value in {**STATED, **changes}.items() if value is not None}


def rule(**changes: Any) -> Rule:
    """The same as a model."""
    return Rule.model_validate(stated(**changes))


def file(name: str, content: Mapping[str, Any]) -> SourceFile:
    """A file of a rule set; what JSON says, YAML says as well."""
    return SourceFile(name, json.dumps(content, indent=1).encode())


def files(*rules: Mapping[str, Any], **head: Any) -> list[SourceFile]:
    """The files of a set with these rules."""
    return [file("set.yaml", {**HEAD, **head}), file("rules.yaml", {"rules": list(rules)})]


def read(*rules: Mapping[str, Any], overlays: tuple[Mapping[str, Any], ...] = (), **head: Any) -> Any:
    """The set in force with these rules and overlays, or what is wrong with it."""
    laid_over = [file(f"rules/{number}.yaml", {"overlay": "trial overlay", **content})
                 for number, content in enumerate(overlays)]  # fmt: skip
    return assemble("trial", None, {"trial": files(*rules, **head)}, laid_over)


def in_force(*rules: Mapping[str, Any], **rest: Any) -> RuleSet:
    """The set in force; it must be right."""
    found = read(*rules, **rest)
    assert isinstance(found, RuleSet), found
    return found


def problems(*rules: Mapping[str, Any], **rest: Any) -> list[tuple[str, Any]]:
    """What is wrong with it: codes and facts."""
    found = read(*rules, **rest)
    assert not isinstance(found, RuleSet), "nothing is wrong with it"
    assert all(isinstance(problem, Problem) for problem in found)
    return [(problem.code, problem.facts) for problem in found]
