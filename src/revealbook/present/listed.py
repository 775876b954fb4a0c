"""What the page of an archive lists: openings with their details, sites with what is filed of them."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from datetime import date

from revealbook.present.nonconformities import entries
from revealbook.present.register import place
from revealbook.present.timeline import Event, events
from revealbook.present.words import N_, Words
from revealbook.records.frame import Bonding
from revealbook.records.opening import Opening
from revealbook.records.seals import SealEvent
from revealbook.records.site import Site
from revealbook.rules.finding import Outcome
from revealbook.rules.judged import JudgedOpening


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


_NO_PAGES: Mapping[int, tuple[str, int]] = {}
_WORK = ("survey", "frame", "supports", "plinth", "window", "seals")
"""Sections of a record that tell of work, each by one person."""


def listed_opening(
    judged: JudgedOpening, site: Site, words: Words, pages: Mapping[int, tuple[str, int]] = _NO_PAGES
) -> ListedOpening:
    """Give an opening as the register lists it.

    Args:
        judged: the opening.
        site: its site.
        words: the reader's language.
        pages: where it stands in the packs.
    """
    opening, identity = judged.record.opening, judged.record.opening.opening
    people = {person.id: person.name for person in site.people}
    dated = [event for event in events(opening, words, people) if not event.only_weather]
    fitters = tuple(dict.fromkeys(people.get(who, who) for who in _fitters(opening)))
    batches = tuple(dict.fromkeys(_batches(opening, site, words)))
    parts = (
        Part(words.say(N_("Products and batches")), batches),
        Part(words.say(N_("Events")), tuple(_event(event) for event in dated)),
        Part(words.say(N_("Nonconformities")), tuple(_nonconformities(judged, words, people))),
        Part(words.say(N_("Concessions")), tuple(_concessions(opening, words, people))),
    )
    return ListedOpening(
        site=site.id,
        mark=judged.mark,
        building=identity.building or "",
        floor=identity.floor or "",
        place=place(opening, words),
        outcome=judged.outcome,
        finished=max((event.at.date() for event in dated), default=None),
        later="",
        fitters=fitters,
        batches=batches,
        pages=pages,
        parts=tuple(part for part in parts if part.lines),
    )


def _fitters(opening: Opening) -> Iterator[str]:
    """Give who did the work, in the order of the work."""
    for name in _WORK:
        section = getattr(opening, name)
        if section is not None and section.by:
            yield section.by
    for event in (opening.seals.events if opening.seals else None) or ():
        if event.by:
            yield event.by


def _batches(opening: Opening, site: Site, words: Words) -> Iterator[tuple[str, str]]:
    """Give products with their batches, in the order of the work."""
    names = {
        (kind, product.id): product.name or product.id
        for kind in type(site.products).model_fields
        for product in getattr(site.products, kind)
    }
    missing = words.say(N_("not recorded"))
    used: list[tuple[str, Bonding | SealEvent | None]] = [
        ("adhesives", opening.frame.bonding if opening.frame else None)
    ]
    sealed = (opening.seals.events if opening.seals else None) or ()
    used += [("foams" if event.step == "foam" else "tapes", event) for event in sealed]
    for kind, part in used:
        if part is not None and (part.product or part.batch):
            product = part.product or missing
            yield names.get((kind, product), product), part.batch or missing


def _event(event: Event) -> tuple[str, ...]:
    air, humidity, _, _ = event.weather
    return event.when, event.what, event.who, ", ".join(filter(None, (air, humidity)))


def _nonconformities(
    judged: JudgedOpening, words: Words, people: dict[str, str]
) -> Iterator[tuple[str, ...]]:
    for one in entries(judged, Outcome.DOES_NOT_CONFORM, words, people):
        yield one.number, one.requirement, "; ".join(one.grouped)


def _concessions(opening: Opening, words: Words, people: dict[str, str]) -> Iterator[tuple[str, ...]]:
    for one in opening.concessions:
        by = (
            people.get(one.accepted_by, one.accepted_by) if one.accepted_by else words.say(N_("not recorded"))
        )
        yield one.rule, by, one.reason or ""
