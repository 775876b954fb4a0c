"""A site's overlay: it tightens, relaxes, retires or adds rules by id, each with its own basis."""

from collections.abc import Iterator, Mapping
from dataclasses import replace
from typing import Any, Self

from pydantic import Field, ValidationError, model_validator
from pydantic_core import PydanticCustomError

from revealbook.measures.method import Method
from revealbook.records.quantities import Day, Many, Mark, Text
from revealbook.rules.basis import Basis
from revealbook.rules.effect import turned_round
from revealbook.rules.fit import faults
from revealbook.rules.rule import LIMIT_KINDS, LimitKeys, Rule, RuleId, Stated
from revealbook.rules.rule_set import Change, MethodChanged, RuleInForce, RuleSet
from revealbook.source.follow import at
from revealbook.source.nearest import nearest
from revealbook.source.place import Place
from revealbook.source.problem import Problem
from revealbook.source.read import Document


class Accepted(Stated):
    """Who accepts a change that asks for less, and on which day."""

    accepted_by: Mark | None = Field(
        default=None, description="Who accepts that less is asked for: an id from people in site.yaml."
    )
    accepted_on: Day | None = Field(default=None, description="On which day.")

    @model_validator(mode="after")
    def _by_and_on(self) -> Self:
        if (self.accepted_by is None) != (self.accepted_on is None):
            raise PydanticCustomError("acceptance_halved", "accepted_by and accepted_on go together")
        return self


class RuleChange(Accepted, LimitKeys):
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


class MethodChange(Accepted):
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
    """Give the rule set as changed by an overlay, and what is wrong with the overlay.

    In a set of format 1 the last of several changes to one rule counts; later sets refuse a second one, and a
    change that says nothing new or turns the limit round.
    """
    problems: list[Problem] = []
    held = {rule.id: rule for rule in rule_set.rules}
    retired = {rule.id: rule for rule in rule_set.retired}
    for number, change in enumerate(overlay.change):
        place = at(document.marks, ("change", number, "id"), document.file)
        if refused := _refused(change, held, retired, rule_set.format):
            problems.append(Problem(place, *refused))
            continue
        changed = _changed(held[change.id], change, place)
        if change.retire:
            retired[change.id] = changed
            del held[change.id]
        else:
            held[change.id] = changed
            problems.extend(_misfits(changed.rule, rule_set.format, ("change", number), document))
    for number, rule in enumerate(overlay.add):
        place = at(document.marks, ("add", number, "id"), document.file)
        if rule.id in held:
            problems.append(Problem(place, "repeated_id", {"name": rule.id}))
        held[rule.id] = RuleInForce(rule, Change(None, rule.basis, overlay.overlay, place))
        problems.extend(_misfits(rule, rule_set.format, ("add", number), document))
    result = replace(rule_set, rules=tuple(held.values()), retired=tuple(retired.values()))
    return _method_changed(result, overlay, document, problems), problems


def _refused(
    change: RuleChange, held: Mapping[str, RuleInForce], retired: Mapping[str, RuleInForce], format_: int
) -> tuple[str, dict[str, Any]] | None:
    """Give code and facts of what keeps a change from being made, if anything does."""
    before = held.get(change.id)
    first = (before or retired.get(change.id, before)) if format_ > 1 else None
    if first is not None and first.change is not None:
        return "changed_twice", {"name": change.id, "first": str(first.change.place)}
    if before is None:
        facts = {"name": change.id, "kind": "rules", "nearest": nearest(change.id, held), "known": ()}
        return "unknown_name", facts
    if change.retire or format_ == 1:
        return None
    limit = change.stated_limit()
    if limit == before.rule.limit:
        return "change_says_nothing_new", {"name": change.id}
    if turned_round(before.rule.limit, limit):
        kinds = {"before": before.rule.kinds_stated()[0], "after": change.kinds_stated()[0]}
        return "limit_turned_round", {"name": change.id, **kinds}
    return None


def _changed(held: RuleInForce, change: RuleChange, place: Place) -> RuleInForce:
    base = held.change.base if held.change else held.rule
    record = Change(
        base or held.rule, change.basis, change.reason, place, change.accepted_by, change.accepted_on
    )
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
        changed = _with_parameter(rule_set, change, place)
        if isinstance(changed, Problem):
            problems.append(changed)
        else:
            rule_set = changed
    return rule_set


def _with_parameter(rule_set: RuleSet, change: MethodChange, place: Place) -> RuleSet | Problem:
    known = tuple(name for name in Method.model_fields if name != "computations")
    if change.name not in known:
        near = nearest(change.name, known)
        facts = {"name": change.name, "kind": "method parameters", "nearest": near, "known": known}
        return Problem(place, "unknown_name", facts)
    base = getattr(rule_set.method, change.name)
    try:
        method = Method.model_validate({**rule_set.method.model_dump(), change.name: change.value})
    except ValidationError as error:
        says = error.errors()[0]["msg"]
        return Problem(place, "refused", {"key": change.name, "pydantic_says": says})
    value = getattr(method, change.name)
    if rule_set.format > 1:
        first = next((one for one in rule_set.method_changes if one.name == change.name), None)
        if first is not None:
            return Problem(place, "changed_twice", {"name": change.name, "first": str(first.place)})
        if value == base:
            return Problem(place, "change_says_nothing_new", {"name": change.name})
    made = MethodChanged(
        change.name, base, value, change.basis, change.reason, place, change.accepted_by, change.accepted_on
    )
    return replace(rule_set, method=method, method_changes=(*rule_set.method_changes, made))
