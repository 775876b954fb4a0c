"""A rule set as it is in force on a site: base rules, what an overlay changed, and the method."""

from dataclasses import dataclass, field, replace
from datetime import date
from typing import Any

from revealbook.measures.method import Method
from revealbook.rules.basis import Basis
from revealbook.rules.rule import Rule
from revealbook.source.place import Place

STAGE_CLOSED = "stage_closed"
"""The measure that tells which stages of the work are closed, whatever the rules."""


@dataclass(frozen=True, slots=True)
class Change:
    """What a site's overlay did to a rule.

    Attributes:
        base: the rule before it; None if the overlay brought the rule.
        basis: what the change rests on.
        reason: why it was made.
        place: where the site states it.
        accepted_by: id of the person who accepts that less is asked for, if one does.
        accepted_on: the day of it.
    """

    base: Rule | None
    basis: Basis
    reason: str
    place: Place
    accepted_by: str | None = None
    accepted_on: date | None = None


@dataclass(frozen=True, slots=True)
class MethodChanged:
    """What a site's overlay did to a method parameter; as `Change`, with its value before and after."""

    name: str
    base: Any
    value: Any
    basis: Basis
    reason: str
    place: Place
    accepted_by: str | None = None
    accepted_on: date | None = None


@dataclass(frozen=True, slots=True)
class RuleInForce:
    """A rule with the limit that holds on this site.

    Attributes:
        rule: the rule.
        change: what the site changed about it; None if nothing.
        origin: the rule set that brings it; empty for a rule that the site added.
        left_out_by: the rule set of the building at hand, if that set does not hold the rule.
    """

    rule: Rule
    change: Change | None = None
    origin: str = ""
    left_out_by: str | None = None

    @property
    def id(self) -> str:
        """The rule's id."""
        return self.rule.id


@dataclass(frozen=True, slots=True)
class SourceFile:
    """A file that the rules in force were read from, for embedding and fingerprints."""

    name: str
    raw: bytes


@dataclass(frozen=True, slots=True)
class RuleSet:
    """All rules in force, in the order of the work.

    Attributes:
        id: the set's name.
        edition: its edition.
        title: its title.
        rules: rules in force.
        retired: rules that an overlay retired, with the change that did.
        method: method parameters in force.
        method_changes: method parameters that an overlay changed.
        files: what it was read from.
        format: format of the set's files; from 2 on more is asked of what a site changes.
        chain: the set's name, then the set that it extends, down to the one that extends none.
    """

    id: str
    edition: str
    title: str
    rules: tuple[RuleInForce, ...]
    retired: tuple[RuleInForce, ...] = ()
    method: Method = field(default_factory=Method)
    method_changes: tuple[MethodChanged, ...] = ()
    files: tuple[SourceFile, ...] = ()
    chain: tuple[str, ...] = ()
    format: int = 2

    @property
    def measures(self) -> tuple[str, ...]:
        """Every measure that judging by the rules in force needs, once each."""
        needed = (held.rule.measures for held in self.rules if held.left_out_by is None)
        return tuple(dict.fromkeys((*(name for measures in needed for name in measures), STAGE_CLOSED)))

    def narrowed_to(self, name: str) -> "RuleSet":
        """Give the rules as a building judged by another set of the chain sees them.

        Rules that this set does not hold stay, marked as left out by it; the site's own hold everywhere.

        Raises:
            ValueError: `name` is not in the chain.
        """
        holds = {"", *self.chain[self.chain.index(name) :]}
        rules = (held if held.origin in holds else replace(held, left_out_by=name) for held in self.rules)
        return replace(self, rules=tuple(rules))
