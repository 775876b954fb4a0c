"""`revealbook set-out`, `cut` and `openings`: what is done before the work."""

import json
from collections import defaultdict
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import typer

from revealbook.cli.exit_codes import UNUSABLE, WELL
from revealbook.cli.moment import moment
from revealbook.cli.printed import write_sheets
from revealbook.cli.terminal import print_problems
from revealbook.making.sheets import make_cutting_list, make_setting_out
from revealbook.present.planned_data import cutting_data, planned_data
from revealbook.present.refusals import refusal
from revealbook.present.words import Words, words_in
from revealbook.records.load import load_site, look_into
from revealbook.records.record import SiteFile
from revealbook.rules.judge_site import rules_of
from revealbook.rules.rule_set import RuleSet
from revealbook.setting_out.blank_records import Written, write_blank_records
from revealbook.setting_out.cutting import CuttingList
from revealbook.setting_out.materials import Allowances
from revealbook.setting_out.refusal import NotPossible
from revealbook.setting_out.schedule import Listed, read_schedule
from revealbook.setting_out.site import SetOutSite, read_and_set_out
from revealbook.setting_out.site_cuts import ProfileCuts, Saw, site_cuts
from revealbook.source.problem import Problem


@dataclass(frozen=True, slots=True)
class Asked:
    """What was asked on the command line."""

    openings: tuple[str, ...] = ()
    to: Path | None = None
    json: bool = False
    waste_pct: float | None = None


def run(site: Path, asked: Asked) -> int:
    """Set out and write the sheets; exit 2 if an opening could not be set out."""
    made = moment()  # before the solver is loaded, which reads the same variable and breaks on a wrong one
    found = _set_out(site, asked)
    if found is None:
        return UNUSABLE
    words = words_in(found.site.site.language)
    if asked.json:
        _print_json(planned_data(found, words))
    if asked.to or not asked.json:
        target = asked.to or site / "pack" / f"{found.site.site.id}-setting-out.pdf"
        if not write_sheets(target, lambda: make_setting_out(found, site, made), aside=asked.json):
            return UNUSABLE
    return _refused(found, words)


def run_cut(site: Path, asked: Asked, saw: Saw) -> int:
    """Set out and write the cutting list; exit 2 if an opening is not in it."""
    made = moment()  # before the solver is loaded, which reads the same variable and breaks on a wrong one
    found = _set_out(site, asked)
    if found is None:
        return UNUSABLE
    words = words_in(found.site.site.language)
    plans = [(one.mark, one.plan) for one in found.openings if not isinstance(one.plan, NotPossible)]
    profiles = site_cuts(plans, found.openings[0].work.around, saw) if plans else ()
    if asked.json:
        _print_json(cutting_data(found, profiles, words))
    if asked.to or not asked.json:
        target = asked.to or site / "pack" / f"{found.site.site.id}-cutting-list.pdf"
        if not write_sheets(
            target, lambda: make_cutting_list(found, profiles, saw, site, made), aside=asked.json
        ):
            return UNUSABLE
    for one in profiles:
        typer.echo(_bought(one, words), err=asked.json)
    return _refused(found, words)


def run_openings(site: Path, schedule: Path) -> int:
    """Write a blank record for each opening of a schedule; nothing is written if any line is wrong."""
    words = words_in("en")
    folder = look_into(site)
    loaded = (folder,) if isinstance(folder, Problem) else load_site(folder)
    listed = read_schedule(schedule)
    rules = (
        rules_of(folder, loaded) if isinstance(loaded, SiteFile) and not isinstance(folder, Problem) else ()
    )
    problems = [one for found in (loaded, rules, listed) if isinstance(found, tuple) for one in found]
    wrong = [one for one in problems if isinstance(one, Problem)]
    if wrong or not isinstance(loaded, SiteFile) or not isinstance(rules, RuleSet):
        print_problems(wrong, words)
        typer.echo("No record was made.", err=True)
        return UNUSABLE
    rows = [one for one in listed if isinstance(one, Listed)]
    for one in write_blank_records(site, loaded.site, rules, rows):
        typer.echo(_written(one, words))
    return WELL


def offcuts(given: list[str]) -> dict[str, list[int]]:
    """Read offcuts in the store, each as PROFILE:LENGTH.

    Raises:
        ValueError: one is not written like that.
    """
    store: defaultdict[str, list[int]] = defaultdict(list)
    for text in given:
        profile, _, length = text.rpartition(":")
        if not profile or not length.isdigit() or int(length) < 1:
            raise ValueError(f"{text} is no offcut; write it as frame-profile:1250, in mm.")
        store[profile].append(int(length))
    return dict(store)


def _set_out(site: Path, asked: Asked) -> SetOutSite | None:
    folder = look_into(site)
    allowances = Allowances().with_waste(asked.waste_pct)
    found = (folder,) if isinstance(folder, Problem) else read_and_set_out(folder, asked.openings, allowances)
    if isinstance(found, SetOutSite):
        return found
    print_problems(found, words_in("en"))
    return None


def _print_json(data: dict[str, Any]) -> None:
    typer.echo(json.dumps(data, ensure_ascii=False, indent=1))


def _refused(found: SetOutSite, words: Words) -> int:
    refused = [(one.mark, one.plan) for one in found.openings if isinstance(one.plan, NotPossible)]
    for mark, plan in refused:
        typer.echo(f"{mark} is not set out. {refusal(plan, words)}", err=True)
    return UNUSABLE if refused else WELL


def _bought(one: ProfileCuts, words: Words) -> str:
    if not isinstance(one.cuts, CuttingList):
        return f"{one.profile}: {refusal(one.cuts, words)}"
    bars = sum(not bar.from_store for bar in one.cuts.bars)
    return (
        f"{one.profile}: {one.pieces} pieces from {bars} new bars of {one.stock_mm} mm, "
        f"{one.cuts.waste_pct:.1f} % waste, {one.cuts.gap_pct:.1f} % above the proved least"
    )


def _written(one: Written, words: Words) -> str:
    if not one.made:
        return f"kept {one.file}, which was there"
    if isinstance(one.plan, NotPossible):
        return f"made {one.file}, without planned values: {refusal(one.plan, words)}"
    return f"made {one.file}"
