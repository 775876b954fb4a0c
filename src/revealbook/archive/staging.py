"""Where a site's folder is built before it takes its place, and what becomes of what stopped filers left."""

import shutil
import tempfile
from collections.abc import Callable, Iterator
from contextlib import contextmanager, suppress
from pathlib import Path

from revealbook.archive.disk import flush_one
from revealbook.archive.exchange import Swap, put_back, replace_folder
from revealbook.archive.layout import LOCKS, STAGING, STORE, WORK
from revealbook.archive.locks import held, nobody_asks
from revealbook.archive.refusal import Busy


@contextmanager
def building(
    archive: Path, site: str, patience_s: float, waiting: Callable[[str], None] = nobody_asks
) -> Iterator[Path]:
    """Give an empty folder to build in, while nobody else files this site; it is gone afterwards.

    Args:
        archive: the archive.
        site: the site.
        patience_s: how long to wait for another filer, s.
        waiting: told in a sentence if there is a wait.

    Raises:
        Busy: another filer has it.
    """
    work = archive / WORK
    clear_left_over(archive)
    with held(work / LOCKS, site, patience_s, waiting):
        own = work / STAGING / site
        _clear(own, archive / STORE / site)
        own.mkdir(parents=True)
        try:
            yield Path(tempfile.mkdtemp(dir=own))
        finally:
            _clear(own, archive / STORE / site)


def publish(new: Path, target: Path, swap: Swap) -> None:
    """Put a complete folder, which is on the disk, into its place, and bring its name to the disk.

    Args:
        new: the folder, built in what `building` gave.
        target: its place in the store.
        swap: how two folders are exchanged.
    """
    replace_folder(new, target, swap)
    flush_one(target.parent)


def clear_left_over(archive: Path) -> None:
    """Clear what stopped filers left, and put folders back that had stepped aside; living ones keep theirs.

    Whoever may only read the archive changes nothing.
    """
    staging = archive / WORK / STAGING
    if not staging.is_dir():
        return
    for left in sorted(staging.iterdir()):
        with suppress(Busy, OSError), held(archive / WORK / LOCKS, left.name, 0):
            _clear(left, archive / STORE / left.name)


def stepped_aside(archive: Path, site: str) -> bool:
    """Whether a site's folder is just being replaced by two renames, and so may not be in its place."""
    return any((archive / WORK / STAGING / site).glob("*/old"))


def _clear(own: Path, target: Path) -> None:
    """Remove one site's staging; the caller holds its lock."""
    if not own.is_dir():
        return
    for beside in own.iterdir():
        put_back(beside, target)
    shutil.rmtree(own)
