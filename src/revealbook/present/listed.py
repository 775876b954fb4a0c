"""What the page of an archive lists: openings with their details, sites with what is filed of them."""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date

from revealbook.rules.finding import Outcome


@dataclass(frozen=True, slots=True)
class Part:
    """A part of an opening's details.

    Attributes:
        heading: what it tells.
        lines: its lines, each of one cell (a list) or of several (a table whose first cells head its rows).
    """

    heading: str
    lines: tuple[tuple[str, ...], ...]


@dataclass(frozen=True, slots=True)
class ListedOpening:
    """An opening in the register.

    Attributes:
        site: id of its site.
        mark: its mark.
        building: its building as recorded; empty if it is not.
        floor: its floor as recorded; empty if it is not.
        place: building, floor, room and elevation in words.
        outcome: worst outcome of any rule.
        finished: day of the last work on it, if any was dated.
        later: claims and repairs in a few words; empty if there is none.
        fitters: who worked on it.
        batches: products with their batches.
        pages: where it stands in the packs: by version, the pack's name and the page.
        parts: its details.
    """

    site: str
    mark: str
    building: str
    floor: str
    place: str
    outcome: Outcome
    finished: date | None
    later: str
    fitters: tuple[str, ...]
    batches: tuple[tuple[str, str], ...]
    pages: Mapping[int, tuple[str, int]]
    parts: tuple[Part, ...]


@dataclass(frozen=True, slots=True)
class FiledPack:
    """A pack, with its address relative to the page; empty where it does not lie beside it."""

    name: str
    href: str


@dataclass(frozen=True, slots=True)
class FiledVersion:
    """One filing of a site: its number, what was filed when and by whom, the head of the chain, its packs."""

    number: int
    said: str
    head: str
    packs: tuple[FiledPack, ...]


@dataclass(frozen=True, slots=True)
class FiledSite:
    """A site: its id and name, what is filed of it, and what was joined to it later, in sentences."""

    id: str
    name: str
    versions: tuple[FiledVersion, ...]
    later: tuple[str, ...] = ()
