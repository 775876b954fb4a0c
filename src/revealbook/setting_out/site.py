"""THE STEP: a site's records and rules to its openings as set out."""

from collections.abc import Sequence
from dataclasses import dataclass, replace

from revealbook.measures.work import Surroundings, Work
from revealbook.records.load import OPENINGS, Folder, load_records, load_site
from revealbook.records.record import Record, SiteFile
from revealbook.rules.by_building import rules_of_building
from revealbook.rules.judge_site import rules_of
from revealbook.rules.rule_set import RuleSet
from revealbook.setting_out.materials import Allowances, Need, Quantity, needs, quantities
from revealbook.setting_out.plan import OpeningPlan, set_out
from revealbook.setting_out.refusal import NotPossible
from revealbook.source.nearest import nearest
from revealbook.source.place import Place
from revealbook.source.problem import Problem


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
    plan = set_out(work, rules_of_building(rule_set, work.around.site, work.opening.opening.building))
    return (
        SetOut(work, plan)
        if isinstance(plan, NotPossible)
        else SetOut(work, plan, needs(plan, work, allowances))
    )


def read_and_set_out(
    folder: Folder, marks: Sequence[str] = (), allowances: Allowances | None = None
) -> SetOutSite | tuple[Problem, ...]:
    """Read a site folder and set out its openings.

    Args:
        folder: the site folder, looked into; photographs are not asked for.
        marks: only these openings; all if there are none.
        allowances: what materials are reckoned with.

    Returns:
        The openings set out; or everything that keeps the folder from being used. Records that were not
        asked for may be at fault.
    """
    site = load_site(folder)
    if not isinstance(site, SiteFile):
        return site
    rules = rules_of(folder, site)
    if not isinstance(rules, RuleSet):
        return rules
    records: list[Record] = []
    problems: list[Problem] = []
    loaded = load_records(replace(folder, photos=None), site.site)
    for file, record in zip(folder.records, loaded, strict=True):
        if marks and file.stem not in marks:
            continue
        if isinstance(record, Record):
            records.append(record)
        else:
            problems.extend(record)
    known = tuple(file.stem for file in folder.records)
    problems.extend(
        Problem(Place(folder.shown(folder.path / OPENINGS)), "unknown_name", _unknown(mark, known))
        for mark in marks
        if mark not in known
    )
    return tuple(problems) or set_out_site(site, rules, tuple(records), allowances or Allowances())


def _unknown(mark: str, known: tuple[str, ...]) -> dict[str, object]:
    return {"name": mark, "kind": OPENINGS, "nearest": nearest(mark, known), "known": known}
