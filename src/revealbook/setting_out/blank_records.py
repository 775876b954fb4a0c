"""A schedule's openings to blank records in a site folder; nothing that is there is touched."""

from collections.abc import Sequence
from pathlib import Path
from typing import NamedTuple

from revealbook.measures.work import Surroundings, Work
from revealbook.records.begin import record_file
from revealbook.records.opening import Identity, Opening
from revealbook.records.site import Site
from revealbook.rules.by_building import rules_of_building
from revealbook.rules.rule_set import RuleSet
from revealbook.setting_out.plan import OpeningPlan, set_out
from revealbook.setting_out.prefill import prefilled
from revealbook.setting_out.refusal import NotPossible
from revealbook.setting_out.schedule import Listed


class Written(NamedTuple):
    """What became of one opening of a schedule.

    Attributes:
        mark: the opening's mark.
        file: its record.
        made: whether the record was made now; else it was there already and was left as it is.
        plan: what stands in its comments, or why nothing does.
    """

    mark: str
    file: Path
    made: bool
    plan: OpeningPlan | NotPossible


def write_blank_records(
    folder: Path, site: Site, rule_set: RuleSet, listed: Sequence[Listed]
) -> tuple[Written, ...]:
    """Write a blank record for each opening of a schedule that has none yet.

    Args:
        folder: the site folder.
        site: the site.
        rule_set: the rules in force.
        listed: the schedule's openings.
    """
    around = Surroundings.of(site, rule_set.method)
    (folder / "openings").mkdir(exist_ok=True)
    return tuple(_written(folder, one.identity, around, rule_set) for one in listed)


def _written(folder: Path, identity: Identity, around: Surroundings, rule_set: RuleSet) -> Written:
    here = rules_of_building(rule_set, around.site, identity.building)
    plan = set_out(Work(Opening(opening=identity), around), here)
    file = record_file(folder, identity.mark)
    text = prefilled(identity, plan if isinstance(plan, OpeningPlan) else None)
    try:
        with file.open("x", encoding="utf-8") as new:
            new.write(text)
    except FileExistsError:
        return Written(identity.mark, file, made=False, plan=plan)
    return Written(identity.mark, file, made=True, plan=plan)
