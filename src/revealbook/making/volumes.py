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
from revealbook.present.evidence import evidence, fingerprint
from revealbook.present.volumes import By, Group, VolumeLine, groups, index_of
from revealbook.present.words import words_in
from revealbook.render.failure import RenderFailed
from revealbook.render.photos import Photo
from revealbook.render.templates import shipped_folder
from revealbook.rules.judged import JudgedSite
from revealbook.source.problem import Problem

Progress = Callable[[int, int, str], None]
_PER_PROCESS = 4
"""Volumes that a process renders, about, before it makes room for a fresh one, which keeps memory flat."""
_TYPESETTERS = ("weasyprint", "pydyf", "fonttools", "jinja2", "babel", "segno", "pillow", "fontpkg-fira-sans")
"""Packages whose versions the bytes of a volume depend on."""
_PDF, _TOLD = "volume.pdf", "made.json"


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
        sha256: digest of the whole file.
        warnings: what its maker should know.
        fresh: whether it was rendered now.
    """

    title: str
    name: str
    file: Path
    pages: int
    openings: int
    fingerprint: str
    sha256: str
    warnings: tuple[str, ...]
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
    index = make_pack(index_of(pack_of(judged, with_sheets=False), lines, words), photos, path, cache, made)
    return MadeSite(tuple(volumes), index)


def file_name(site_id: str, volume: str) -> str:
    """Give the file name of a volume."""
    return f"{site_id}-{volume}.pdf"


def _line(site_id: str, volume: MadeVolume) -> VolumeLine:
    name = file_name(site_id, volume.name)
    return VolumeLine(volume.title, name, volume.openings, volume.pages, volume.fingerprint, volume.sha256)


def _side_by_side(work: Sequence[Job], jobs: int) -> Iterator[MadeVolume]:
    if jobs <= 1 or len(work) == 1:
        yield from map(make_volume, work)
        return
    spawning, batch = get_context("spawn"), jobs * _PER_PROCESS
    for start in range(0, len(work), batch):
        # fresh processes for each batch: a pool that renews its own (max_tasks_per_child) may wait for ever
        with ProcessPoolExecutor(min(jobs, len(work) - start), spawning) as pool:
            yield from pool.map(make_volume, work[start : start + batch])


def make_volume(job: Job) -> MadeVolume:
    """Make one volume, or find it in the cache if nothing that it shows has changed.

    Raises:
        RenderFailed: a template is wrong or asks for what is not there, or a photograph went away meanwhile.
    """
    group = job.group
    photos = photographs(group.judged, job.path, job.cache)
    if isinstance(photos, tuple):
        gone = ", ".join(str(problem.facts["file"]) for problem in photos)
        raise RenderFailed(f"These photographs went away while the volume was made: {gone}.")
    whole = fingerprint(evidence(group.judged))
    kept = job.cache / "volumes" / _key(whole, photos, job)
    found = told = _kept(kept)
    if told is None:
        pack = replace(pack_of(group.judged), part=group.title)
        packed = make_pack(pack, photos, job.path, job.cache, job.made)
        told = _keep(kept, packed)
    openings = len(group.judged.openings)
    return MadeVolume(
        group.title, group.name, kept / _PDF, told[0], openings, whole, *told[1:], found is None
    )


_Told = tuple[int, str, tuple[str, ...]]
"""Pages, digest and warnings of a volume."""


def _kept(folder: Path) -> _Told | None:
    """Give pages, digest and warnings of a volume in the cache, if it lies there whole."""
    try:
        told = json.loads((folder / _TOLD).read_bytes())
        whole = sha256((folder / _PDF).read_bytes()).hexdigest() == told["sha256"]
    except (OSError, ValueError, KeyError, TypeError):
        return None
    return (told["pages"], told["sha256"], tuple(told["warnings"])) if whole else None


def _keep(folder: Path, packed: Packed) -> _Told:
    """Keep a volume, what is told about it last: a run that was broken off leaves nothing that counts."""
    folder.mkdir(parents=True, exist_ok=True)
    digest = sha256(packed.pdf).hexdigest()
    told = {"pages": packed.pages, "sha256": digest, "warnings": packed.warnings}
    for name, content in ((_PDF, packed.pdf), (_TOLD, json.dumps(told).encode())):
        unfinished = folder / f"{name}.unfinished"
        unfinished.write_bytes(content)
        unfinished.replace(folder / name)
    return packed.pages, digest, packed.warnings


def _key(whole: str, photos: dict[str, Photo], job: Job) -> str:
    """Give the digest of everything that the bytes of a volume depend on."""
    depends = {
        "fingerprint": whole,
        "part": job.group.title,
        "made": job.made.isoformat() if job.made else "",
        "versions": [__version__, *(version(name) for name in _TYPESETTERS)],
        "templates": _digests(shipped_folder()) + _digests(job.path / TEMPLATES),
        "photos": sorted((name, photo.sha256) for name, photo in photos.items()),
    }
    return sha256(json.dumps(depends, sort_keys=True).encode()).hexdigest()


def _digests(folder: Path) -> list[tuple[str, str]]:
    files = sorted(file for file in folder.rglob("*") if file.is_file()) if folder.is_dir() else []
    return [(file.relative_to(folder).as_posix(), sha256(file.read_bytes()).hexdigest()) for file in files]
