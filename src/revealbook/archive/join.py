"""The step: a later record - a claim, a repair, a re-measurement - to a new version of its site."""

import json
from collections.abc import Callable, Iterator, Mapping
from pathlib import Path
from typing import Any

from revealbook.archive.disk import Digested, digest_of
from revealbook.archive.file import (
    AFTERWARDS,
    FILING,
    FINDINGS,
    SAME,
    Filing,
    plain_json,
    refuse_overwriting,
)
from revealbook.archive.later import LaterRecord
from revealbook.archive.refusal import Damaged, Refused, no_opening
from revealbook.archive.site_object import Source
from revealbook.archive.store import Archive, Filed, Version

PHOTOS = f"{AFTERWARDS}photos/"
_OF_ONE_VERSION = frozenset({"joined", "received"})
"""What filing.json tells of what came with one version."""


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

    def told(before: Version) -> Mapping[str, Any]:
        _refuse_unknown_opening(archive, record, before)
        lacking = [name for name in record.photos if f"{PHOTOS}{name}" not in {*photos, *before.state}]
        return {"joined": {"file": record.path, "photos_missing": lacking}}

    files: dict[str, Source] = {record.path: record.content, **photos}
    message = filing.note or f"{record.kind} {record.id} joined {record.mark}"
    return add_later(archive, record.site, files, told, filing=filing, message=message)


def add_later(
    archive: Archive,
    site: str,
    later: Mapping[str, Source],
    told: Callable[[Version], Mapping[str, Any]],
    *,
    filing: Filing,
    message: str,
) -> Filed:
    """Add later records and their photographs to a site as one new version; all else is carried forward.

    Args:
        archive: where.
        site: the site.
        later: the records and photographs, by path.
        told: gives what filing.json tells of them, from the version before; it may refuse.
        filing: who and when.
        message: why.

    Raises:
        Refused: the archive does not hold the site, or holds another file under the same name.
        Busy: another filer had the site all the time.
        Damaged: what the archive holds of the site is not what was written.
    """

    def also(before: Version | None) -> Mapping[str, Source]:
        if before is None:
            raise Refused(f"The archive holds no site {site!r}.")
        tells = told(before)
        refuse_overwriting(later, before)
        return {FILING: _told(archive, site, filing, before, tells)}

    return archive.add(
        site,
        later,
        user=filing.by,
        message=message,
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


def _told(archive: Archive, site: str, filing: Filing, before: Version, tells: Mapping[str, Any]) -> bytes:
    """Give filing.json: that of the filing before, with who adds what instead of what came then."""
    place = archive.contents(site, before.number).get(FILING)
    told = _read(site, FILING, place) if place else {}
    changed = {
        "version": before.number + 1,
        "head_before": before.head,
        "filed_by": filing.by,
        "filed_at": filing.at.isoformat(timespec="seconds"),
        "note": filing.note,
    }
    kept = {key: one for key, one in told.items() if key not in _OF_ONE_VERSION}
    return plain_json({**kept, **changed, **tells})


def _read(site: str, path: str, place: Path) -> Any:
    try:
        return json.loads(place.read_bytes())
    except ValueError as error:
        raise Damaged(f"{path} of {site} cannot be read: {error}.") from error
