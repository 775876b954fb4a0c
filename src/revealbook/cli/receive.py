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
from revealbook.cli.terminal import folded, plain, progress


def run(file: Path, archive: Path | None, by: str | None) -> int:
    """Check what was sent; give 0 if it is whole (and filed), 2 if not."""
    try:
        if archive:
            is_made(archive)  # refuses at once, and not after all the judging
        with progress("judging again") as seen, received(file, seen) as got:
            _tell(file, got)
            return _file(archive, got, by) if archive else WELL
    except Refused as refused:
        tell_refused(refused)
        return UNUSABLE


def _tell(file: Path, got: Received) -> None:
    bag = got.bag
    what = bag.site if bag.only_sent else f"version {bag.version} of {bag.site}"
    typer.echo(plain(f"{file}: {what}, {len(bag.state)} files, whole"))
    typer.echo(f"  head {bag.head}")
    if bag.only_sent:
        by, note = (str(bag.filing.get(key) or "") for key in ("filed_by", "note"))
        said = f"sent by {by or 'somebody'} before it was filed{f': {note}' if note else ''}"
        typer.echo("\n".join(folded(said, "  ")))
    for pack in got.packs:
        typer.echo(plain(f"  {pack.name} agrees with itself"))
        typer.echo(f"  fingerprint {pack.fingerprint}")
    for path in got.lacking:
        typer.echo(plain(f"  {path} is named by a record, but did not come with it"))
    for record in got.elsewhere:
        typer.echo(
            plain(f"  {record.kind} {record.id} is of opening {record.mark}, which is in none of its packs")
        )


def _file(path: Path, got: Received, by: str | None) -> int:
    at = moment()
    Archive.create(path)  # opens one that is there
    tell(file_received(open_archive(path), got, Filing(by or filer(), at, without_photos=True)))
    return WELL
