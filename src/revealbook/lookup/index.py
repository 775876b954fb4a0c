"""The step: an archive to an index, as a whole or what changed of it.

The index is a copy for speed and nothing else: deleted, it is built again and gives the same answers.
"""

from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass
from hashlib import sha256
from pathlib import Path

from platformdirs import user_cache_path

from revealbook.archive.refusal import Refused
from revealbook.archive.store import Archive
from revealbook.lookup.database import Database, NoIndex
from revealbook.lookup.filed import FiledOpenings, digest_of, filed_openings
from revealbook.lookup.loading import Loading, forget
from revealbook.lookup.schema import FORMAT
from revealbook.lookup.sqlite import SqliteDatabase

Progress = Callable[[int, int, str], None]
"""Told of each site: how many are done, of how many, and its id."""


def _nobody_watches(_done: int, _total: int, _site: str) -> None:
    """Be told and do nothing."""


_ADDRESSES = ("postgresql://", "postgres://")


@dataclass(frozen=True, slots=True)
class Unread:
    """A site that could not be taken into the index, and why; what the index held of it stays."""

    site: str
    why: str


@dataclass(frozen=True, slots=True)
class Indexed:
    """What was taken into the index.

    Attributes:
        sites: sites that were taken in, or left because the archive no longer holds them.
        openings: openings that were taken in, each version of it that differs.
        unread: sites that could not be.
    """

    sites: tuple[str, ...]
    openings: int
    unread: tuple[Unread, ...]


def open_database(archive: Path, where: str | None = None) -> Database:
    """Open the database for an archive's index, without looking into it.

    Args:
        archive: the archive's folder.
        where: a file, or the address of a PostgreSQL database; if left out, a file in the user's cache.

    Raises:
        NoIndex: it cannot be opened, or the extra for PostgreSQL is not installed.
    """
    if where is None:
        return SqliteDatabase(usual_file(archive))
    if not where.startswith(_ADDRESSES):
        return SqliteDatabase(Path(where))
    try:
        from revealbook.lookup.postgres import PostgresDatabase  # noqa: PLC0415 - an extra
    except ImportError as error:
        raise NoIndex(
            f"An index in PostgreSQL needs `pip install 'revealbook[postgres]'`: {error}."
        ) from error
    return PostgresDatabase(where)


def usual_file(archive: Path) -> Path:
    """Give the file that holds the index of an archive, wherever it is named from."""
    real = archive.resolve()
    name = f"{real.name}-{sha256(str(real).encode()).hexdigest()[:16]}.sqlite"
    return user_cache_path("revealbook") / "indexes" / name


def build(archive: Archive, database: Database, seen: Progress = _nobody_watches) -> Indexed:
    """Build the index of an archive anew; what was there is replaced in one step at the end.

    Args:
        archive: the archive.
        database: where to.
        seen: told after each site.

    Raises:
        NoIndex: the database cannot be written.
    """
    unread: list[Unread] = []

    def read() -> Iterator[FiledOpenings]:
        sites = archive.sites()
        for number, site in enumerate(sites, 1):
            filed = _read(archive, site)
            if isinstance(filed, Unread):
                unread.append(filed)
            else:
                yield filed
            seen(number, len(sites), site)

    sites, openings = fill(database, str(archive.path.resolve()), read())
    return Indexed(sites, openings, tuple(unread))


def fill(database: Database, archive: str, filed: Iterable[FiledOpenings]) -> tuple[tuple[str, ...], int]:
    """Replace the index by these sites.

    Args:
        database: where to.
        archive: the archive's real path, so that an index is not taken for that of another one.
        filed: the sites.

    Returns:
        The sites and the number of openings.
    """
    sites = []
    with database.building():
        loading = Loading(database, empty=True)
        for one in filed:
            _load(loading, one)
            sites.append(one.site)
        loading.flush()
        database.add("meta", [("format", FORMAT), ("archive", archive)])
    return tuple(sites), loading.openings


def refresh(archive: Archive, database: Database, seen: Progress = _nobody_watches) -> Indexed:
    """Bring the index to the archive's state: only sites that changed are read. Builds it if there is none.

    Args:
        archive: the archive.
        database: its index.
        seen: told after each site.

    Raises:
        NoIndex: the database cannot be written, or holds the index of another archive.
    """
    if not database.is_made():
        return build(archive, database, seen)
    stale = changed(archive, database)
    done, openings, unread = list[str](), 0, list[Unread]()
    for number, site in enumerate(stale, 1):
        filed = _read(archive, site) if archive.folder(site).exists() else None
        if isinstance(filed, Unread):
            unread.append(filed)
        else:
            openings += _replace(database, site, filed)
            done.append(site)
        seen(number, len(stale), site)
    return Indexed(tuple(done), openings, tuple(unread))


def changed(archive: Archive, database: Database) -> tuple[str, ...]:
    """Give the sites that the index does not hold as they are filed now.

    Raises:
        NoIndex: it is the index of another archive.
    """
    held: dict[str, str] = dict(database.rows("SELECT site, digest FROM site"))
    now = {site: digest_of(archive, site) for site in archive.sites()}
    [(built_for,)] = database.rows("SELECT value FROM meta WHERE name = 'archive'")
    if held and built_for != str(archive.path.resolve()) and not held.items() & now.items():
        raise NoIndex(
            f"{database.where} holds the index of another archive, {built_for}. Name another place with"
            " --index, or make it this archive's with `revealbook index`."
        )
    return tuple(sorted(site for site in held.keys() | now.keys() if held.get(site) != now.get(site)))


def _read(archive: Archive, site: str) -> FiledOpenings | Unread:
    try:
        return filed_openings(archive, site)
    except Refused as why:
        return Unread(site, str(why))


def _replace(database: Database, site: str, filed: FiledOpenings | None) -> int:
    """Replace what the index holds of a site, unless somebody else did meanwhile."""
    with database.writing():
        held = database.rows("SELECT digest FROM site WHERE site = ?", (site,))
        if filed and held == [(filed.digest,)]:
            return 0
        forget(database, site)
        loading = Loading(database)
        if filed:
            _load(loading, filed)
        loading.flush()
    return loading.openings


def _load(loading: Loading, filed: FiledOpenings) -> None:
    for entry in filed.entries:
        loading.add(entry)
    openings = sum(entry.latest for entry in filed.entries)
    loading.site((filed.site, filed.name, filed.digest, filed.versions, openings))
