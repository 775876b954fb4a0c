"""A site's overlay: it tightens, relaxes, retires or adds rules by id, each with its own basis."""

from collections.abc import Iterator
from dataclasses import replace
from typing import Any, Self

from pydantic import Field, ValidationError, model_validator
from pydantic_core import PydanticCustomError

from revealbook.measures.method import Method
from revealbook.records.quantities import Many, Text
from revealbook.rules.basis import Basis
from revealbook.rules.fit import faults
from revealbook.rules.rule import LIMIT_KINDS, LimitKeys, Rule, RuleId, Stated
from revealbook.rules.rule_set import Change, RuleInForce, RuleSet
from revealbook.source.follow import at
from revealbook.source.nearest import nearest
from revealbook.source.problem import Problem
from revealbook.source.read import Document


class RuleChange(LimitKeys):
    """A change to a rule that there is."""

    id: RuleId = Field(description="The rule.")
    retire: bool = Field(default=False, description="Take the rule out of force.")
    requirement: Text | None = Field(
        default=None, description="The requirement in new words, where the old ones name the old limit."
    )
    basis: Basis = Field(description="What the change rests on.")
    reason: Text = Field(description="Why it is made.")

    @model_validator(mode="after")
    def _one_change(self) -> Self:
        if self.retire and self.kinds_stated():
            raise PydanticCustomError("change_and_retire", "a rule is either changed or retired")
        if not self.retire:
            self.check_limit()
        return self


class MethodChange(Stated):
    """A change to one method parameter."""

    name: Text = Field(description="The parameter.")
    value: Any = Field(description="Its new value.")
    basis: Basis = Field(description="What the change rests on.")
    reason: Text = Field(description="Why it is made.")


class Overlay(Stated):
    """A file below rules/ of a site."""

    overlay: Text = Field(description="What this overlay is.")
    change: Many[RuleChange] = Field(default=(), description="Changes to rules that there are.")
    add: Many[Rule] = Field(default=(), description="Rules that the site adds.")
    method: Many[MethodChange] = Field(default=(), description="Changes to method parameters.")


def lay_over(rule_set: RuleSet, overlay: Overlay, document: Document) -> tuple[RuleSet, list[Problem]]:
    """Give the rule set as changed by an overlay, and what is wrong with the overlay."""
    problems: list[Problem] = []
    held = {rule.id: rule for rule in rule_set.rules}
    retired = list(rule_set.retired)
    for number, change in enumerate(overlay.change):
        if change.id not in held:
            facts = {"name": change.id, "kind": "rules", "nearest": nearest(change.id, held), "known": ()}
            problems.append(
                Problem(at(document.marks, ("change", number, "id"), document.file), "unknown_name", facts)
            )
            continue
        changed = _changed(held[change.id], change, document.file)
        if change.retire:
            del held[change.id]
            retired.append(changed)
        else:
            held[change.id] = changed
            problems.extend(_misfits(changed.rule, rule_set.format, ("change", number), document))
    for number, rule in enumerate(overlay.add):
        if rule.id in held:
            place = at(document.marks, ("add", number, "id"), document.file)
            problems.append(Problem(place, "repeated_id", {"name": rule.id}))
        held[rule.id] = RuleInForce(rule, Change(None, rule.basis, overlay.overlay, document.file))
        problems.extend(_misfits(rule, rule_set.format, ("add", number), document))
    result = replace(rule_set, rules=tuple(held.values()), retired=tuple(retired))
    return _method_changed(result, overlay, document, problems), problems


def _changed(held: RuleInForce, change: RuleChange, file: str) -> RuleInForce:
    base = held.change.base if held.change else held.rule
    record = Change(base or held.rule, change.basis, change.reason, file)
    if change.retire:
        return replace(held, change=record)
    stated = held.rule.model_dump(exclude={*LIMIT_KINDS, "steps"}, exclude_none=True)
    stated |= change.model_dump(include={*LIMIT_KINDS, "steps", "requirement"}, exclude_none=True)
    return replace(held, rule=Rule.model_validate({**stated, "basis": change.basis}), change=record)


def _misfits(rule: Rule, format_: int, path: tuple[str | int, ...], document: Document) -> Iterator[Problem]:
    for key, code, facts in faults(rule, format_):
        yield Problem(at(document.marks, (*path, key), document.file), code, facts)


def _method_changed(
    rule_set: RuleSet, overlay: Overlay, document: Document, problems: list[Problem]
) -> RuleSet:
    for number, change in enumerate(overlay.method):
        place = at(document.marks, ("method", number, "name"), document.file)
        if change.name not in Method.model_fields:
            facts = {
                "name": change.name,
                "kind": "method parameters",
                "nearest": nearest(change.name, Method.model_fields),
            }
            problems.append(Problem(place, "unknown_name", {**facts, "known": tuple(Method.model_fields)}))
            continue
        try:
            method = Method.model_validate({**rule_set.method.model_dump(), change.name: change.value})
        except ValidationError as error:
            says = error.errors()[0]["msg"]
            problems.append(Problem(place, "refused", {"key": change.name, "pydantic_says": says}))
            continue
        changes = (*rule_set.method_changes, (change.name, change.basis, change.reason))
        rule_set = replace(rule_set, method=method, method_changes=changes)
    return rule_set
