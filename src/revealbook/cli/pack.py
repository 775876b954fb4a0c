"""`revealbook pack`: the handover pack as one PDF."""

import os
from datetime import UTC, datetime
from pathlib import Path

import typer
from platformdirs import user_cache_path

from revealbook import api
from revealbook.cli.exit_codes import UNUSABLE, WELL
from revealbook.cli.terminal import print_problems, progress
from revealbook.present.evidence import short
from revealbook.present.words import words_in
from revealbook.records.load import PHOTOS
from revealbook.render.failure import RenderFailed


def run(site: Path, to: Path | None) -> int:
    """Judge, render and write; the exit status says whether the pack was written, not what it says."""
    try:
        made = _made(os.environ.get("SOURCE_DATE_EPOCH"))
    except (ValueError, OverflowError, OSError):
        typer.echo("SOURCE_DATE_EPOCH is no number of seconds since 1970; unset it or correct it.", err=True)
        return UNUSABLE
    with progress("checking") as seen:
        checked = api.check(site, seen)
    words = words_in("en")
    if checked.judged is None or checked.problems:
        print_problems(checked.problems, words)
        typer.echo("No pack was made: a pack of half the records would hide the rest.", err=True)
        return UNUSABLE
    number = len(checked.judged.openings)
    typer.echo(words.count(number, "rendering 1 opening ...", "rendering {number} openings ..."), err=True)
    try:
        packed = api.pack(checked.judged, site, user_cache_path("revealbook") / PHOTOS, made)
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
    return WELL


def _made(epoch: str | None) -> datetime | None:
    """Give the date that SOURCE_DATE_EPOCH asks for, if it does."""
    return datetime.fromtimestamp(int(epoch), UTC) if epoch else None
