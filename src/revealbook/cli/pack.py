"""`revealbook pack`: the handover pack as one PDF."""

import os
from datetime import UTC, datetime
from pathlib import Path

import typer
from platformdirs import user_cache_path

from revealbook import api
from revealbook.cli.check import status
from revealbook.cli.exit_codes import UNUSABLE
from revealbook.cli.terminal import print_problems, progress
from revealbook.present.evidence import short
from revealbook.present.words import words_in
from revealbook.records.load import PHOTOS
from revealbook.render.failure import RenderFailed


def run(site: Path, to: Path | None) -> int:
    """Judge, render and write; give the exit status of the check."""
    with progress("checking") as seen:
        checked = api.check(site, seen)
    words = words_in("en")
    if checked.judged is None or checked.problems:
        print_problems(checked.problems, words)
        typer.echo("No pack was made: a pack of half the records would hide the rest.", err=True)
        return UNUSABLE
    typer.echo(f"rendering {len(checked.judged.openings)} openings ...", err=True)
    try:
        packed = api.pack(checked.judged, site, user_cache_path("revealbook") / PHOTOS, _made())
    except RenderFailed as failed:
        for problem in failed.problems:
            typer.echo(problem, err=True)
        return UNUSABLE
    if isinstance(packed, tuple):
        print_problems(packed, words)
        return UNUSABLE
    target = to or site / "pack" / f"{checked.judged.site.site.id}.pdf"
    target.parent.mkdir(parents=True, exist_ok=True)
    target.write_bytes(packed.pdf)
    for warning in packed.warnings:
        typer.echo(warning, err=True)
    typer.echo(f"{target}: {packed.pages} pages, fingerprint {short(packed.pack.fingerprint)}")
    typer.echo(packed.pack.verdict.sentence)
    return status(checked.judged)


def _made() -> datetime | None:
    """Give the date that SOURCE_DATE_EPOCH asks for, if it does."""
    epoch = os.environ.get("SOURCE_DATE_EPOCH")
    return datetime.fromtimestamp(int(epoch), UTC) if epoch else None
