"""`revealbook file`: packs judged again, put together by site, and filed."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from getpass import getuser
from pathlib import Path

import typer

from revealbook.archive.file import Filing, file_given
from revealbook.archive.layout import READ_ME, is_made
from revealbook.archive.refusal import Refused
from revealbook.archive.store import Archive, Filed
from revealbook.cli.exit_codes import UNUSABLE, WELL
from revealbook.cli.given_packs import read_given
from revealbook.cli.moment import moment
from revealbook.cli.terminal import folded, plain, progress
from revealbook.records.load import PHOTOS

_NAMED = 6
"""So many new files are named; more are counted."""


@dataclass(frozen=True, slots=True)
class Asked:
    """What was asked on the command line."""

    archive: Path
    photos: Path | None = None
    by: str | None = None
    note: str = ""
    without_photos: bool = False


def run(given: Sequence[Path], asked: Asked) -> int:
    """File; give 0 if everything is in the archive now, 2 if something was refused."""
    at = moment()
    try:
        is_made(asked.archive)  # refuses at once, and not after all the judging
        read = read_given(given)
        archive = _open_or_create(asked.archive)
        for site, packs in read:
            photos = asked.photos or (site / PHOTOS if site else None)
            with progress("storing") as seen:
                filing = Filing(asked.by or filer(), at, asked.note, photos, asked.without_photos, seen)
                filed = file_given(archive, packs, filing)
            tell(filed)
    except Refused as refused:
        tell_refused(refused)
        return UNUSABLE
    return WELL


def open_archive(path: Path) -> Archive:
    """Open an archive for filing: whoever has to wait for another filer is told."""
    return Archive.open(path).told_of_waits(lambda sentence: typer.echo(plain(sentence), err=True))


def _open_or_create(path: Path) -> Archive:
    if not is_made(path):
        Archive.create(path)
        said = f"{path}: a new archive; its {READ_ME} says how to read it without this program"
        typer.echo(said, err=True)
    return open_archive(path)


def filer() -> str:
    """Give the name of whoever runs this."""
    try:
        return getuser()
    except (OSError, KeyError):
        raise Refused("Nobody can be named as filing this; give a name with --by.") from None


def tell_refused(refused: Refused) -> None:
    """Print why something was refused."""
    for said in str(refused).splitlines():
        typer.echo(plain(said), err=True)


def tell(filed: Filed) -> None:
    """Say what filing gave."""
    version = filed.version
    if filed.new:
        typer.echo(f"{filed.site}: version {version.number} filed, {len(version.state)} files")
    else:
        typer.echo(f"{filed.site}: nothing new; version {version.number} holds this already")
    typer.echo(f"  head {version.head}")
    if filed.new:
        before = filed.before.state if filed.before else {}
        now = version.state
        _name("new", [path for path in now if path not in before])
        _name("changed", [path for path in now if before.get(path, now[path]) != now[path]])
        _name("no longer in it", [path for path in before if path not in now])


def _name(what: str, paths: Iterable[str]) -> None:
    named = sorted(paths)
    if not named:
        return
    more = f" and {len(named) - _NAMED} more" if len(named) > _NAMED else ""
    said = f"{what}: {', '.join(named[:_NAMED])}{more}"
    for row in folded(said, "  "):
        typer.echo(row)
