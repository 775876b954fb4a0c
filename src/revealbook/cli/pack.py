"""`revealbook pack`: the handover pack as one PDF, or in volumes."""

import shutil
from dataclasses import dataclass
from datetime import datetime
from pathlib import Path

import typer
from platformdirs import user_cache_path

from revealbook import api
from revealbook.cli.exit_codes import UNUSABLE, WELL
from revealbook.cli.moment import asked_moment
from revealbook.cli.site import judged_site
from revealbook.cli.terminal import print_problems, progress, tell_failed
from revealbook.making.pack import Packed
from revealbook.making.volumes import file_name, make_volumes
from revealbook.present.evidence import short
from revealbook.present.volumes import By
from revealbook.present.words import words_in
from revealbook.render.failure import RenderFailed
from revealbook.rules.judged import JudgedSite
from revealbook.source.problem import Problem


@dataclass(frozen=True, slots=True)
class Asked:
    """What was asked on the command line."""

    to: Path | None = None
    volumes: By | None = None
    jobs: int = 2


def run(site: Path, asked: Asked) -> int:
    """Judge, render and write; the exit status says whether the pack was written, not what it says."""
    made = asked_moment()
    judged = judged_site(site)
    if judged is None:
        typer.echo("No pack was made: a pack of half the records would hide the rest.", err=True)
        return UNUSABLE
    try:
        problems = _volumes(judged, site, asked, made) if asked.volumes else _whole(judged, site, asked, made)
    except RenderFailed as failed:
        tell_failed(failed)
        return UNUSABLE
    print_problems(problems, words_in("en"))
    return UNUSABLE if problems else WELL


def _whole(judged: JudgedSite, site: Path, asked: Asked, made: datetime | None) -> tuple[Problem, ...]:
    """Write one PDF; give the photographs that cannot be used."""
    said = words_in("en").count(
        len(judged.openings), "rendering 1 opening ...", "rendering {number} openings ..."
    )
    typer.echo(said, err=True)
    packed = api.pack(judged, site, _cache(), made)
    if isinstance(packed, tuple):
        return packed
    _write(packed, asked.to or site / "pack" / f"{judged.site.site.id}.pdf")
    typer.echo(packed.pack.verdict.sentence)
    return ()


def _volumes(judged: JudgedSite, site: Path, asked: Asked, made: datetime | None) -> tuple[Problem, ...]:
    """Write volumes and their index into a folder; give the photographs that cannot be used."""
    folder, site_id = asked.to or site / "pack", judged.site.site.id
    with progress("rendering") as seen:
        result = make_volumes(
            judged, site, _cache(), by=asked.volumes or "storey", made=made, jobs=asked.jobs, seen=seen
        )
    if isinstance(result, tuple):
        return result
    folder.mkdir(parents=True, exist_ok=True)
    for volume in result.volumes:
        target = folder / file_name(site_id, volume.name)
        shutil.copyfile(volume.file, target)
        for warning in volume.warnings:
            typer.echo(f"{target.name}: {warning}", err=True)
        fresh = "" if volume.fresh else ", unchanged"
        typer.echo(f"{target}: {volume.pages} pages, fingerprint {short(volume.fingerprint)}{fresh}")
    _write(result.index, folder / f"{site_id}-index.pdf")
    typer.echo(result.index.pack.verdict.sentence)
    return ()


def _write(packed: Packed, target: Path) -> None:
    target.parent.mkdir(parents=True, exist_ok=True)
    target.write_bytes(packed.pdf)
    for warning in packed.warnings:
        typer.echo(warning, err=True)
    typer.echo(f"{target}: {packed.pages} pages, fingerprint {short(packed.pack.fingerprint)}")


def _cache() -> Path:
    return user_cache_path("revealbook")
