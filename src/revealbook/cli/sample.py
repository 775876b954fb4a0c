"""`revealbook sample`: draw openings and print what to measure again."""

import secrets
from dataclasses import dataclass, field
from datetime import datetime
from pathlib import Path
from textwrap import fill

import typer

from revealbook.cli.exit_codes import UNUSABLE, WELL
from revealbook.cli.moment import moment
from revealbook.cli.printed import write_sheets
from revealbook.cli.site import judged_site
from revealbook.cli.terminal import WIDTH
from revealbook.inspection.blank_remeasurement import blank_remeasurement
from revealbook.inspection.draw import Chosen, Key
from revealbook.inspection.sample import Sample, sample_site
from revealbook.making.inspection import make_inspection_sheets, sample_json
from revealbook.making.sheets import Sheets
from revealbook.measures.physics.sampling import Aql
from revealbook.present.inspection_sheet import isolated, verdict
from revealbook.present.words import N_, Words, words_in
from revealbook.rules.judged import JudgedSite

_SEEDS = 10**9
"""Seeds are drawn below this, so that they can be written down and read out."""


@dataclass(frozen=True, slots=True)
class Asked:
    """What was asked on the command line."""

    aql: Aql = "2.5"
    seed: int | None = None
    by: tuple[Key, ...] = ()
    chosen: Chosen = field(default_factory=Chosen)
    to: Path | None = None
    records: Path | None = None
    blind: bool = True
    json: bool = False


def run(site: Path, asked: Asked) -> int:
    """Draw and write; exit 2 if the site cannot be read or the lot is empty."""
    made = moment()
    judged = judged_site(site)
    if judged is None:
        return UNUSABLE
    words = words_in(judged.site.site.language)
    seed = secrets.randbelow(_SEEDS) if asked.seed is None else asked.seed
    try:
        sample = sample_site(judged, asked.aql, seed, asked.by, asked.chosen)
    except ValueError:
        typer.echo(words.say(N_("No opening belongs to this lot; nothing was drawn.")), err=True)
        return UNUSABLE
    if asked.json:
        typer.echo(sample_json(sample).decode(), nl=False)
    if (asked.to or not asked.json) and not _write(judged, sample, site, asked, made):
        return UNUSABLE
    if asked.records:
        _write_records(judged, sample, asked.records, made, words)
    for sentence in (
        verdict(sample, words),
        words.say(N_("Seed: {seed}"), seed=seed),
        isolated(sample, words),
    ):
        typer.echo(fill(sentence, WIDTH), err=asked.json)
    return WELL


def _write(judged: JudgedSite, sample: Sample, site: Path, asked: Asked, made: datetime) -> bool:
    target = asked.to or site / "pack" / f"{sample.site}-inspection.pdf"

    def make() -> Sheets:
        return make_inspection_sheets(judged, sample, site, made, blind=asked.blind)

    if not write_sheets(target, make, aside=asked.json):
        return False
    beside = target.with_suffix(".json")
    beside.write_bytes(sample_json(sample))
    typer.echo(f"{beside}", err=asked.json)
    return True


def _write_records(judged: JudgedSite, sample: Sample, folder: Path, made: datetime, words: Words) -> None:
    """Write a blank re-measurement for each opening drawn; one that is there stays."""
    folder.mkdir(parents=True, exist_ok=True)
    by_mark = {one.mark: one.record for one in judged.openings}
    for mark in sample.drawn:
        file = folder / f"{mark.replace('/', '_')}.yaml"
        if file.exists():
            typer.echo(words.say(N_("kept {file}, which was there"), file=file), err=True)
            continue
        record = by_mark[mark]
        text = blank_remeasurement(record.opening, sample.site, record.sheet.file, made)
        file.write_text(text, encoding="utf-8")
