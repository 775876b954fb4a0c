"""The step: packs to a new version of their site in the archive."""

import json
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace
from datetime import datetime
from pathlib import Path, PurePath
from typing import Any

from revealbook import __version__
from revealbook.archive.chain import BEFORE_THE_FIRST
from revealbook.archive.disk import Digested, digest_of
from revealbook.archive.given import GivenPack, read_packs
from revealbook.archive.refusal import Refused
from revealbook.archive.site_object import Progress, Source
from revealbook.archive.store import Archive, Filed, Version
from revealbook.archive.together import Together, put_together
from revealbook.present.facts import facts_json

AFTERWARDS, FILING, FACTS = "afterwards/", "filing.json", "facts.json"
PACKS, FINDINGS, PHOTOS = "packs/", "findings/", "photos/"
ONLY_SENT = "only_sent"
"""Said in the filing.json of a pack that was sent before anybody filed it."""
SAME = frozenset({FILING, FACTS})
"""Files that say something about a filing, not about the site: a difference there makes no new version."""


@dataclass(frozen=True, slots=True)
class Filing:
    """Who files, when, and with what.

    Attributes:
        by: who.
        at: when, with a zone.
        note: why; may be empty.
        photos: the folder of photographs; none if they are to come from the archive alone.
        without_photos: whether to file even if photographs lack that records name.
        seen: told of each file that was looked at or stored.
    """

    by: str
    at: datetime
    note: str = ""
    photos: Path | None = None
    without_photos: bool = False
    seen: Progress = lambda _done, _total, _name: None


@dataclass(frozen=True, slots=True)
class Along:
    """What goes into the same version along with what is filed.

    Attributes:
        later: later records and their photographs, by path; one that is there is never overwritten.
        told: what filing.json tells of it.
    """

    later: Mapping[str, Source] = field(default_factory=dict)
    told: Mapping[str, Any] = field(default_factory=dict)


def file_packs(
    archive: Archive, packs: Sequence[Path], filing: Filing, seen: Progress | None = None
) -> Filed:
    """File packs of one site as one version.

    Args:
        archive: where.
        packs: one pack, or all volumes of a site with their index.
        filing: who, when, and with which photographs.
        seen: told after each pack that was judged again.

    Raises:
        Refused: a pack does not agree with itself or with the others, or photographs lack.
        Busy: another filer had the site all the time.
        Damaged: what the archive holds of the site is not what was written.
    """
    return file_given(archive, read_packs(packs, seen), filing)


def file_given(
    archive: Archive, packs: Sequence[GivenPack], filing: Filing, along: Along | None = None
) -> Filed:
    """File packs that were read, and what goes along with them, as one version; as `file_packs`."""
    along = along or Along()
    together = _called_as_held(archive, put_together(packs))
    photos = _found(together.photos, filing.photos)
    lacking = [name for name in together.photos if name not in photos]

    def also(before: Version | None) -> Mapping[str, Source]:
        refuse_overwriting(along.later, before)
        kept = _kept(archive, together.site, before, lacking)
        missing = [name for name in lacking if f"{PHOTOS}{name}" not in kept]
        if missing and not filing.without_photos:
            raise Refused(_lack(missing, filing.photos))
        return {**kept, FILING: _told(together, filing, before, missing, along.told)}

    return archive.add(
        together.site,
        {**content(together), **{f"{PHOTOS}{name}": path for name, path in photos.items()}, **along.later},
        user=filing.by,
        message=filing.note or f"filed {', '.join(pack.name for pack in together.packs)}",
        created=filing.at,
        keep=(AFTERWARDS,),
        also=also,
        same=SAME,
        seen=filing.seen,
    )


def _called_as_held(archive: Archive, together: Together) -> Together:
    """Call a pack that the archive holds already as it is called there: a copy of it is nothing new."""
    versions = archive.versions_if_any(together.site)
    latest = versions[-1].state if versions else {}
    held = {digest: path.removeprefix(PACKS) for path, digest in latest.items() if path.startswith(PACKS)}
    packs = tuple(replace(pack, called=held.get(pack.file.sha512, "")) for pack in together.packs)
    unique = len({pack.name for pack in packs}) == len(packs)
    return replace(together, packs=packs) if unique else together


def content(together: Together) -> dict[str, Source]:
    """Give what packs are filed as, by path; without photographs and without what tells of the filing."""
    files: dict[str, Source] = {**together.carried, FACTS: facts_json(together.judged)}
    for pack in together.packs:
        files[f"{PACKS}{pack.name}"] = pack.file
        files[f"{FINDINGS}{PurePath(pack.name).stem}.json"] = pack.carried["findings.json"]
    return files


def refuse_overwriting(later: Mapping[str, Source], before: Version | None) -> None:
    """Refuse later records and photographs of which the version before holds others under the same name."""
    held = before.state if before else {}
    for path in sorted(later.keys() & held.keys()):
        if held[path] != digest_of(later[path]):
            raise Refused(f"{path} is in the archive with other content, and is never overwritten.")


def _found(names: Sequence[str], folder: Path | None) -> dict[str, Path]:
    if folder is None:
        return {}
    return {name: folder / name for name in names if (folder / name).is_file()}


def _kept(archive: Archive, site: str, before: Version | None, names: Sequence[str]) -> dict[str, Source]:
    """Give photographs that were not found, but that the version before holds."""
    if before is None or not names:
        return {}
    places = archive.contents(site, before.number)
    paths = (f"{PHOTOS}{name}" for name in names)
    return {path: Digested(places[path], before.state[path]) for path in paths if path in places}


def _lack(missing: Sequence[str], folder: Path | None) -> str:
    where = f"not in {folder}" if folder else "no folder of photographs was given"
    named = "".join(f"\n  {name}" for name in missing)
    what_to_do = "\n--photos names their folder; --without-photos goes on without them."
    return f"Records name photographs that lack ({where}):{named}{what_to_do}"


def _told(
    together: Together,
    filing: Filing,
    before: Version | None,
    missing: Sequence[str],
    along: Mapping[str, Any],
) -> bytes:
    """Give filing.json: who filed, with what, and what came before."""
    rules = together.judged.rule_set
    return plain_json({
        **along,
        "format": "revealbook-filing-1",
        "site": together.site,
        "version": before.number + 1 if before else 1,
        "head_before": before.head if before else BEFORE_THE_FIRST,
        "filed_by": filing.by,
        "filed_at": filing.at.isoformat(timespec="seconds"),
        "note": filing.note,
        "filed_with": __version__,
        "rule_set": {"id": rules.id, "edition": rules.edition},
        "openings": len(together.judged.openings),
        "packs": [_pack(pack) for pack in together.packs],
        "photos_missing": list(missing),
    })  # fmt: skip


def _pack(pack: GivenPack) -> dict[str, Any]:
    return {
        "file": f"{PACKS}{pack.name}",
        "openings": len(pack.judged.openings),
        "fingerprint": pack.fingerprint,
        "sha256": pack.sha256,
        "made_with": pack.made_with or __version__,
    }


def plain_json(plain: Any) -> bytes:
    """Give plain data as JSON for people and programs; the same data gives the same bytes."""
    return (json.dumps(plain, ensure_ascii=False, indent=1, sort_keys=True) + "\n").encode()
