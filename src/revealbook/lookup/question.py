"""What is asked of the index, and what it answers."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date
from typing import NamedTuple

from revealbook.present.facts_record import Later
from revealbook.rules.finding import Outcome


@dataclass(frozen=True, slots=True)
class Question:
    """What openings are looked for; an opening must satisfy everything that is asked.

    Attributes:
        words: free words; building and floor are understood among them, the others are looked for in
            everything that was written of an opening.
        mark: its mark.
        serial: serial number of its window.
        place: building, floor and room in words.
        product: name or id of a product used, or a word of its name.
        batch: a batch used; with `product`, of that product.
        fixing: name or id of a fixing used, or a word of its name.
        person: somebody named in its record, by name, id or a word of the name.
        since: work was done on this day or later.
        until: work was done on this day or earlier.
        rule: a rule that does not conform, is undecided or was not shown.
        outcome: its outcome; with `rule`, that of the rule.
        site: id of its site.
        all_versions: ask all filed versions, not only what was filed last of each opening.
    """

    words: str = ""
    mark: str | None = None
    serial: str | None = None
    place: str | None = None
    product: str | None = None
    batch: str | None = None
    fixing: str | None = None
    person: str | None = None
    since: date | None = None
    until: date | None = None
    rule: str | None = None
    outcome: Outcome | None = None
    site: str | None = None
    all_versions: bool = False


class Found(NamedTuple):
    """An opening that was found.

    Attributes:
        id: its number in the index.
        site: its site.
        mark: its mark.
        serial: serial number of its window; empty if not recorded, as are building, floor, room, elevation.
        building: its building.
        floor: its floor.
        room: the room behind it.
        elevation: which way it faces.
        outcome: the worst outcome of any rule.
        first: first day of work; empty if nothing is dated.
        last: last day of work.
        since: the first version in which it was filed like this.
        until: the last one.
        latest: whether nothing later was filed of it.
        pack: its pack in version `until`.
        later: claims and repairs.
        terms: numbers of its terms as JSON.
    """

    id: int
    site: str
    mark: str
    serial: str
    building: str
    floor: str
    room: str
    elevation: str
    outcome: Outcome
    first: str
    last: str
    since: int
    until: int
    latest: bool
    pack: str
    later: tuple[Later, ...]
    terms: str


@dataclass(frozen=True, slots=True)
class Unknown:
    """Something asked for that nothing filed has.

    Attributes:
        what: which part of the question: `word`, `mark`, `batch` and so on.
        asked: as it was asked.
        nearest: the known name most like it, if one is.
        left_out: whether the answer is to the question without it.
    """

    what: str
    asked: str
    nearest: str | None
    left_out: bool = False


@dataclass(frozen=True, slots=True)
class Answer:
    """What was found.

    Attributes:
        found: openings, in order of site and mark.
        number: how many there are; more than `found` if there were too many to give.
        unknown: what nothing filed has.
        understood: building and floor as they were understood from words.
    """

    found: tuple[Found, ...]
    number: int
    unknown: tuple[Unknown, ...] = ()
    understood: Mapping[str, str] = field(default_factory=dict)
