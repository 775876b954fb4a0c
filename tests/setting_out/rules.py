"""The shipped rule set, as a site's overlay changes it."""

from dataclasses import replace

from tests.rules.changes import common_practice

from revealbook.measures.method import DefaultUncertainty
from revealbook.rules.read import read_rules
from revealbook.rules.rule_set import RuleSet, SourceFile

UNSTATED = DefaultUncertainty(length_mm=None, deviation_mm=None, temperature_k=None, humidity_pct=None)


def to_the_limit(rules: RuleSet) -> RuleSet:
    """The rules, setting out to their very limits where the site lists no tape."""
    return replace(rules, method=rules.method.model_copy(update={"default_uncertainty": UNSTATED}))


PRACTICE = to_the_limit(common_practice())
_BASIS = "basis: {kind: supplier, document: letter 1 (invented)}, reason: asked for"


def with_changes(overlay: str) -> RuleSet:
    """The rules under an overlay, in which BASIS stands for basis and reason."""
    text = "overlay: changes (invented)\n" + overlay.replace("BASIS", _BASIS)
    rules = read_rules("common-practice", None, [SourceFile("rules/site.yaml", text.encode())])
    assert isinstance(rules, RuleSet), rules
    return to_the_limit(rules)


def changed(**limits: str) -> RuleSet:
    """The rules with limits changed, as `changed(fixing_centres="at_most: 600")`."""
    lines = (f"{{id: {rule.replace('_', '-')}, {limit}, BASIS}}" for rule, limit in limits.items())
    return with_changes(f"change: [{', '.join(lines)}]")


def without(*ids: str) -> RuleSet:
    """The rules without some."""
    return replace(PRACTICE, rules=tuple(held for held in PRACTICE.rules if held.id not in ids))
