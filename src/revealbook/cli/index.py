"""`revealbook index`: the index of an archive, built anew."""

from contextlib import closing
from pathlib import Path
from time import monotonic

import typer

from revealbook.archive.refusal import Refused
from revealbook.archive.store import Archive
from revealbook.cli.exit_codes import UNUSABLE, WELL
from revealbook.cli.file import tell_refused
from revealbook.cli.indexing import tell_unread
from revealbook.cli.terminal import plain, progress
from revealbook.lookup.index import build, open_database

_MB = 1_000_000


def run(path: Path, where: str | None) -> int:
    """Build; give 0, or 2 if there is no such archive, the index cannot be written or a site not be read."""
    try:
        archive = Archive.open(path)
        with closing(open_database(path, where)) as index:
            began = monotonic()
            with progress("sites") as seen:
                done = build(archive, index, seen)
            took = monotonic() - began
            size = index.size_bytes() / _MB
    except Refused as refused:
        tell_refused(refused)
        return UNUSABLE
    tell_unread(done.unread)
    typer.echo(plain(index.where))
    speed = f"{done.openings / took:.0f} a second" if took else "at once"
    sites = "1 site" if len(done.sites) == 1 else f"{len(done.sites)} sites"
    typer.echo(f"  {sites}, {done.openings} openings in {took:.1f} s ({speed}), {size:.1f} MB")
    return UNUSABLE if done.unread else WELL
