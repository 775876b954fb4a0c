"""`revealbook send`: one version of a site as a zipped bag, checked again after it was written."""

from pathlib import Path

import typer

from revealbook.archive.bag import write_bag
from revealbook.archive.receive import received
from revealbook.archive.refusal import Refused
from revealbook.archive.store import Archive
from revealbook.cli.exit_codes import UNUSABLE, WELL
from revealbook.cli.file import tell_refused
from revealbook.cli.terminal import plain


def run(path: Path, site: str, number: int | None, target: Path) -> int:
    """Write the bag and read it back; give 0 if it is whole, 2 if nothing was sent."""
    try:
        version = write_bag(Archive.open(path), site, number, target)
    except Refused as refused:
        tell_refused(refused)
        return UNUSABLE
    except OSError as error:
        typer.echo(f"{target} cannot be written: {error.strerror}.", err=True)
        return UNUSABLE
    try:
        with received(target) as again:
            packs = len(again.packs)
    except Refused as refused:
        tell_refused(refused)
        typer.echo(f"{target} was written but does not hold what was to be sent; do not send it.", err=True)
        return UNUSABLE
    counted = "1 pack" if packs == 1 else f"{packs} packs"
    typer.echo(plain(f"{target}: version {version.number} of {site}, {len(version.state)} files, {counted}"))
    typer.echo(f"  head {version.head}")
    return WELL
