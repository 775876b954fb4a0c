"""A large site in volumes: which openings stand together, and the index that names every volume."""

import json
import re
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from typing import Literal

from revealbook.present.evidence import Carried, fingerprint
from revealbook.present.present import Pack
from revealbook.present.words import N_, Words
from revealbook.rules.judged import JudgedOpening, JudgedSite

By = Literal["building", "storey"]
VOLUMES_FILE = "volumes.json"


@dataclass(frozen=True, slots=True)
class Group:
    """Openings that make a volume.

    Attributes:
        name: the volume's name for file names, as `building-B-floor-2`.
        title: the same for readers.
        judged: the site with these openings only.
    """

    name: str
    title: str
    judged: JudgedSite


@dataclass(frozen=True, slots=True)
class VolumeLine:
    """A volume as the index names it."""

    title: str
    file: str
    openings: int
    pages: int
    fingerprint: str
    sha256: str


_KINDS = {"title": str, "file": str, "openings": int, "pages": int, "fingerprint": str, "sha256": str}


def groups(site: JudgedSite, by: By, words: Words) -> tuple[Group, ...]:
    """Divide a site's openings by building or by storey, in the order of their names, 2 before 10."""
    found: dict[tuple[str, ...], list[JudgedOpening]] = {}
    for opening in site.openings:
        identity = opening.record.opening.opening
        key = (identity.building or "", *((identity.floor or "",) if by == "storey" else ()))
        found.setdefault(key, []).append(opening)
    keys = sorted(found, key=lambda key: ([_counting(part) for part in key], key))
    return tuple(
        Group(name, _title(key, words), replace(site, openings=tuple(found[key])))
        for key, name in zip(keys, _apart(map(_name, keys)), strict=True)
    )


def _counting(text: str) -> list[tuple[int, str]]:
    return [(int(part), "") if part.isdecimal() else (0, part) for part in re.split(r"(\d+)", text)]


def _name(key: tuple[str, ...]) -> str:
    parts = [f"{kind}-{value or 'unnamed'}" for kind, value in zip(("building", "floor"), key, strict=False)]
    return "".join(sign if sign.isalnum() or sign in "-." else "-" for sign in "-".join(parts))


def _apart(names: Iterable[str]) -> Iterator[str]:
    """Number names that a file system may take for one another, so that no volume overwrites another."""
    taken: set[str] = set()
    for name in names:
        tried = (name, *(f"{name}-{number}" for number in range(2, len(taken) + 3)))
        free = next(one for one in tried if one.casefold() not in taken)
        taken.add(free.casefold())
        yield free


def _title(key: tuple[str, ...], words: Words) -> str:
    building = words.say(N_("building {name}"), name=key[0] or "–")
    return building if len(key) == 1 else f"{building}, {words.say(N_('floor {name}'), name=key[1] or '–')}"


def index_of(pack: Pack, lines: Sequence[VolumeLine], words: Words) -> Pack:
    """Give the index of a site in volumes: the pack without its sheets, naming every volume.

    Args:
        pack: the whole site as one pack, with or without its sheets.
        lines: its volumes.
        words: the reader's language.
    """
    plain = [{key: getattr(line, key) for key in line.__dataclass_fields__} for line in lines]
    listed = Carried(
        VOLUMES_FILE, (json.dumps(plain, ensure_ascii=False, indent=1) + "\n").encode(), "volumes"
    )
    carried = tuple(sorted((*pack.carried, listed), key=lambda file: file.path))
    parts = [entry for entry in pack.contents if not entry[2]]
    back = next(number for number, (anchor, *_) in enumerate(parts) if anchor == "sources")
    parts.insert(back, ("volumes", words.say(N_("Volumes")), False))
    return replace(
        pack,
        sheets=(),
        volumes=tuple(lines),
        carried=carried,
        contents=tuple(parts),
        fingerprint=fingerprint(carried),
    )


def read_lines(content: bytes) -> tuple[VolumeLine, ...]:
    """Read the volumes that an index carries.

    Raises:
        ValueError: it is no list of volumes.
    """
    try:
        lines = tuple(VolumeLine(**line) for line in json.loads(content))
    except TypeError as error:
        raise ValueError("this is no list of volumes") from error
    if any(type(getattr(line, key)) is not kind for line in lines for key, kind in _KINDS.items()):
        raise ValueError("a volume is not told in text and numbers")
    return lines
