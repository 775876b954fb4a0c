"""`revealbook compare`: an inspector's readings against the fitter's, and the lot accepted or rejected."""

import json
from collections import Counter
from dataclasses import dataclass
from pathlib import Path
from textwrap import fill

import typer
from rich.markup import escape
from rich.table import Table

from revealbook.cli.exit_codes import DOES_NOT_CONFORM, UNUSABLE, WELL
from revealbook.cli.moment import moment
from revealbook.cli.printed import write_sheets
from revealbook.cli.site import judged_site
from revealbook.cli.terminal import WIDTH, out, plain, print_problems
from revealbook.inspection.compare import OpeningCompared, compare
from revealbook.inspection.lot_result import LotResult, lot_result
from revealbook.inspection.sample import Sample, read_sample
from revealbook.making.inspection import make_comparison
from revealbook.making.sheets import Sheets
from revealbook.present.compared import Comparison, OpeningCompare, comparison, comparison_data
from revealbook.present.words import N_, Words, words_in
from revealbook.records.record import Sheet
from revealbook.records.remeasurement import Remeasurement, load_remeasurement
from revealbook.rules.judged import JudgedSite
from revealbook.source.problem import Problem

Read = tuple[Remeasurement, Sheet]


@dataclass(frozen=True, slots=True)
class Asked:
    """What was asked on the command line."""

    remeasurements: tuple[Path, ...]
    sample: Path | None = None
    to: Path | None = None
    json: bool = False


def run(site: Path, asked: Asked) -> int:
    """Compare and print; 1 if a reading differs, a rule is broken or the lot is rejected."""
    made = moment()
    judged = judged_site(site)
    if judged is None:
        return UNUSABLE
    words = words_in(judged.site.site.language)
    read, sample = _read(asked.remeasurements, words), _sample(asked.sample)
    wrong = [*_misfits(read or (), judged, words), *_stale(sample, judged, words)]
    for sentence in wrong:
        typer.echo(sentence, err=True)
    if read is None or wrong or (asked.sample and sample is None):
        return UNUSABLE
    compared = compare(judged, read)
    lot = lot_result(sample, compared) if sample else None
    if asked.json:
        typer.echo(json.dumps(comparison_data(judged, compared, lot), ensure_ascii=False, indent=1))
    else:
        _print(comparison(judged, compared, lot, words), words)
    if asked.to:

        def make() -> Sheets:
            return make_comparison(judged, compared, lot, site, made)

        if not write_sheets(asked.to, make, aside=True):
            return UNUSABLE
    return _status(compared, lot)


def _status(compared: tuple[OpeningCompared, ...], lot: LotResult | None) -> int:
    found = any(one.nonconforming for one in compared) or (lot is not None and lot.decision == "rejected")
    return DOES_NOT_CONFORM if found else WELL


def _read(files: tuple[Path, ...], words: Words) -> tuple[Read, ...] | None:
    """Read all re-measurements; None once what is wrong with any is told."""
    read: list[Read] = []
    problems: list[Problem] = []
    for file in files:
        loaded = load_remeasurement(file)
        if isinstance(loaded[0], Remeasurement):
            read.append((loaded[0], loaded[1]))
        else:
            problems.extend(loaded)
    print_problems(problems, words)
    return None if problems else tuple(read)


def _sample(file: Path | None) -> Sample | None:
    if file is None:
        return None
    try:
        return read_sample(json.loads(file.read_text(encoding="utf-8")))
    except ValueError as error:
        why = "it is no JSON" if isinstance(error, json.JSONDecodeError | UnicodeDecodeError) else str(error)
        typer.echo(f"{file} cannot be used: {why}.", err=True)
        return None


def _misfits(read: tuple[Read, ...], judged: JudgedSite, words: Words) -> list[str]:
    """Say which re-measurements are of another site or opening, or of the same opening twice."""
    known = {one.mark for one in judged.openings}
    times = Counter(one.mark for one, _ in read)
    said = []
    for one, sheet in read:
        if one.site != judged.site.site.id:
            said.append(
                words.say(
                    N_("{file} is of the site {site}, not of this one."), file=sheet.file, site=one.site
                )
            )
        elif one.mark not in known:
            said.append(words.say(N_("{file}: no opening is called {mark}."), file=sheet.file, mark=one.mark))
        elif times[one.mark] > 1:
            said.append(
                words.say(N_("{file}: {mark} was measured again more than once; give one record of it."),
                          file=sheet.file, mark=one.mark)
            )  # fmt: skip
    return said


def _stale(sample: Sample | None, judged: JudgedSite, words: Words) -> list[str]:
    """Say if a sample is of another site, or of openings that the site no longer has."""
    if sample is None:
        return []
    if sample.site != judged.site.site.id:
        return [words.say(N_("The sample is of the site {site}, not of this one."), site=sample.site)]
    gone = {one.mark for one in sample.members} - {one.mark for one in judged.openings}
    return (
        [words.say(N_("The site no longer has {marks} of the sample's lot."), marks=", ".join(sorted(gone)))]
        if gone
        else []
    )


def _print(found: Comparison, words: Words) -> None:
    console = out()
    for one in found.openings:
        console.print(escape(plain(f"{one.mark}  {one.verdict}")), style="bold" if one.nonconforming else "")
        if one.rows:
            console.print(_table(one, words))
        for rule, _, said, limit in one.breached:
            text = words.say(
                N_("{rule}: {found}; required: {required}"), rule=rule, found=said, required=limit
            )
            console.print(escape(fill(plain(text), WIDTH, initial_indent="  ■ ", subsequent_indent="    ")))
        console.print()
    if found.lot:
        console.print(escape(fill(found.lot, WIDTH)), style="bold")
        for note in found.lot_notes:
            console.print(escape(fill(note, WIDTH)))


def _table(one: OpeningCompare, words: Words) -> Table:
    table = Table(box=None, pad_edge=False, padding=(0, 1, 0, 0), show_edge=False, expand=True)
    table.add_column(words.say(N_("where")), ratio=1)
    for name in (words.say(N_("record")), words.say(N_("again")), words.say(N_("apart")), "U"):
        table.add_column(name, justify="right", max_width=10)
    table.add_column("", max_width=16)
    for row in one.rows:
        style = "bold" if row.differs else ""
        where, *numbers, says = row.cells
        mark = "■ " if row.differs else "  "
        table.add_row(escape(plain(mark + where)), *map(escape, numbers), escape(says), style=style)
    return table
