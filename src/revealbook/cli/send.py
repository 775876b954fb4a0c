"""`revealbook send`: a filed version, or a pack that is not filed, as a zipped bag that is checked again."""

from dataclasses import dataclass
from datetime import datetime
from pathlib import Path

import typer

from revealbook.archive.bag import write_bag
from revealbook.archive.file import Filing
from revealbook.archive.receive import received
from revealbook.archive.refusal import Refused, refuse_existing
from revealbook.archive.store import Archive, Version
from revealbook.archive.unfiled import send_unfiled
from revealbook.cli.exit_codes import UNUSABLE, WELL
from revealbook.cli.file import filer, tell_refused
from revealbook.cli.given_packs import read_given
from revealbook.cli.moment import moment
from revealbook.cli.terminal import plain, progress
from revealbook.records.load import PHOTOS


@dataclass(frozen=True, slots=True)
class Asked:
    """What was asked on the command line; `given` is a site's id with an archive, else a folder or a PDF."""

    given: str
    to: Path
    archive: Path | None
    version: int | None
    photos: Path | None
    by: str | None
    note: str
    without_photos: bool


def run(asked: Asked) -> int:
    """Write the bag and read it back; give 0 if it is whole, 2 if nothing was sent."""
    at = moment()
    try:
        _refuse_mixture(asked)
        _refuse_target(asked.to)
        version = _filed(asked, asked.archive) if asked.archive else _unfiled(asked, at)
    except Refused as refused:
        tell_refused(refused)
        return UNUSABLE
    return _read_back(asked, version)


def _refuse_mixture(asked: Asked) -> None:
    """Refuse options of the other way of sending: they would change nothing, and nobody would notice."""
    if asked.archive is None:
        if asked.version is not None:
            raise Refused("A pack that is not filed has no versions: --version goes with --archive.")
        return
    unfiled = {
        "--photos": asked.photos,
        "--without-photos": asked.without_photos,
        "--by": asked.by,
        "--note": asked.note,
    }
    if named := [option for option, value in unfiled.items() if value]:
        raise Refused(
            f"With --archive a version is sent as it was filed; leave out {', '.join(named)},"
            " or leave out --archive to send a pack that is not filed."
        )


def _refuse_target(target: Path) -> None:
    """Refuse at once, and not after all the judging, what could not be written."""
    refuse_existing(target)
    if not target.parent.is_dir():
        raise Refused(f"{target} cannot be written: there is no folder {target.parent}.")


def _filed(asked: Asked, path: Path) -> Version:
    archive, given = Archive.open(path), Path(asked.given)
    if asked.given not in archive.sites() and given.exists():
        raise Refused(
            f"With --archive a site is named by its id, and {path} holds none called {given};"
            " leave out --archive to send a pack that is not filed."
        )
    return write_bag(archive, asked.given, asked.version, asked.to)


def _unfiled(asked: Asked, at: datetime) -> Version:
    given = Path(asked.given)
    if not given.exists():
        raise Refused(
            f"There is no folder or PDF {given}; to send a filed site, name its archive with --archive."
        )
    read = read_given([given])
    photos = asked.photos or (given / PHOTOS if given.is_dir() else None)
    packs = [pack for _, of_site in read for pack in of_site]
    with progress("storing") as seen:
        filing = Filing(asked.by or filer(), at, asked.note, photos, asked.without_photos, seen)
        return send_unfiled(packs, filing, asked.to)


def _read_back(asked: Asked, version: Version) -> int:
    target = asked.to
    try:
        with progress("judging what was sent") as seen, received(target, seen) as again:
            site, packs, lacking = again.bag.site, len(again.packs), again.lacking
    except Refused as refused:
        tell_refused(refused)
        typer.echo(f"{target} was written but does not hold what was to be sent; do not send it.", err=True)
        return UNUSABLE
    what = f"version {version.number} of {site}" if asked.archive else site
    counted = "1 pack" if packs == 1 else f"{packs} packs"
    typer.echo(plain(f"{target}: {what}, {len(version.state)} files, {counted}"))
    typer.echo(f"  head {version.head}")
    for path in lacking:
        typer.echo(plain(f"  {path} is named by a record, but is not in it"))
    if not asked.archive:
        typer.echo("  not filed, only sent: `revealbook receive` files it where it arrives")
    return WELL
