"""`revealbook history`: the sites of an archive, or the versions of one."""

from pathlib import Path

import typer

from revealbook.archive.refusal import Refused
from revealbook.archive.store import Archive, Version
from revealbook.cli.exit_codes import UNUSABLE, WELL
from revealbook.cli.file import tell_refused
from revealbook.cli.terminal import plain
from revealbook.present.evidence import short


def run(path: Path, site: str | None) -> int:
    """List; give 0, or 2 if there is no such archive or site."""
    try:
        archive = Archive.open(path)
        if site is None:
            _tell_sites(archive)
        else:
            for version in archive.versions(site):
                _tell_version(version)
    except Refused as refused:
        tell_refused(refused)
        return UNUSABLE
    return WELL


def _tell_sites(archive: Archive) -> None:
    sites = archive.sites()
    width = max(map(len, sites), default=0)
    for site in sites:
        *_, last = archive.versions(site)
        typer.echo(f"{site:{width}}  version {last.number:3}  {_when(last)}  head {short(last.head)}")
    typer.echo(f"{len(sites)} sites" if len(sites) != 1 else "1 site")


def _tell_version(version: Version) -> None:
    said = f"version {version.number}  {_when(version)}  {version.user}  {version.message}"
    typer.echo(plain(said))
    typer.echo(f"  head {version.head}")


def _when(version: Version) -> str:
    return version.created.isoformat(" ", "minutes")
