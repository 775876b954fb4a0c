"""What judging gives: a finding per reading, a judgement per rule."""

from dataclasses import dataclass
from enum import StrEnum

from revealbook.measures.reading import Detail, Missing, Reading, Subject
from revealbook.rules.limit import Limit
from revealbook.rules.rule_set import RuleInForce


class Outcome(StrEnum):
    """The outcome of a rule; the words are the report's own as well."""

    CONFORMS = "conforms"
    DOES_NOT_CONFORM = "does not conform"
    UNDECIDED = "undecided"
    NOT_SHOWN = "not shown"
    DOES_NOT_APPLY = "does not apply"


WORST_FIRST = (
    Outcome.DOES_NOT_CONFORM,
    Outcome.NOT_SHOWN,
    Outcome.UNDECIDED,
    Outcome.CONFORMS,
    Outcome.DOES_NOT_APPLY,
)


@dataclass(frozen=True, slots=True)
class Finding:
    """One reading held against one rule.

    Attributes:
        outcome: the outcome.
        subject: which part of the opening.
        reading: the reading, or what is missing for one.
        limit: the plain limit that held, or None if none could be told.
        margin: how far inside the limit, in its unit; negative outside; None where there is no distance.
        probability: probability that the true value conforms, if an uncertainty is stated.
    """

    outcome: Outcome
    subject: Subject
    reading: Reading | Missing
    limit: Limit | None = None
    margin: float | None = None
    probability: float | None = None

    @property
    def details(self) -> tuple[Detail, ...]:
        """What the reading was computed from."""
        return self.reading.details


@dataclass(frozen=True, slots=True)
class Judgement:
    """One rule on one opening.

    Attributes:
        held: the rule in force.
        outcome: the worst of its findings; `does not apply` if a condition rules it out or nothing is there.
        findings: one per reading.
        ruled_out_by: the condition that rules it out, if one does.
        due: whether its stage is closed, so that what is not shown was missed.
    """

    held: RuleInForce
    outcome: Outcome
    findings: tuple[Finding, ...] = ()
    ruled_out_by: str | None = None
    due: bool = True

    @property
    def not_yet_due(self) -> bool:
        """Whether it lacks evidence that the work at hand has still to bring."""
        return self.outcome is Outcome.NOT_SHOWN and not self.due

    @property
    def rule_id(self) -> str:
        """The rule's id."""
        return self.held.rule.id


def worst(outcomes: set[Outcome]) -> Outcome:
    """Give the worst of some outcomes; `does not apply` if there is none."""
    return next((outcome for outcome in WORST_FIRST if outcome in outcomes), Outcome.DOES_NOT_APPLY)
