"""The step for a whole site: a folder to every opening judged, and everything that could not be read."""

from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass
from itertools import chain
from pathlib import Path

from pydantic import BaseModel

from revealbook.measures.measure import measure
from revealbook.measures.work import Surroundings, Work
from revealbook.records.load import Folder, load_records, load_site
from revealbook.records.opening import Opening
from revealbook.records.record import Record, SiteFile
from revealbook.records.sizes_off import sizes_off
from revealbook.records.times import impossible_times
from revealbook.rules.by_building import rules_of_building, unknown_sets
from revealbook.rules.conceded import unknown_concessions
from revealbook.rules.judge import judge
from revealbook.rules.judged import JudgedOpening, JudgedSite
from revealbook.rules.overlay import Overlay
from revealbook.rules.read import read_rules
from revealbook.rules.rule_set import RuleSet, SourceFile
from revealbook.rules.site_changes import unaccepted
from revealbook.source.place import Place
from revealbook.source.problem import Problem
from revealbook.source.read import read
from revealbook.source.validate import validate

Progress = Callable[[int, int, str], None]
"""Called with how many are done, of how many, and what was done last."""
RulesOf = Callable[[Folder, SiteFile], "RuleSet | tuple[Problem, ...]"]
"""Gives the rules in force on a site."""


@dataclass(frozen=True, slots=True)
class Checked:
    """What judging a site folder gave.

    Attributes:
        judged: the site with every opening that could be read; None if the site file or rules could not.
        problems: everything that could not be read, in the order of the files.
    """

    judged: JudgedSite | None
    problems: tuple[Problem, ...]


def rules_of(folder: Folder, site: SiteFile) -> RuleSet | tuple[Problem, ...]:
    """Read the shipped rule set that a site asks for, with the overlays of its folder."""
    overlays, unreadable = read_overlays(folder)
    rules = read_rules(site.site.rules.set, site.site.rules.edition, overlays)
    fitting = held_against(site, rules)
    return (*unreadable, *(() if isinstance(fitting, RuleSet) else fitting)) if unreadable else fitting


def held_against(site: SiteFile, rules: RuleSet | tuple[Problem, ...]) -> RuleSet | tuple[Problem, ...]:
    """Give the rules, or what about them does not fit the site: its buildings' sets, who accepts changes."""
    if not isinstance(rules, RuleSet):
        return rules
    return (*unknown_sets(site, rules), *unaccepted(site.site, rules)) or rules


def read_overlays(folder: Folder) -> tuple[list[SourceFile], list[Problem]]:
    """Read the bytes of a site's overlays; those that cannot be read as problems."""
    overlays: list[SourceFile] = []
    unreadable: list[Problem] = []
    for file in folder.overlays:
        try:
            overlays.append(SourceFile(folder.shown(file), file.read_bytes()))
        except OSError as error:
            facts = {"reason": error.strerror or str(error)}
            unreadable.append(Problem(Place(folder.shown(file)), "unreadable", facts))
    return overlays, unreadable


def judge_site(
    folder: Folder,
    rules_in_force: RulesOf = rules_of,
    progress: Progress | None = None,
    *,
    filed: bool = False,
) -> Checked:
    """Read a site folder and judge all its openings.

    Args:
        folder: the site folder, looked into.
        rules_in_force: gives the rules; those that the site file asks for, unless told otherwise.
        progress: told after each opening.
        filed: whether the records were filed before; their times and sizes are then judged as they stand.
    """
    site = load_site(folder)
    if not isinstance(site, SiteFile):
        alone = (*_faults(folder, folder.overlays, Overlay), *_faults(folder, folder.records, Opening))
        return Checked(None, (*site, *alone))
    rules = rules_in_force(folder, site)
    records = tuple(load_records(folder, site.site))
    if not isinstance(rules, RuleSet):
        unread = (record for record in records if not isinstance(record, Record))
        return Checked(None, (*rules, *chain.from_iterable(unread)))
    around = Surroundings.of(
        site.site, rules.method, (one.opening for one in records if isinstance(one, Record))
    )
    judged: list[JudgedOpening] = []
    problems: list[Problem] = []
    for done, loaded in enumerate(records, start=1):
        found = _without_contradictions(loaded, rules, filed=filed)
        if isinstance(found, Record):
            judged.append(_judged(found, rules, around))
        else:
            problems.extend(found)
        if progress is not None:
            progress(done, len(folder.records), folder.records[done - 1].stem)
    return Checked(JudgedSite(site, rules, tuple(judged)), tuple(problems))


def _without_contradictions(
    loaded: Record | tuple[Problem, ...], rules: RuleSet, *, filed: bool
) -> Record | tuple[Problem, ...]:
    """Give a record, or what in it cannot be meant; a first edition judges times and sizes as they stand."""
    if not isinstance(loaded, Record):
        return loaded
    problems = list(unknown_concessions(loaded, rules))
    if rules.method.computations > 1 and not filed:
        problems += [*impossible_times(loaded, rules.edition), *sizes_off(loaded)]
    return tuple(sorted(problems, key=lambda problem: problem.place)) or loaded


def _judged(record: Record, rules: RuleSet, around: Surroundings) -> JudgedOpening:
    here = rules_of_building(rules, around.site, record.opening.opening.building)
    readings = measure(Work(record.opening, around), here.measures)
    return JudgedOpening(record, judge(here, readings))


def _faults(folder: Folder, files: Iterable[Path], model: type[BaseModel]) -> Iterator[Problem]:
    """Give what is wrong with files by themselves, where there is no site to hold them against."""
    for file in files:
        document = read(file, folder.shown(file))
        valid = (document,) if isinstance(document, Problem) else validate(model, document)
        if isinstance(valid, tuple):
            yield from valid
