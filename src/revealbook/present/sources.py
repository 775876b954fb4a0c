"""The rule set in force and what each limit rests on, for the back of the pack."""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import groupby

from revealbook.present import labels
from revealbook.present.changed_by_site import acceptance, changed_by_site
from revealbook.present.found import required
from revealbook.present.words import N_, Words
from revealbook.records.site import Building, Person, Site
from revealbook.rules.basis import Basis
from revealbook.rules.rule_set import Change, MethodChanged, RuleInForce, RuleSet


@dataclass(frozen=True, slots=True)
class RuleLine:
    """A rule as it is in force, with the base's limit where the site changed it."""

    rule_id: str
    stage: str
    requirement: str
    limit: str
    base_limit: str
    grade: str
    basis: str
    reason: str


@dataclass(frozen=True, slots=True)
class Sources:
    """The rule set in force.

    Attributes:
        name: set and edition.
        judged_by: the same, with the buildings that are judged by a set below it.
        changed_by_site: how much the site changed about it, in one line; empty if nothing.
        title: its title.
        rules: rules in force.
        retired: rules that the site took out of force.
        method: method parameters in force, as (name, value, reason of a change).
    """

    name: str
    judged_by: str
    changed_by_site: str
    title: str
    rules: tuple[RuleLine, ...]
    changed: tuple[RuleLine, ...]
    retired: tuple[RuleLine, ...]
    method: tuple[tuple[str, str, str], ...]

    @property
    def by_stage(self) -> tuple[tuple[str, tuple[RuleLine, ...]], ...]:
        """The rules in force, by stage of the work."""
        return tuple(
            (stage, tuple(lines)) for stage, lines in groupby(self.rules, key=lambda line: line.stage)
        )


def sources(rule_set: RuleSet, words: Words, site: Site | None = None) -> Sources:
    """Give the rule set in force in words, with the site's buildings and people where they come in."""
    buildings, people = (site.buildings, site.people) if site else ((), ())
    lines = tuple(_line(held, people, words) for held in rule_set.rules)
    reasons = {
        one.name: f"{_reason(one, people, words)} ({basis_words(one.basis, words)})"
        for one in rule_set.method_changes
    }
    name = words.say(N_("{id}, edition {edition}"), id=rule_set.id, edition=rule_set.edition)
    return Sources(
        name=name,
        judged_by="; ".join((name, *_by_building(rule_set, buildings, words))),
        changed_by_site=changed_by_site(rule_set, people, words),
        title=words.say(rule_set.title),
        rules=lines,
        changed=tuple(line for line, held in zip(lines, rule_set.rules, strict=True) if held.change),
        retired=tuple(_line(held, people, words) for held in rule_set.retired),
        method=tuple(
            (name, parameter_value(value, words), reasons.get(name, ""))
            for name, value in rule_set.method.model_dump().items()
        ),
    )


def _by_building(rule_set: RuleSet, buildings: Iterable[Building], words: Words) -> Iterator[str]:
    """Say which buildings are judged by a set that the site's set extends."""
    for building in buildings:
        if building.rules not in {None, rule_set.id}:
            said = N_("building {building} by {set} alone")
            yield words.say(said, building=building.name, set=building.rules)


def _line(held: RuleInForce, people: Sequence[Person], words: Words) -> RuleLine:
    rule, change = held.rule, held.change
    base = change.base if change else None
    return RuleLine(
        rule_id=rule.id,
        stage=words.say(labels.STAGES[rule.stage]),
        requirement=words.say(rule.requirement),
        limit=required(rule.limit, rule, words),
        base_limit=required(base.limit, base, words) if base else "",
        grade=words.say(labels.GRADES[rule.grade]),
        basis=basis_words(change.basis if change else rule.basis, words),
        reason=_reason(change, people, words) if change else "",
    )


def _reason(made: Change | MethodChanged, people: Sequence[Person], words: Words) -> str:
    accepted = acceptance(made, people, words)
    return f"{made.reason} {accepted[:1].upper()}{accepted[1:]}." if accepted else made.reason


def basis_words(basis: Basis, words: Words) -> str:
    """Say what a limit rests on."""
    kind = words.say(labels.BASES[basis.kind])
    source = " ".join(filter(None, (basis.standard, basis.edition)))
    clause = words.say(basis.clause) if basis.clause else ""
    named = ", ".join(filter(None, (source, clause, basis.document)))
    said = f"{kind}: {named}" if named else kind
    return f"{said} ({words.say(basis.note)})" if basis.note else said


def parameter_value(value: object, words: Words) -> str:
    """Say the value of a method parameter; one of several, by stage or by kind of reading, in one line."""
    if value is None:
        return words.say(N_("none"))
    if isinstance(value, Mapping):
        return "; ".join(
            f"{words.say(labels.STAGES.get(str(name), str(name)))}: {parameter_value(one, words)}"
            for name, one in value.items()
        )
    if isinstance(value, list | tuple):
        return ", ".join(parameter_value(one, words) for one in value)
    if isinstance(value, float):
        return words.number(value, "-")
    return words.say(labels.METHODS.get(str(value)) or labels.PARTS.get(str(value), str(value)))
