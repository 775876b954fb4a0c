"""What the page of an archive lists: openings with their details, sites with what is filed of them."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import date

from revealbook.present import labels
from revealbook.present.facts_record import Later, OpeningFacts
from revealbook.present.register import where, width_by_height
from revealbook.present.steps import WORK, step
from revealbook.present.timeline import named, weather
from revealbook.present.words import N_, Words
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
    """A site: its id and name, what is filed of it, and its claims and repairs, in sentences."""

    id: str
    name: str
    versions: tuple[FiledVersion, ...]
    later: tuple[str, ...] = ()


_NO_PAGES: Mapping[int, tuple[str, int]] = {}
_LATER = {"claim": N_("claim"), "repair": N_("repair")}


def listed_opening(
    facts: OpeningFacts,
    words: Words,
    later: Sequence[Later] = (),
    pages: Mapping[int, tuple[str, int]] = _NO_PAGES,
) -> ListedOpening:
    """Give an opening as the register lists it.

    Its sentences of nonconformities are those that were filed, in the language of its site's packs.

    Args:
        facts: what is filed of it.
        words: the reader's language.
        later: claims and repairs that joined it.
        pages: where it stands in the packs.
    """
    batches = tuple(dict.fromkeys(_batches(facts, words)))
    parts = (
        Part(words.say(N_("Window")), tuple(_window(facts, words))),
        Part(words.say(N_("Products and batches")), batches),
        Part(words.say(N_("Fixings")), tuple(_fixings(facts, words))),
        Part(words.say(N_("Events")), tuple(_events(facts, words))),
        Part(words.say(N_("Nonconformities")), tuple((said,) for said in facts.nonconformities)),
        Part(words.say(N_("Concessions")), tuple(_concessions(facts, words))),
        Part(words.say(N_("Claims and repairs")), tuple(_later(later, words))),
        Part(words.say(N_("Notes")), tuple((said,) for said in facts.texts)),
    )
    return ListedOpening(
        site=facts.site,
        mark=facts.mark,
        building=facts.building or "",
        floor=facts.floor or "",
        place=where(facts.building, facts.floor, facts.room, facts.elevation, words),
        outcome=facts.outcome,
        finished=facts.last,
        later=_how_many(later, words),
        fitters=tuple(dict.fromkeys(one.name for one in facts.people if WORK.intersection(one.did))),
        batches=batches,
        pages=pages,
        parts=tuple(part for part in parts if part.lines),
    )


def _window(facts: OpeningFacts, words: Words) -> Iterator[tuple[str, ...]]:
    missing = words.say(N_("not recorded"))
    yield words.say(N_("serial number")), facts.serial or missing
    yield words.say(N_("nominal size")), width_by_height(facts.width_mm, facts.height_mm, words)
    yield words.say(N_("fixed by")), labels.choice(facts.fixed_by, words) if facts.fixed_by else missing


def _batches(facts: OpeningFacts, words: Words) -> Iterator[tuple[str, str]]:
    """Give products with their batches, in the order of the work; profiles come without batches."""
    missing = words.say(N_("not recorded"))
    for used in facts.products:
        if used.batch or not used.use.endswith("profile"):
            yield used.name or used.id or missing, used.batch or missing


def _fixings(facts: OpeningFacts, words: Words) -> Iterator[tuple[str, ...]]:
    for used in facts.fixings:
        name = used.name or used.id or words.say(N_("not recorded"))
        number = words.count(used.number, N_("{number} fixing"), N_("{number} fixings"))
        yield labels.key(used.what, words), name, number if used.number else ""


def _events(facts: OpeningFacts, words: Words) -> Iterator[tuple[str, ...]]:
    people = {one.id: one.name for one in facts.people}
    products = {used.id: used.name or used.id for used in facts.products}
    for event in facts.events:
        air, humidity, surface, _ = weather(event, words)
        what = named(step(event.step, words), products.get(event.product, event.product), event.batch, words)
        surface = words.say(N_("surface {value}"), value=surface) if surface else ""
        read = ", ".join(filter(None, (air, humidity, surface)))
        yield words.moment(event.at), what, people.get(event.by or "", event.by or ""), read


def _concessions(facts: OpeningFacts, words: Words) -> Iterator[tuple[str, ...]]:
    for one in facts.concessions:
        yield one.rule, one.by or words.say(N_("not recorded")), one.reason


def _later(later: Sequence[Later], words: Words) -> Iterator[tuple[str, ...]]:
    for one in later:
        yield one.day, f"{words.say(_LATER.get(one.kind, one.kind))} {one.id}", one.said


def _how_many(later: Sequence[Later], words: Words) -> str:
    """Say how many claims and repairs there are; empty if there is none."""
    claims, repairs = (sum(one.kind == kind for one in later) for kind in _LATER)
    said = (
        words.count(claims, N_("{number} claim"), N_("{number} claims")) if claims else "",
        words.count(repairs, N_("{number} repair"), N_("{number} repairs")) if repairs else "",
    )
    return ", ".join(filter(None, said))
