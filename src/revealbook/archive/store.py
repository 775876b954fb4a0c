"""The store: every version of every site, never changed, only added to.

At whatever moment a filer is stopped, the store is whole and holds a site either as before or with the whole
new version (on file systems that exchange folders in one step; elsewhere opening the archive repairs it).
Reading takes no lock.
"""

import time
from collections.abc import Callable, Iterable, Iterator, Mapping
from contextlib import contextmanager
from dataclasses import dataclass, replace
from datetime import datetime
from pathlib import Path
from typing import Self

from revealbook.archive import chain, exchange
from revealbook.archive.disk import digest_of, flush, flush_one
from revealbook.archive.inventory import Block, Inventory
from revealbook.archive.layout import READ_ME, STORE, check_archive, is_made, read_me, write_root
from revealbook.archive.locks import nobody_asks
from revealbook.archive.names import check_paths, check_site
from revealbook.archive.refusal import Damaged, Refused
from revealbook.archive.site_object import Progress, Source, build_next, is_object, read_object
from revealbook.archive.staging import building, clear_left_over, publish, stepped_aside

_ARCHIVE_ITSELF = "_archive"
"""The lock for making the archive; no site's id begins with this sign."""
_TRIES, _PAUSE_S = 60, 0.03
"""How often and how long a reader waits while a folder is being replaced."""


@dataclass(frozen=True, slots=True)
class Version:
    """One version of a site.

    Attributes:
        number: from 1.
        created: when it was filed.
        message: why.
        user: by whom.
        state: SHA-512 of each file by logical path.
        head: the number that stands for it and all before it; see `chain`.
    """

    number: int
    created: datetime
    message: str
    user: str
    state: Mapping[str, str]
    head: str


@dataclass(frozen=True, slots=True)
class Filed:
    """What filing gave.

    Attributes:
        site: the site.
        version: its latest version now.
        new: whether that was added now; not if it holds what was filed already.
        before: the version before it, if there was one.
    """

    site: str
    version: Version
    new: bool
    before: Version | None


@dataclass(frozen=True, slots=True)
class Archive:
    """An archive on the disk.

    Attributes:
        path: its folder.
        patience_s: how long to wait for another filer of the same site, s.
        waiting: told in a sentence if there is a wait.
        swap: how two folders are exchanged.
    """

    path: Path
    patience_s: float = 60
    waiting: Callable[[str], None] = nobody_asks
    swap: exchange.Swap = exchange.swap

    @classmethod
    def open(cls, path: Path) -> Self:
        """Open an archive, and repair what a stopped filer left where folders cannot be exchanged.

        Raises:
            NotAnArchive: it is none.
        """
        check_archive(path)
        clear_left_over(path)
        return cls(path)

    @classmethod
    def create(cls, path: Path) -> Self:
        """Make an empty archive in a folder that does not exist or is empty; open one that is there.

        Raises:
            NotAnArchive: something else is there.
        """
        if not is_made(path):
            path.mkdir(parents=True, exist_ok=True)
            with building(path, _ARCHIVE_ITSELF, cls(path).patience_s) as folder:
                (folder / "new").mkdir()
                flush(folder / "new", write_root(folder / "new"))
                (path / READ_ME).write_text(read_me(), encoding="utf-8", newline="\n")
                if not (path / STORE).exists():
                    publish(folder / "new", path / STORE, exchange.never)
                flush_one(path / READ_ME)
        return cls.open(path)

    def sites(self) -> tuple[str, ...]:
        """Give the sites' ids, in order."""
        return tuple(sorted(one.name for one in (self.path / STORE).iterdir() if is_object(one)))

    def versions(self, site: str) -> tuple[Version, ...]:
        """Give a site's versions, the first one first.

        Raises:
            Refused: the archive holds no such site.
            Damaged: its inventory is not the one that was written.
        """
        return versions_of(self.inventory(site))

    def versions_if_any(self, site: str) -> tuple[Version, ...]:
        """Give a site's versions as `versions` does; none if the archive does not hold it."""
        return self.versions(site) if site in self.sites() else ()

    def version(self, site: str, number: int | None = None) -> Version:
        """Give one version of a site; the latest if no number is given.

        Raises:
            Refused: there is no such site or version.
            Damaged: the inventory is not the one that was written.
        """
        versions = self.versions(site)
        there = len(versions)
        return versions[_checked(site, there if number is None else number, there) - 1]

    def inventory(self, site: str) -> Inventory:
        """Read a site's inventory; waits for the moment in which its folder is being replaced.

        Raises:
            Refused: the archive holds no such site.
            Damaged: it is not the one that was written.
        """
        folder = self.folder(site)
        for tried in range(_TRIES):
            try:
                return read_object(folder, site)
            except FileNotFoundError:
                if not is_object(folder) and not stepped_aside(self.path, site):
                    raise Refused(f"The archive holds no site {site!r}.") from None
                if tried == _TRIES - 1:
                    raise Damaged(f"The inventory of {site} is not there.") from None
            except Damaged:  # perhaps its two files were read before and after a new version
                if tried >= 2:  # noqa: PLR2004 - twice by chance is enough
                    raise
            time.sleep(_PAUSE_S)
        raise AssertionError  # the last try returns or raises

    def folder(self, site: str) -> Path:
        """Give a site's folder in the store, whether it is there or not.

        Raises:
            Refused: the id cannot be a folder's name.
        """
        check_site(site)
        return self.path / STORE / site

    def content(self, site: str, version: int, path: str) -> Path:
        """Give the place of a file's content on the disk; for many files ask for all `contents` at once.

        Raises:
            Refused: there is no such site, version or file.
            Damaged: the inventory is not the one that was written.
        """
        inventory, state = self._state(site, version)
        if path not in state:
            raise Refused(f"Version {version} of {site} holds no {path}.")
        return self.folder(site) / inventory.manifest[state[path]][0]

    def contents(self, site: str, version: int) -> dict[str, Path]:
        """Give the places of all files of a version on the disk, by logical path.

        Raises:
            Refused: there is no such site or version.
            Damaged: the inventory is not the one that was written.
        """
        (inventory, state), folder = self._state(site, version), self.folder(site)
        return {path: folder / inventory.manifest[digest][0] for path, digest in state.items()}

    def _state(self, site: str, version: int) -> tuple[Inventory, Mapping[str, str]]:
        inventory = self.inventory(site)
        return inventory, inventory.blocks[_checked(site, version, len(inventory.blocks)) - 1].state

    def add(
        self,
        site: str,
        files: Mapping[str, Source],
        *,
        user: str,
        message: str,
        created: datetime,
        keep: Iterable[str] = (),
        also: Callable[[Version | None], Mapping[str, Source]] = lambda _before: {},
        same: Iterable[str] = (),
        seen: Progress = lambda _done, _total, _path: None,
    ) -> Filed:
        """Add a version, unless the latest one holds the same.

        Args:
            site: the site; it is begun if the archive does not hold it.
            files: what the version's files are stored from, by logical path.
            user: who files it.
            message: why.
            created: when, with a zone.
            keep: beginnings of paths that are carried forward from the version before, unless `files` has
                them; an empty one carries everything.
            also: gives further files, which depend on the version before; it may refuse. It is called while
                nobody else files this site.
            same: paths that do not count when asking whether anything is new.
            seen: told of each file whose digest was taken, and of each that was stored.

        Raises:
            Refused: the site's id or a path cannot be stored, a file changed meanwhile, or `also` refuses.
            Busy: another filer had the site all the time.
            Damaged: what the archive holds of the site is not what was written.
        """
        check_site(site, self.sites())
        if created.tzinfo is None:
            raise ValueError("a version is made at a time with its zone")
        digests, kept = _digests(files, seen), tuple(keep)
        with self.renewing(site) as (beside, inventory):
            versions = versions_of(inventory)
            before = versions[-1] if versions else None
            further = also(before)
            held = before.state if before else {}
            state = {path: digest for path, digest in held.items() if path.startswith(kept)}
            state |= digests | _digests(further, seen)
            check_paths(state)
            if before and _without(before.state, same) == _without(state, same):
                return Filed(site, before, new=False, before=versions[-2] if versions[1:] else None)
            block = Block(created.replace(microsecond=0), message, user, state)
            sources = {**files, **further}
            grown = build_next(self.folder(site), beside / "new", inventory, block, sources, seen=seen)
            publish(beside / "new", self.folder(site), self.swap)
        return Filed(site, versions_of(grown)[-1], new=True, before=before)

    @contextmanager
    def renewing(self, site: str) -> Iterator[tuple[Path, Inventory]]:
        """Give an empty folder to build a site's new folder in, and its inventory; nobody else files it then.

        The inventory of a site that the archive does not hold has no versions.

        Raises:
            Busy: another filer had the site all the time.
            Damaged: its inventory is not the one that was written.
        """
        with building(self.path, site, self.patience_s, self.waiting) as beside:
            check_site(site, self.sites())
            there = self.folder(site).exists()
            yield beside, self.inventory(site) if there else Inventory(site, {}, ())

    def told_of_waits(self, waiting: Callable[[str], None]) -> Self:
        """Give the same archive for a filer who is told of waits."""
        return replace(self, waiting=waiting)


def versions_of(inventory: Inventory) -> tuple[Version, ...]:
    """Give the versions that an inventory tells of, each with its head."""
    heads = chain.heads(inventory.site, (block.state for block in inventory.blocks))
    return tuple(
        Version(number, block.created, block.message, block.user, block.state, head)
        for number, (block, head) in enumerate(zip(inventory.blocks, heads, strict=True), 1)
    )


def _digests(sources: Mapping[str, Source], seen: Progress) -> dict[str, str]:
    digests = {}
    for number, (path, source) in enumerate(sources.items(), 1):
        digests[path] = digest_of(source)
        seen(number, len(sources), path)
    return digests


def _checked(site: str, number: int, there: int) -> int:
    if not 1 <= number <= there:
        raise Refused(f"{site} has no version {number}; it has {there}.")
    return number


def _without(state: Mapping[str, str], paths: Iterable[str]) -> dict[str, str]:
    left_out = frozenset(paths)
    return {path: digest for path, digest in state.items() if path not in left_out}
