"""What two editions of a rule set ask for differently: rule by rule, and parameter by parameter."""

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any

from revealbook.measures.method import Method
from revealbook.rules.rule import Rule
from revealbook.rules.rule_set import RuleSet

COMPARED = ("stage", "measure", "grade", "conditions", "requirement", "basis")
"""What may differ about a rule beside its limit; `why` and `remedy` ask for nothing."""


@dataclass(frozen=True, slots=True)
class RuleDifference:
    """A rule that is not the same in both editions; None where an edition does not hold it."""

    before: Rule | None
    after: Rule | None

    @property
    def id(self) -> str:
        """The rule's id."""
        return next(rule.id for rule in (self.after, self.before) if rule is not None)

    @property
    def limit_differs(self) -> bool:
        """Whether the limit is another, if both editions hold the rule."""
        return (
            self.before is not None and self.after is not None and _limit(self.before) != _limit(self.after)
        )

    @property
    def others(self) -> tuple[str, ...]:
        """What else differs, of `COMPARED`."""
        if self.before is None or self.after is None:
            return ()
        one, other = _facts(self.before), _facts(self.after)
        return tuple(name for name in COMPARED if one[name] != other[name])


@dataclass(frozen=True, slots=True)
class EditionDifference:
    """Everything that two editions ask for differently.

    Attributes:
        rules: rules in the order of the later edition, then those that it dropped.
        method: parameters as (name, before, after).
    """

    rules: tuple[RuleDifference, ...]
    method: tuple[tuple[str, Any, Any], ...]


def difference(before: RuleSet, after: RuleSet) -> EditionDifference:
    """Compare two rule sets as they are in force."""
    old = {held.id: held.rule for held in before.rules}
    new = {held.id: held.rule for held in after.rules}
    pairs = (RuleDifference(old.get(rule_id), new.get(rule_id)) for rule_id in dict.fromkeys((*new, *old)))
    differing = (
        one for one in pairs if one.before is None or one.after is None or one.limit_differs or one.others
    )
    return EditionDifference(tuple(differing), tuple(_method(before.method, after.method)))


def _facts(rule: Rule) -> dict[str, Any]:
    """Give what is compared; a note that qualifies a basis is no other basis."""
    basis = rule.basis.model_copy(update={"note": None})
    return {**{name: getattr(rule, name) for name in COMPARED}, "basis": basis}


def _limit(rule: Rule) -> tuple[Any, ...]:
    return rule.limit, rule.unit


def _method(before: Method, after: Method) -> Iterator[tuple[str, Any, Any]]:
    for name in Method.model_fields:
        one, other = getattr(before, name), getattr(after, name)
        if one != other:
            yield name, one, other
