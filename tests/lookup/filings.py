"""Archives whose versions hold facts, and nothing that takes long to make."""

import json
from collections.abc import Mapping
from dataclasses import replace
from datetime import datetime
from functools import cache
from pathlib import Path

from tests.archive import archives
from tests.present import judging
from tests.present.judging import Changes

from revealbook.archive.store import Archive
from revealbook.present.facts import facts_json
from revealbook.rules.judged import JudgedSite

SHORT = {"frame.pieces.bottom.overlap_left_mm": 79}
COLD = {"frame.bonding[0].air_c": 1}
CLAIM = """id: {id}
kind: claim
site: {site}
mark: {mark}
at: 2036-02-11T10:30+01:00
by: Edda Blendrahmen
found: water on the sill board.
"""


def facts_file(site: str, by_mark: Mapping[str, Changes]) -> bytes:
    """Give the facts of a site's openings, each the conforming record with changes."""
    judged = [_judged(mark, json.dumps(changes)) for mark, changes in by_mark.items()]
    whole = replace(judged[0], openings=tuple(one.openings[0] for one in judged))
    return facts_json(whole).replace(b'"alder-yard"', f'"{site}"'.encode())


@cache
def _judged(mark: str, changes: str) -> JudgedSite:
    return judging.site({mark: json.loads(changes)})


def file_site(archive: Archive, site: str, by_mark: Mapping[str, Changes], pack: bytes = b"%PDF") -> None:
    """File a version of a site with one pack."""
    archives.add(
        archive,
        {"facts.json": facts_file(site, by_mark), f"packs/{site}.pdf": pack},
        site,
        keep=("afterwards/",),
    )


def join_claim(archive: Archive, site: str, mark: str, id_: str = "claim-1") -> None:
    """Join a claim to an opening."""
    claim = CLAIM.format(id=id_, site=site, mark=mark).encode()
    archive.add(
        site, {f"afterwards/{id_}.yaml": claim}, user="ada", message="claim", keep=("",),
        created=datetime.fromisoformat("2036-03-01T09:00+01:00"),
    )  # fmt: skip


def new_archive(folder: Path) -> Archive:
    """Make an empty archive."""
    return Archive.create(folder / "archive")
