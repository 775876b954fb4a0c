"""A large site as volumes with an index, rendered side by side; what has not changed is not rendered again.

Each volume is a pack of its own, with its own evidence and fingerprint, so that it can be judged again by
itself. PDFs are never merged: that would lose their tags.
"""

import json
from collections.abc import Callable, Iterator, Sequence
from concurrent.futures import ProcessPoolExecutor
from dataclasses import dataclass, replace
from datetime import datetime
from hashlib import sha256
from importlib.metadata import version
from multiprocessing import get_context
from pathlib import Path

from revealbook import __version__
from revealbook.making.pack import TEMPLATES, Packed, make_pack, pack_of, photographs
from revealbook.present.present import Pack
from revealbook.present.volumes import By, Group, VolumeLine, groups, index_of
from revealbook.present.words import words_in
from revealbook.render.templates import shipped_folder
from revealbook.rules.judged import JudgedSite
from revealbook.source.problem import Problem

Progress = Callable[[int, int, str], None]
_PER_PROCESS = 4
"""Volumes that a process renders before it makes room for a fresh one, which keeps memory flat."""


@dataclass(frozen=True, slots=True)
class Job:
    """One volume to make: everything that a process needs."""

    group: Group
    path: Path
    cache: Path
    made: datetime | None


@dataclass(frozen=True, slots=True)
class MadeVolume:
    """A volume as it lies in the cache.

    Attributes:
        title: its title.
        name: its name for file names.
        file: where it lies.
        pages: how many pages.
        openings: how many openings.
        fingerprint: its fingerprint.
        fresh: whether it was rendered now.
    """

    title: str
    name: str
    file: Path
    pages: int
    openings: int
    fingerprint: str
    fresh: bool


@dataclass(frozen=True, slots=True)
class MadeSite:
    """A site's volumes as they lie in the cache, and the rendered index."""

    volumes: tuple[MadeVolume, ...]
    index: Packed


def make_volumes(
    judged: JudgedSite, path: Path, cache: Path, *, by: By, made: datetime | None, jobs: int, seen: Progress
) -> MadeSite | tuple[Problem, ...]:
    """Make a site's volumes and their index.

    Args:
        judged: the site.
        path: its folder.
        cache: folder for scaled photographs and for volumes already rendered; may be deleted at any time.
        by: what makes a volume.
        made: the date they carry; each its own latest moment if left out.
        jobs: how many processes render side by side.
        seen: told after each volume.

    Returns:
        The volumes as they lie in the cache and the rendered index, or the photographs that cannot be used.
    """
    photos = photographs(judged, path, cache)
    if isinstance(photos, tuple):
        return photos
    words = words_in(judged.site.site.language)
    work = [Job(group, path, cache, made) for group in groups(judged, by, words)]
    volumes: list[MadeVolume] = []
    for volume in _side_by_side(work, jobs):
        volumes.append(volume)
        seen(len(volumes), len(work), volume.title)
    lines = [_line(judged.site.site.id, volume) for volume in volumes]
    index = make_pack(index_of(pack_of(judged), lines), photos, path, cache, made)
    return MadeSite(tuple(volumes), index)


def file_name(site_id: str, volume: str) -> str:
    """Give the file name of a volume."""
    return f"{site_id}-{volume}.pdf"


def _line(site_id: str, volume: MadeVolume) -> VolumeLine:
    digest = sha256(volume.file.read_bytes()).hexdigest()
    name = file_name(site_id, volume.name)
    return VolumeLine(volume.title, name, volume.openings, volume.pages, volume.fingerprint, digest)


def _side_by_side(work: Sequence[Job], jobs: int) -> Iterator[MadeVolume]:
    if jobs <= 1 or len(work) == 1:
        yield from map(make_volume, work)
        return
    spawning = get_context("spawn")
    with ProcessPoolExecutor(min(jobs, len(work)), spawning, max_tasks_per_child=_PER_PROCESS) as pool:
        yield from pool.map(make_volume, work)


def make_volume(job: Job) -> MadeVolume:
    """Make one volume, or find it in the cache if nothing that it shows has changed."""
    pack = replace(pack_of(job.group.judged), part=job.group.title)
    kept = job.cache / "volumes" / _key(pack, job)
    found = next(kept.glob("*.pdf"), None) if kept.is_dir() else None
    openings = len(job.group.judged.openings)
    if found is not None:
        pages = int(found.stem)
        return MadeVolume(
            job.group.title, job.group.name, found, pages, openings, pack.fingerprint, fresh=False
        )
    photos = photographs(job.group.judged, job.path, job.cache)
    if isinstance(photos, tuple):
        raise FileNotFoundError(
            f"A photograph went away while the volume was made: {photos[0].facts['file']}"
        )
    packed = make_pack(pack, photos, job.path, job.cache, job.made)
    kept.mkdir(parents=True, exist_ok=True)
    unfinished, file = kept / "unfinished", kept / f"{packed.pages}.pdf"
    unfinished.write_bytes(packed.pdf)
    unfinished.replace(file)
    return MadeVolume(
        job.group.title, job.group.name, file, packed.pages, openings, pack.fingerprint, fresh=True
    )


def _key(pack: Pack, job: Job) -> str:
    """Give the digest of everything that the bytes of a volume depend on."""
    photos = photographs(job.group.judged, job.path, job.cache)
    depends = {
        "fingerprint": pack.fingerprint,
        "part": pack.part,
        "made": job.made.isoformat() if job.made else "",
        "versions": [__version__, version("weasyprint"), version("pillow"), version("fontpkg-fira-sans")],
        "templates": _digests(shipped_folder()) + _digests(job.path / TEMPLATES),
        "photos": sorted((name, photo.sha256) for name, photo in photos.items())
        if isinstance(photos, dict)
        else [],
    }
    return sha256(json.dumps(depends, sort_keys=True).encode()).hexdigest()


def _digests(folder: Path) -> list[tuple[str, str]]:
    files = sorted(file for file in folder.rglob("*") if file.is_file()) if folder.is_dir() else []
    return [(file.relative_to(folder).as_posix(), sha256(file.read_bytes()).hexdigest()) for file in files]
