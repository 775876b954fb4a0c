"""Archives for tests: small versions, and the outside validator's word on a whole store."""

import logging
from collections.abc import Mapping
from datetime import datetime
from pathlib import Path

from ocfl.storage_root import StorageRoot
from ocfl.validator import Validator

from revealbook.archive.site_object import Source
from revealbook.archive.store import Archive, Filed

WHEN = datetime.fromisoformat("2026-12-01T09:00:00+01:00")
FIRST = {"site.yaml": b"id: s\n", "packs/s.pdf": b"%PDF one", "openings/W 1.yaml": b"mark: W 1\n"}
SECOND = {**FIRST, "packs/s.pdf": b"%PDF two"}


def add(
    archive: Archive, files: Mapping[str, Source], site: str = "s", *, keep: tuple[str, ...] = ()
) -> Filed:
    """Add a version with a message and user that do not matter."""
    return archive.add(site, files, user="ada", message="filed", created=WHEN, keep=keep)


def content_of(archive: Archive, site: str, version: int) -> dict[str, bytes]:
    """Read everything in a version."""
    return {path: place.read_bytes() for path, place in archive.contents(site, version).items()}


def outside_objections(archive: Path) -> list[str]:
    """Give what ocfl-py objects to in a store: its structure, every object, every digest; warnings too.

    Left aside are two things that should be, and need not: that a site's id is a URI (here it is its folder's
    name), and that users have an address.
    """
    logging.getLogger().setLevel(logging.ERROR)
    root = StorageRoot(root=str(archive / "store"))
    said = [] if root.validate(log_warnings=True, max_errors=9) else [root.log.status_str()]
    if root.good_objects != root.num_objects:  # its own verdict is about the structure alone
        said.append(f"{root.num_objects - root.good_objects} sites are not valid")
    told = [line for _, messages in root.errors for line in messages.splitlines()]
    return said + [line for line in told if "[W005]" not in line and "[W008]" not in line]


def outside_says_valid(archive: Path) -> bool:
    """Whether ocfl-py objects to nothing in a whole store."""
    return outside_objections(archive) == []


def outside_says_valid_object(archive: Path, site: str) -> bool:
    """Whether ocfl-py finds one site's folder valid, and the store's root beside it well-formed."""
    logging.getLogger().setLevel(logging.ERROR)
    root = StorageRoot(root=str(archive / "store")).validate(validate_objects=False, log_warnings=False)
    return bool(root and Validator(log_warnings=False).validate_object(str(archive / "store" / site)))
