"""`revealbook check`: the table of openings, then a block for each nonconformity."""

import json
from collections.abc import Iterator
from dataclasses import dataclass, replace
from pathlib import Path
from textwrap import fill

import typer
from rich.console import Console
from rich.markup import escape

from revealbook.api import check
from revealbook.cli.exit_codes import DOES_NOT_CONFORM, UNUSABLE, WELL
from revealbook.cli.terminal import (
    WIDTH,
    block,
    legend,
    openings_table,
    out,
    plain,
    print_problems,
    progress,
    still_to_come,
)
from revealbook.present import verdict
from revealbook.present.export import findings
from revealbook.present.labels import NOT_YET_DUE, OUTCOMES
from revealbook.present.nonconformities import entries
from revealbook.present.problems import line
from revealbook.present.register import register
from revealbook.present.sources import sources
from revealbook.present.words import N_, Words, words_in
from revealbook.rules.finding import Outcome
from revealbook.rules.judge_site import Checked
from revealbook.rules.judged import JudgedSite
from revealbook.source.nearest import nearest


@dataclass(frozen=True, slots=True)
class Asked:
    """What was asked on the command line."""

    openings: tuple[str, ...] = ()
    open: bool = False
    strict: bool = False
    json: bool = False


def run(site: Path, asked: Asked) -> int:
    """Check and print; give the exit status."""
    with progress("checking") as seen:
        checked = check(site, seen)
    words = words_in(checked.judged.site.site.language if checked.judged else "en")
    judged = _only(checked.judged, asked.openings)
    if asked.json:
        _print_json(checked, judged, words)
    else:
        if judged is not None:
            print_judged(judged, words, out(), show_open=asked.open)
        print_problems(checked.problems, words)
    unknown = _unknown(checked.judged, asked.openings, words)
    for sentence in unknown:
        typer.echo(sentence, err=True)
    return UNUSABLE if checked.problems or judged is None or unknown else status(judged, strict=asked.strict)


def status(judged: JudgedSite, *, strict: bool = False) -> int:
    """Give the exit status of a judged site."""
    failing = {Outcome.DOES_NOT_CONFORM}
    if strict:
        failing |= {Outcome.UNDECIDED, Outcome.NOT_SHOWN}
    return DOES_NOT_CONFORM if judged.outcome in failing else WELL


def _only(judged: JudgedSite | None, marks: tuple[str, ...]) -> JudgedSite | None:
    if judged is None or not marks:
        return judged
    return replace(judged, openings=tuple(one for one in judged.openings if one.mark in marks))


def _unknown(judged: JudgedSite | None, marks: tuple[str, ...], words: Words) -> list[str]:
    """Give a sentence for every mark asked for that no readable opening has."""
    known = [one.mark for one in judged.openings] if judged else []
    said = []
    for mark in (mark for mark in marks if judged and mark not in known):
        near = nearest(mark, known)
        sentence = words.say(N_("No readable opening is called {mark}."), mark=plain(mark))
        hint = words.say(N_("Did you mean {nearest}?"), nearest=near) if near else ""
        said.append(f"{sentence} {hint}".strip())
    return said


def print_judged(judged: JudgedSite, words: Words, console: Console, *, show_open: bool) -> None:
    """Print the table of openings and the blocks below it."""
    coming = sum(len(one.not_yet_due) for one in judged.openings)
    console.print(openings_table(register(judged, words), words))
    console.print(legend(words, OUTCOMES, coming=NOT_YET_DUE if coming else ""), style="dim")
    people = {person.id: person.name for person in judged.site.site.people}
    outcomes = [Outcome.DOES_NOT_CONFORM, *((Outcome.UNDECIDED, Outcome.NOT_SHOWN) if show_open else ())]
    told = [
        entry
        for outcome in outcomes
        for opening in judged.openings
        for entry in entries(opening, outcome, words, people)
    ]
    for entry in (entry for entry in told if entry.due):
        console.print()
        console.print(escape(block(entry, words)), soft_wrap=True)
    console.print()
    if not_due := [entry for entry in told if not entry.due]:
        console.print(escape(still_to_come(not_due, words)), soft_wrap=True)
        console.print()
    for line_ in _judged_by(judged, words):
        console.print(escape(fill(line_, WIDTH)))
    said = verdict.of_site(judged, words)
    console.print(escape(said.sentence), style="bold")
    if said.detail:
        console.print(escape(fill(said.detail, WIDTH)))
    open_points = sum(one.counts[Outcome.UNDECIDED] + len(one.missed) for one in judged.openings)
    if open_points and not show_open:
        hint = words.count(
            open_points,
            N_("1 rule is undecided or not shown; --open tells which."),
            N_("{number} rules are undecided or not shown; --open lists them."),
        )
        console.print(escape(hint))
    if coming and not show_open:
        hint = words.count(
            coming,
            N_("1 rule is not yet due; --open tells which."),
            N_("{number} rules are not yet due; --open lists them."),
        )
        console.print(escape(hint))


def _judged_by(judged: JudgedSite, words: Words) -> Iterator[str]:
    """Say by which rule set the openings were judged, and how much the site changed about it."""
    said = sources(judged.rule_set, words, judged.site.site)
    yield words.say(N_("Judged by {rules}."), rules=said.judged_by)
    if said.changed_by_site:
        yield words.say(N_("Changed by the site: {changes}."), changes=said.changed_by_site)


def _print_json(checked: Checked, judged: JudgedSite | None, words: Words) -> None:
    said = findings(judged, words) if judged else {}
    said["problems"] = [
        {
            "file": p.place.file,
            "line": p.place.line,
            "column": p.place.column,
            "code": p.code,
            "says": line(p, words),
        }
        for p in checked.problems
    ]
    typer.echo(json.dumps(said, ensure_ascii=False, indent=1))
