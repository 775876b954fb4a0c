"""THE STEP: a site's records and rules to its openings as set out."""

from dataclasses import dataclass

from revealbook.measures.work import Surroundings, Work
from revealbook.records.record import Record, SiteFile
from revealbook.rules.rule_set import RuleSet
from revealbook.setting_out.materials import Allowances, Need, Quantity, needs, quantities
from revealbook.setting_out.plan import OpeningPlan, set_out
from revealbook.setting_out.refusal import NotPossible


@dataclass(frozen=True, slots=True)
class SetOut:
    """One opening set out.

    Attributes:
        work: its record and site.
        plan: the plan, or why there is none.
        needs: the materials it takes, without waste; none without a plan.
    """

    work: Work
    plan: OpeningPlan | NotPossible
    needs: tuple[Need, ...] = ()

    @property
    def mark(self) -> str:
        """The opening's mark."""
        return self.work.opening.mark


@dataclass(frozen=True, slots=True)
class SetOutSite:
    """A site's openings set out.

    Attributes:
        site: the site.
        rule_set: the rules in force.
        openings: in the order of the records.
        allowances: what materials are reckoned with.
    """

    site: SiteFile
    rule_set: RuleSet
    openings: tuple[SetOut, ...]
    allowances: Allowances

    @property
    def materials(self) -> tuple[Quantity, ...]:
        """The materials of all openings together."""
        return quantities((need for one in self.openings for need in one.needs), self.allowances)


def set_out_site(
    site: SiteFile, rule_set: RuleSet, records: tuple[Record, ...], allowances: Allowances
) -> SetOutSite:
    """Set out the openings of a site.

    Args:
        site: the site.
        rule_set: the rules in force.
        records: the openings' records, as far as they are filled in.
        allowances: what materials are reckoned with.
    """
    around = Surroundings.of(site.site, rule_set.method)
    openings = tuple(_set_out(Work(record.opening, around), rule_set, allowances) for record in records)
    return SetOutSite(site, rule_set, openings, allowances)


def _set_out(work: Work, rule_set: RuleSet, allowances: Allowances) -> SetOut:
    plan = set_out(work, rule_set)
    return (
        SetOut(work, plan)
        if isinstance(plan, NotPossible)
        else SetOut(work, plan, needs(plan, work, allowances))
    )
