"""An archive with its index brought up to date, for the commands that look something up."""

from collections.abc import Iterator
from contextlib import closing, contextmanager
from dataclasses import dataclass
from pathlib import Path
from time import monotonic

import typer

from revealbook.archive.store import Archive
from revealbook.cli.terminal import plain, progress
from revealbook.lookup.database import Database
from revealbook.lookup.index import Indexed, Unread, open_database, refresh

_LONG_S = 2


@dataclass(frozen=True, slots=True)
class LookedInto:
    """An archive, its index, and the sites that the index could not take in."""

    archive: Archive
    index: Database
    unread: tuple[Unread, ...]


@contextmanager
def looked_into(path: Path, where: str | None) -> Iterator[LookedInto]:
    """Open an archive and its index, which takes in first what was filed since.

    Raises:
        Refused: there is no such archive, or the index cannot be used.
    """
    archive = Archive.open(path)
    with closing(open_database(path, where)) as index:
        began = monotonic()
        with progress("taking in what was filed") as seen:
            done = refresh(archive, index, seen)
        took = monotonic() - began
        if done.sites and took > _LONG_S:
            typer.echo(plain(f"{_said(done)} in {took:.1f} s"), err=True)
        tell_unread(done.unread)
        yield LookedInto(archive, index, done.unread)


def _said(done: Indexed) -> str:
    sites = "1 site" if len(done.sites) == 1 else f"{len(done.sites)} sites"
    return f"The index took in {sites}, {done.openings} openings,"


def tell_unread(unread: tuple[Unread, ...]) -> None:
    """Say which sites are not in the index as they are filed."""
    for one in unread:
        typer.echo(plain(f"{one.site}: not in the index as it is filed: {one.why}"), err=True)
