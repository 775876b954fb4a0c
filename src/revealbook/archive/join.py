"""The step: a later record - a claim, a repair, a re-measurement - to a new version of its site."""

import json
from collections.abc import Iterator, Mapping, Sequence
from pathlib import Path
from typing import Any

from revealbook.archive.disk import Digested, digest_of
from revealbook.archive.file import AFTERWARDS, FILING, FINDINGS, SAME, Filing, plain_json
from revealbook.archive.later import LaterRecord
from revealbook.archive.refusal import Damaged, Refused, no_opening
from revealbook.archive.site_object import Source
from revealbook.archive.store import Archive, Filed, Version

PHOTOS = f"{AFTERWARDS}photos/"


def join(archive: Archive, record: LaterRecord, filing: Filing) -> Filed:
    """Add a later record to its site as a new version; everything else is carried forward.

    Args:
        archive: where.
        record: the record.
        filing: who, when, and with which photographs.

    Raises:
        Refused: the archive does not hold the site or opening, photographs lack, or another record or
            photograph is there under the same name: nothing is ever overwritten.
        Busy: another filer had the site all the time.
        Damaged: what the archive holds of the site is not what was written.
    """
    photos = dict(_photos(record, filing))

    def also(before: Version | None) -> Mapping[str, Source]:
        if before is None:
            raise Refused(f"The archive holds no site {record.site!r}.")
        _refuse_unknown_opening(archive, record, before)
        for path, digest in {record.path: digest_of(record.content), **_digests(photos)}.items():
            if before.state.get(path, digest) != digest:
                raise Refused(f"{path} is in the archive with other content, and is never overwritten.")
        lacking = [name for name in record.photos if f"{PHOTOS}{name}" not in {*photos, *before.state}]
        return {FILING: _told(archive, record, filing, before, lacking)}

    return archive.add(
        record.site,
        {record.path: record.content, **photos},
        user=filing.by,
        message=filing.note or f"{record.kind} {record.id} joined {record.mark}",
        created=filing.at,
        keep=("",),
        also=also,
        same=SAME,
        seen=filing.seen,
    )


def _photos(record: LaterRecord, filing: Filing) -> Iterator[tuple[str, Digested]]:
    """Find the photographs that a record names."""
    for name in record.photos:
        file = filing.photos / name if filing.photos else None
        if file is not None and file.is_file():
            yield f"{PHOTOS}{name}", Digested(file, digest_of(file))
        elif not filing.without_photos:
            where = f"not in {filing.photos}" if filing.photos else "no folder of photographs was given"
            raise Refused(f"The record names the photograph {name}, which cannot be filed ({where}).")


def _digests(photos: Mapping[str, Digested]) -> dict[str, str]:
    return {path: file.sha512 for path, file in photos.items()}


def _refuse_unknown_opening(archive: Archive, record: LaterRecord, before: Version) -> None:
    marks = set(_marks(archive, record.site, before))
    if record.mark not in marks:
        raise no_opening(record.site, record.mark, marks)


def _marks(archive: Archive, site: str, version: Version) -> Iterator[str]:
    """Give the marks of all openings that were judged."""
    for path, place in archive.contents(site, version.number).items():
        if path.startswith(FINDINGS):
            for opening in _read(site, path, place)["openings"]:
                yield opening["mark"]


def _told(
    archive: Archive, record: LaterRecord, filing: Filing, before: Version, lacking: Sequence[str]
) -> bytes:
    """Give filing.json: that of the filing before, with who joined what."""
    place = archive.contents(record.site, before.number).get(FILING)
    told = _read(record.site, FILING, place) if place else {}
    changed = {
        "version": before.number + 1,
        "head_before": before.head,
        "filed_by": filing.by,
        "filed_at": filing.at.isoformat(timespec="seconds"),
        "note": filing.note,
        "joined": {"file": record.path, "photos_missing": list(lacking)},
    }
    return plain_json(told | changed)


def _read(site: str, path: str, place: Path) -> Any:
    try:
        return json.loads(place.read_bytes())
    except ValueError as error:
        raise Damaged(f"{path} of {site} cannot be read: {error}.") from error
