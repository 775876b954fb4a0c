"""`revealbook file`: packs judged again, put together by site, and filed."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from getpass import getuser
from pathlib import Path

import typer

from revealbook.archive.file import Filing, file_given
from revealbook.archive.given import GivenPack, read_pack
from revealbook.archive.layout import READ_ME, is_made
from revealbook.archive.opened import NotAPack, open_pack
from revealbook.archive.refusal import Refused
from revealbook.archive.store import Archive, Filed
from revealbook.archive.together import by_site, differing, put_together
from revealbook.cli.exit_codes import UNUSABLE, WELL
from revealbook.cli.moment import moment
from revealbook.cli.terminal import folded, plain, progress
from revealbook.present.problems import line
from revealbook.present.volumes import VOLUMES_FILE, read_lines
from revealbook.present.words import words_in
from revealbook.records.load import PHOTOS, load_site, look_into
from revealbook.source.problem import Problem

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


@dataclass(frozen=True, slots=True)
class Batch:
    """Packs that were given in one word: those of a site folder, or a file."""

    packs: tuple[Path, ...]
    site: Path | None = None


def run(given: Sequence[Path], asked: Asked) -> int:
    """File; give 0 if everything is in the archive now, 2 if something was refused."""
    at = moment()
    try:
        is_made(asked.archive)  # refuses at once, and not after all the judging
        batches = [_batch(one) for one in given]
        read = _read(batches)
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


def _read(batches: Sequence[Batch]) -> list[tuple[Path | None, tuple[GivenPack, ...]]]:
    """Judge all packs again and put each site's together, with its folder if one was given."""
    loose: list[GivenPack] = []
    read: list[tuple[Path | None, tuple[GivenPack, ...]]] = []
    total, done = sum(len(batch.packs) for batch in batches), 0
    with progress("judging again") as seen:
        for batch in batches:
            packs = []
            for path in batch.packs:
                packs.append(read_pack(path))
                done += 1
                seen(done, total, path.name)
            if batch.site:
                _refuse_older(batch.site, packs)
                read.append((batch.site, tuple(packs)))
            else:
                loose += packs
    return read + [(None, packs) for packs in by_site(loose)]


def _refuse_older(site: Path, packs: Sequence[GivenPack]) -> None:
    """Refuse a pack whose records have changed since in the site folder."""
    if said := differing(site, put_together(packs)):
        listed = "".join(f"\n  {one}" for one in said)
        raise Refused(
            f"The pack of {site} is not of the records as they are now; make it again with"
            f" `revealbook pack`, or name the PDF to file it as it is:{listed}"
        )


def _batch(given: Path) -> Batch:
    """Find the packs that a site folder or a file means."""
    if not given.is_dir():
        return Batch(_with_volumes(given))
    site_id = _site_id(given)
    whole, index = (given / "pack" / f"{site_id}{part}.pdf" for part in ("", "-index"))
    if whole.is_file() and index.is_file():
        raise Refused(f"There are both {whole} and {index}; name the one to be filed.")
    if not whole.is_file() and not index.is_file():
        raise Refused(f"{given} has no pack at {whole}; `revealbook pack {given}` makes it.")
    return Batch((whole,) if whole.is_file() else _with_volumes(index), given)


def _site_id(folder: Path) -> str:
    looked = look_into(folder)
    loaded = (looked,) if isinstance(looked, Problem) else load_site(looked)
    if isinstance(loaded, tuple):
        raise Refused("\n".join(line(problem, words_in("en")) for problem in loaded))
    return loaded.site.id


def _with_volumes(pack: Path) -> tuple[Path, ...]:
    """Give a pack and, if it is an index, the volumes it names that lie beside it."""
    try:
        named = open_pack(pack).carried.get(VOLUMES_FILE)
        lines = read_lines(named) if named else ()
    except NotAPack as reason:
        raise Refused(str(reason)) from reason
    except ValueError:
        return (pack,)  # judging it again says what is wrong with it
    beside = (pack.parent / Path(one.file).name for one in lines)
    return (pack, *(file for file in beside if file.is_file()))
