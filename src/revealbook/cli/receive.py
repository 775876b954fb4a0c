"""`revealbook receive`: a zipped bag checked, judged again, and filed if an archive is named."""

from pathlib import Path

import typer

from revealbook.archive.file import Filing
from revealbook.archive.layout import is_made
from revealbook.archive.receive import Received, file_received, received
from revealbook.archive.refusal import Refused
from revealbook.archive.store import Archive
from revealbook.cli.exit_codes import UNUSABLE, WELL
from revealbook.cli.file import filer, open_archive, tell, tell_refused
from revealbook.cli.moment import moment
from revealbook.cli.terminal import plain


def run(file: Path, archive: Path | None, by: str | None) -> int:
    """Check what was sent; give 0 if it is whole (and filed), 2 if not."""
    try:
        if archive:
            is_made(archive)  # refuses at once, and not after all the judging
        with received(file) as got:
            bag = got.bag
            typer.echo(plain(f"{file}: version {bag.version} of {bag.site}, {len(bag.state)} files, whole"))
            typer.echo(f"  head {bag.head}")
            for pack in got.packs:
                typer.echo(plain(f"  {pack.name} agrees with itself"))
                typer.echo(f"  fingerprint {pack.fingerprint}")
            for path in got.lacking:
                typer.echo(plain(f"  {path} is named by a record, but did not come with it"))
            return _file(archive, got, by) if archive else WELL
    except Refused as refused:
        tell_refused(refused)
        return UNUSABLE


def _file(path: Path, got: Received, by: str | None) -> int:
    at = moment()
    Archive.create(path)  # opens one that is there
    tell(file_received(open_archive(path), got, Filing(by or filer(), at, without_photos=True)))
    return WELL
