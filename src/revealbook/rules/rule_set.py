"""A rule set as it is in force on a site: base rules, what an overlay changed, and the method."""

from dataclasses import dataclass, field

from revealbook.measures.method import Method
from revealbook.rules.basis import Basis
from revealbook.rules.rule import Rule


@dataclass(frozen=True, slots=True)
class Change:
    """What a site's overlay did to a rule.

    Attributes:
        base: the rule before it; None if the overlay brought the rule.
        basis: what the change rests on.
        reason: why it was made.
        file: the overlay's file.
    """

    base: Rule | None
    basis: Basis
    reason: str
    file: str


@dataclass(frozen=True, slots=True)
class RuleInForce:
    """A rule with the limit that holds on this site."""

    rule: Rule
    change: Change | None = None

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
        method_changes: method parameters that an overlay changed, as (name, basis, reason).
        files: what it was read from.
    """

    id: str
    edition: str
    title: str
    rules: tuple[RuleInForce, ...]
    retired: tuple[RuleInForce, ...] = ()
    method: Method = field(default_factory=Method)
    method_changes: tuple[tuple[str, Basis, str], ...] = ()
    files: tuple[SourceFile, ...] = ()

    @property
    def measures(self) -> tuple[str, ...]:
        """Every measure that the rules in force need, once each."""
        return tuple(dict.fromkeys(name for held in self.rules for name in held.rule.measures))
