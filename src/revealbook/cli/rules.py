"""`revealbook rules` and `revealbook explain`: the rules in force, and one of them in full."""

from collections.abc import Iterable
from dataclasses import dataclass, replace
from pathlib import Path
from textwrap import wrap

import typer
from rich.markup import escape
from rich.table import Table

from revealbook.archive.again import rules_in_pack
from revealbook.archive.file import PACKS
from revealbook.archive.opened import NotAPack
from revealbook.archive.refusal import Refused
from revealbook.archive.store import Archive
from revealbook.archive.unchanged import unchanged
from revealbook.cli.exit_codes import UNUSABLE, WELL
from revealbook.cli.terminal import out, plain, print_problems
from revealbook.measures.catalogue import CATALOGUE
from revealbook.present.edition_lines import method_lines, rule_lines
from revealbook.present.sources import RuleLine, sources
from revealbook.present.words import N_, Words, words_in
from revealbook.records.load import load_site, look_into
from revealbook.records.record import SiteFile
from revealbook.records.site import Site
from revealbook.rules.difference import difference
from revealbook.rules.judge_site import rules_of
from revealbook.rules.read import read_rules
from revealbook.rules.rule_set import RuleSet
from revealbook.rules.unread import reason, unread
from revealbook.source.nearest import nearest
from revealbook.source.place import Place
from revealbook.source.problem import Problem

_WIDTH = 78


@dataclass(frozen=True, slots=True)
class Which:
    """Whose rules are asked for.

    Attributes:
        set_name: a shipped rule set.
        edition: its edition; the newest if left out.
        site: a site folder, whose rules in force take the place of both.
        pack: a pack as PDF, whose own rules do; with an archive the id of a filed site.
        archive: the archive.
    """

    set_name: str
    edition: str | None = None
    site: Path | None = None
    pack: str | None = None
    archive: Path | None = None


def run_list(which: Which, stage: str | None) -> int:
    """Print the rules in force as a table."""
    words = words_in("en")
    read = _read(which)
    if read is None:
        return UNUSABLE
    rule_set, site = read
    wanted = {held.id for held in rule_set.rules if stage in {None, held.rule.stage}}
    if not wanted:
        stages = dict.fromkeys(held.rule.stage for held in rule_set.rules)
        typer.echo(f"No rule is of the stage {stage}; stages are: {', '.join(stages)}.", err=True)
        return UNUSABLE
    said = sources(rule_set, words, site)
    console = out()
    console.print(escape(f"{said.title} ({said.judged_by})"), style="bold")
    if said.changed_by_site:
        console.print(escape(words.say(N_("Changed by the site: {changes}."), changes=said.changed_by_site)))
    for name, lines in said.by_stage:
        of_stage = [line for line in lines if line.rule_id in wanted]
        if of_stage:
            console.print()
            console.print(_table(name, of_stage, max(map(len, wanted))))
    number = words.count(len(wanted), "1 rule", "{number} rules")
    console.print(f"\n{number}; “revealbook explain RULE” tells one in full.", style="dim")
    return WELL


def _table(stage: str, lines: Iterable[RuleLine], widest_id: int) -> Table:
    """Give the rules of a stage as a table; the ids, which other commands take, are never cut."""
    table = Table(box=None, pad_edge=False, padding=(0, 2, 0, 0), header_style="bold", expand=True)
    table.add_column(stage, no_wrap=True, width=widest_id)
    table.add_column("grade", no_wrap=True, width=8)
    table.add_column("limit", overflow="fold", ratio=1)
    for line in lines:
        changed = f" (rule set: {line.base_limit})" if line.base_limit else ""
        table.add_row(line.rule_id, line.grade, escape(line.limit + changed))
    return table


def run_between(set_name: str, editions: tuple[str, str], stage: str | None) -> int:
    """Print what two editions of a rule set ask for differently."""
    words = words_in("en")
    read = [_read(Which(set_name, edition)) for edition in editions]
    (before, after) = (one[0] if one else None for one in read)
    if before is None or after is None:
        return UNUSABLE
    found = difference(before, after)
    if stage:
        of_stage = (one for one in found.rules if stage in {r.stage for r in (one.before, one.after) if r})
        found = replace(found, rules=tuple(of_stage), method=())
    typer.echo(f"{set_name}: {before.edition} → {after.edition}")
    for rule_id, lines in rule_lines(found, words):
        typer.echo(f"\n{rule_id}")
        for text in lines:
            typer.echo("\n".join(wrap(text, _WIDTH, initial_indent="  ", subsequent_indent="    ")))
    if parameters := method_lines(found, words):
        typer.echo("\nMethod")
    for name, both in parameters:
        typer.echo("\n".join(wrap(f"{name}: {both}", _WIDTH, initial_indent="  ", subsequent_indent="    ")))
    if not (found.rules or found.method):
        typer.echo("Nothing differs.")
    return WELL


def run_unread(which: Which) -> int:
    """Print every key of a record and site file that no rule in force reads, with the reason."""
    read = _read(which)
    if read is None:
        return UNUSABLE
    table = Table(box=None, pad_edge=False, padding=(0, 2, 0, 0), header_style="bold", expand=True)
    table.add_column("key", overflow="fold", ratio=1)
    table.add_column("read by no rule because", overflow="fold", ratio=1)
    found = unread(read[0])
    for key in found:
        table.add_row(escape(key), escape(reason(key) or "no rule of this set reads it"))
    console = out()
    console.print(table)
    console.print("\n" + words_in("en").count(len(found), "1 key", "{number} keys"), style="dim")
    return WELL


def run_explain(rule_id: str, which: Which) -> int:
    """Print one rule in full."""
    words = words_in("en")
    read = _read(which)
    if read is None:
        return UNUSABLE
    rule_set, site = read
    said = sources(rule_set, words, site)
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


def _read(which: Which) -> tuple[RuleSet, Site | None] | None:
    """Give the rules that are asked for, with the site they are of; None once the fault was printed."""
    try:
        rules, site = _found(which)
    except (NotAPack, Refused) as refused:
        typer.echo(plain(str(refused)), err=True)
        return None
    if isinstance(rules, RuleSet):
        return rules, site
    print_problems(rules, words_in("en"))
    return None


def _found(which: Which) -> tuple[RuleSet | tuple[Problem, ...], Site | None]:
    if which.pack is not None:
        return rules_in_pack(_pack(which.pack, which.archive))
    if which.site is None:
        rules = read_rules(which.set_name, which.edition)
        return (rules if isinstance(rules, RuleSet) else tuple(map(_as_option, rules))), None
    folder = look_into(which.site)
    if isinstance(folder, Problem):
        return (folder,), None
    loaded = load_site(folder)
    return (rules_of(folder, loaded), loaded.site) if isinstance(loaded, SiteFile) else (loaded, None)


def _as_option(problem: Problem) -> Problem:
    """Give a fault of the options at the option, not in a site file that nobody named."""
    option = "--edition" if problem.code == "unknown_edition" else "--set"
    return Problem(Place(option), problem.code, problem.facts)


def _pack(given: str, archive: Path | None) -> Path:
    """Give the file of a pack; that of a filed site is the first of its newest version.

    Raises:
        Refused: the archive holds no such site, or the site no pack.
    """
    if archive is None:
        return Path(given)
    opened = Archive.open(archive)
    version = opened.version(given)
    packs = sorted(path for path in version.state if path.startswith(PACKS))
    if not packs:
        raise Refused(f"{given} was filed without a pack.")
    return unchanged(opened, given, version, packs[0])
