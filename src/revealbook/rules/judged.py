"""What judging a site gives: every opening's record with its judgements."""

from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass

from revealbook.records.record import Record, SiteFile
from revealbook.rules.finding import Judgement, Outcome, worst
from revealbook.rules.rule_set import RuleSet


@dataclass(frozen=True, slots=True)
class JudgedOpening:
    """One opening's record and what each rule made of it."""

    record: Record
    judgements: tuple[Judgement, ...]

    @property
    def mark(self) -> str:
        """The opening's mark."""
        return self.record.opening.mark

    @property
    def outcome(self) -> Outcome:
        """The worst outcome of any rule."""
        return worst({judgement.outcome for judgement in self.judgements})

    @property
    def counts(self) -> Counter[Outcome]:
        """How many rules gave each outcome."""
        return Counter(judgement.outcome for judgement in self.judgements)

    @property
    def due_counts(self) -> Counter[Outcome]:
        """The same without what is not yet due."""
        return Counter(judgement.outcome for judgement in self.judgements if not judgement.not_yet_due)

    @property
    def not_yet_due(self) -> tuple[Judgement, ...]:
        """The judgements that lack evidence which the work at hand has still to bring."""
        return tuple(judgement for judgement in self.judgements if judgement.not_yet_due)

    @property
    def missed(self) -> tuple[Judgement, ...]:
        """The judgements that lack evidence though their stage is closed."""
        not_shown = self.with_outcome(Outcome.NOT_SHOWN)
        return tuple(judgement for judgement in not_shown if judgement.due)

    @property
    def in_progress(self) -> bool:
        """Whether nothing is wrong or missed, and all that is not shown is not yet due."""
        return self.outcome is Outcome.NOT_SHOWN and not self.missed

    @property
    def stage(self) -> str | None:
        """The first stage of the work that is not closed and has a rule that applies; None once all are."""
        applying = (one for one in self.judgements if one.outcome is not Outcome.DOES_NOT_APPLY)
        return next((one.held.rule.stage for one in applying if not one.due), None)

    def with_outcome(self, outcome: Outcome) -> Iterator[Judgement]:
        """Give the judgements of one outcome, in the order of the rules."""
        return (judgement for judgement in self.judgements if judgement.outcome is outcome)


@dataclass(frozen=True, slots=True)
class JudgedSite:
    """A site whose readable records have all been judged."""

    site: SiteFile
    rule_set: RuleSet
    openings: tuple[JudgedOpening, ...]

    @property
    def outcome(self) -> Outcome:
        """The worst outcome of any opening; a site without openings has shown nothing."""
        if not self.openings:
            return Outcome.NOT_SHOWN
        return worst({opening.outcome for opening in self.openings})
