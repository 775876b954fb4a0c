"""`revealbook rules` and `revealbook explain`: the rules in force, and one of them in full."""

from collections.abc import Iterable
from pathlib import Path
from textwrap import wrap

import typer
from rich.markup import escape
from rich.table import Table

from revealbook.cli.exit_codes import UNUSABLE, WELL
from revealbook.cli.terminal import out, print_problems
from revealbook.measures.catalogue import CATALOGUE
from revealbook.present.sources import RuleLine, sources
from revealbook.present.words import Words, words_in
from revealbook.records.load import load_site, look_into
from revealbook.records.record import SiteFile
from revealbook.rules.judge_site import rules_of
from revealbook.rules.read import read_rules
from revealbook.rules.rule_set import RuleSet
from revealbook.source.nearest import nearest
from revealbook.source.problem import Problem

_WIDTH = 78
_WIDEST_ID = 26


def run_list(site: Path | None, set_name: str, stage: str | None) -> int:
    """Print the rules in force as a table."""
    words = words_in("en")
    rule_set = _rules(site, set_name)
    if not isinstance(rule_set, RuleSet):
        print_problems(rule_set, words)
        return UNUSABLE
    wanted = {held.id for held in rule_set.rules if stage in {None, held.rule.stage}}
    if not wanted:
        stages = dict.fromkeys(held.rule.stage for held in rule_set.rules)
        typer.echo(f"No rule is of the stage {stage}; stages are: {', '.join(stages)}.", err=True)
        return UNUSABLE
    said = sources(rule_set, words)
    console = out()
    console.print(escape(f"{said.title} ({said.name})"), style="bold")
    for name, lines in said.by_stage:
        of_stage = [line for line in lines if line.rule_id in wanted]
        if of_stage:
            console.print()
            console.print(_table(name, of_stage))
    number = words.count(len(wanted), "1 rule", "{number} rules")
    console.print(f"\n{number}; “revealbook explain RULE” tells one in full.", style="dim")
    return WELL


def _table(stage: str, lines: Iterable[RuleLine]) -> Table:
    """Give the rules of a stage as a table; the ids, which other commands take, are never cut."""
    table = Table(box=None, pad_edge=False, padding=(0, 2, 0, 0), header_style="bold", expand=True)
    table.add_column(stage, no_wrap=True, width=_WIDEST_ID)
    table.add_column("grade", no_wrap=True, width=8)
    table.add_column("limit", overflow="fold", ratio=1)
    for line in lines:
        changed = f" (rule set: {line.base_limit})" if line.base_limit else ""
        table.add_row(line.rule_id, line.grade, escape(line.limit + changed))
    return table


def run_explain(rule_id: str, site: Path | None, set_name: str) -> int:
    """Print one rule in full."""
    words = words_in("en")
    rule_set = _rules(site, set_name)
    if not isinstance(rule_set, RuleSet):
        print_problems(rule_set, words)
        return UNUSABLE
    said = sources(rule_set, words)
    lines = {line.rule_id: line for line in (*said.rules, *said.retired)}
    if rule_id not in lines:
        near = nearest(rule_id, lines)
        typer.echo(f"No rule is called {rule_id}." + (f" Did you mean {near}?" if near else ""), err=True)
        return UNUSABLE
    typer.echo(_explained(rule_set, lines[rule_id], words))
    return WELL


def _explained(rule_set: RuleSet, line: RuleLine, words: Words) -> str:
    held = next(one for one in (*rule_set.rules, *rule_set.retired) if one.id == line.rule_id)
    rule = held.rule
    conditions = [f"{name} is {words.yes_or_no(value=asked)}" for name, asked in rule.conditions]
    limit = (
        f"{line.limit} (base rule set: {line.base_limit}; {line.reason})" if line.base_limit else line.limit
    )
    told = [
        ("stage", line.stage),
        ("grade", line.grade),
        ("measures", f"{rule.measure}: {CATALOGUE[rule.measure].meaning}"),
        ("limit", limit),
        ("basis", line.basis),
        ("applies", "when " + " and ".join(conditions) if conditions else "always"),
        ("why", rule.why),
        ("what to do", rule.remedy),
    ]
    if held in rule_set.retired:
        told.insert(0, ("retired", line.reason))
    said = [rule.id, *wrap(rule.requirement, _WIDTH), ""]
    for name, text in told:
        said += wrap(text, _WIDTH, initial_indent=f"{name:<12}", subsequent_indent=" " * 12)
    return "\n".join(said)


def _rules(site: Path | None, set_name: str) -> RuleSet | tuple[Problem, ...]:
    if site is None:
        return read_rules(set_name, None)
    folder = look_into(site)
    if isinstance(folder, Problem):
        return (folder,)
    loaded = load_site(folder)
    return rules_of(folder, loaded) if isinstance(loaded, SiteFile) else loaded
