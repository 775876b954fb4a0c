"""What a site changed about its rule set, one by one, and whether somebody entitled accepted it."""

from collections.abc import Iterator
from dataclasses import dataclass

from revealbook.records.site import Site
from revealbook.rules.effect import Effect, effect_on_limit, effect_on_method
from revealbook.rules.rule_set import Change, MethodChanged, RuleInForce, RuleSet
from revealbook.source.nearest import nearest
from revealbook.source.problem import Problem


@dataclass(frozen=True, slots=True)
class SiteChange:
    """A change to a rule or to a method parameter.

    Attributes:
        name: the rule's id or the parameter's name.
        effect: what the change does.
        made: the change as the site states it.
        critical: whether it is a rule of grade critical.
    """

    name: str
    effect: Effect
    made: Change | MethodChanged
    critical: bool = False

    @property
    def of_method(self) -> bool:
        """Whether a method parameter was changed."""
        return isinstance(self.made, MethodChanged)

    @property
    def to_accept(self) -> bool:
        """Whether it asks for so much less that somebody entitled has to accept it."""
        return self.effect in {"relaxed", "retired"} and (self.critical or self.of_method)


def site_changes(rule_set: RuleSet) -> tuple[SiteChange, ...]:
    """Give all changes: of rules in the order of the work, then retired rules, then of the method."""
    return (
        *(_of_rule(held, held.change) for held in rule_set.rules if held.change),
        *(_of(held, "retired", held.change) for held in rule_set.retired if held.change),
        *(
            SiteChange(one.name, effect_on_method(one.name, one.base, one.value), one)
            for one in rule_set.method_changes
        ),
    )


def _of_rule(held: RuleInForce, change: Change) -> SiteChange:
    if change.base is None:
        return _of(held, "added", change)
    return _of(held, effect_on_limit(change.base.limit, held.rule.limit), change)


def _of(held: RuleInForce, effect: Effect, change: Change) -> SiteChange:
    return SiteChange(held.id, effect, change, held.rule.grade == "critical")


def unaccepted(site: Site, rule_set: RuleSet) -> Iterator[Problem]:
    """Give a problem for every change to less of what is critical that nobody entitled accepts.

    Who is entitled goes by the rule set itself, whatever the site makes of it. Sets of format 1 asked for
    nothing of this.
    """
    if rule_set.format == 1:
        return
    roles = {person.id: set(person.roles) for person in site.people}
    entitled = next(
        (set(one.base) for one in rule_set.method_changes if one.name == "conceding_roles"),
        set(rule_set.method.conceding_roles),
    )
    for change in site_changes(rule_set):
        by = change.made.accepted_by
        if by is None:
            if change.to_accept:
                facts = {"name": change.name, "roles": tuple(sorted(entitled))}
                code = "method_change_unaccepted" if change.of_method else "change_unaccepted"
                yield Problem(change.made.place, code, facts)
        elif by not in roles:
            unknown = {"name": by, "kind": "people", "nearest": nearest(by, roles), "known": tuple(roles)}
            yield Problem(change.made.place, "unknown_name", unknown)
        elif not roles[by] & entitled:
            facts = {"name": by, "roles": tuple(sorted(entitled))}
            yield Problem(change.made.place, "acceptance_not_entitled", facts)
