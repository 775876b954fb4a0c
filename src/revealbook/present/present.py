"""The step: a judged site to the pages of a handover pack."""

from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass
from datetime import datetime
from typing import TYPE_CHECKING, Any

from pydantic import BaseModel

from revealbook.present import labels, left_out
from revealbook.present.evidence import Carried, evidence, fingerprint, short
from revealbook.present.nonconformities import Entry, entries, open_points
from revealbook.present.overview import Overview, overview
from revealbook.present.register import Row, register
from revealbook.present.sheet import Sheet, sheet
from revealbook.present.signing_block import signing_block
from revealbook.present.sources import Sources, sources
from revealbook.present.verdict import Count, Verdict, counts, of_site
from revealbook.present.words import N_, Words
from revealbook.records.site import Site
from revealbook.rules.finding import Outcome
from revealbook.rules.judged import JudgedSite

if TYPE_CHECKING:
    from revealbook.present.volumes import VolumeLine


@dataclass(frozen=True, slots=True)
class Pack:
    """What a handover pack shows.

    Attributes:
        site: the site file's model.
        facts: site, client, firm and so on, as (name, value).
        verdict: the verdict in one sentence.
        counts: openings by worst outcome.
        rule_counts: rules on openings by outcome.
        overview: the site at a glance.
        register: one row per opening.
        nonconformities: every nonconformity of every opening.
        to_do: openings with what was not shown or is undecided.
        conceded: nonconformities beside which a concession stands.
        left_out: what openings leave out, with the reason.
        sheets: one per opening.
        sources: rule set and bases.
        people: names with roles and firm.
        signing: who signs the pack, as (role, name, date).
        last_entry: the latest moment at which any record says that something happened.
        carried: what the pack carries inside.
        fingerprint: its fingerprint.
        contents: anchors and titles of its parts, and whether each is one of the openings.
        part: which part of the site it shows; empty for the whole.
        volumes: the volumes it is the index of.
    """

    site: Site
    facts: tuple[tuple[str, str], ...]
    verdict: Verdict
    counts: tuple[Count, ...]
    rule_counts: tuple[Count, ...]
    overview: Overview
    register: tuple[Row, ...]
    nonconformities: tuple[Entry, ...]
    to_do: tuple[tuple[str, tuple[Entry, ...]], ...]
    conceded: tuple[Entry, ...]
    left_out: tuple[left_out.Row, ...]
    sheets: tuple[Sheet, ...]
    sources: Sources
    people: tuple[tuple[str, str, str], ...]
    signing: tuple[tuple[str, str, str], ...]
    last_entry: datetime | None
    carried: tuple[Carried, ...]
    fingerprint: str
    contents: tuple[tuple[str, str, bool], ...]
    part: str = ""
    volumes: "tuple[VolumeLine, ...]" = ()

    @property
    def short_fingerprint(self) -> str:
        """The fingerprint's first digits, as people compare them."""
        return short(self.fingerprint)

    def identity(self, mark: str) -> str:
        """Give what the code of an opening's sheet says: its permanent name, and the pack it stands in."""
        return f"revealbook:{self.site.id}/{mark}#{self.fingerprint}"

    @property
    def tally(self) -> tuple[tuple[str, str, int], ...]:
        """Openings by outcome, as (outcome, word, number)."""
        return tuple((str(count.outcome), count.word, count.number) for count in self.counts)

    @property
    def inside(self) -> tuple[tuple[str, str, str], ...]:
        """What is embedded, as (path, digest, bytes)."""
        return tuple((file.path, file.digest, str(len(file.content))) for file in self.carried)


def present(judged: JudgedSite, words: Words, *, with_sheets: bool = True) -> Pack:
    """Give the pages of a site's handover pack; without sheets, those that an index shares with it."""
    site, openings = judged.site.site, judged.openings
    people = {person.id: person.name for person in site.people}
    breached = tuple(
        one for opening in openings for one in entries(opening, Outcome.DOES_NOT_CONFORM, words, people)
    )
    to_do = ((opening.mark, open_points(opening, words, people)) for opening in openings)
    sheets = tuple(sheet(opening, site, words) for opening in openings) if with_sheets else ()
    carried = evidence(judged)
    rules = sum((opening.counts for opening in judged.openings), Counter[Outcome]())
    return Pack(
        site=site,
        facts=tuple(_facts(site, words)),
        verdict=of_site(judged, words),
        counts=counts(Counter(opening.outcome for opening in judged.openings), words),
        rule_counts=counts(rules, words),
        overview=overview(judged, words),
        register=register(judged, words),
        nonconformities=breached,
        to_do=tuple((mark, points) for mark, points in to_do if points),
        conceded=tuple(one for one in breached if one.accepted),
        left_out=tuple(row for opening in openings for row in left_out.rows(opening, people, words)),
        sheets=sheets,
        sources=sources(judged.rule_set, words, site),
        people=tuple(_people(site, words)),
        signing=signing_block(judged, words),
        last_entry=max(
            (moment for one in judged.openings for moment in _moments(one.record.opening)), default=None
        ),
        carried=carried,
        fingerprint=fingerprint(carried),
        contents=tuple(_contents(sheets, words)),
    )


def _contents(sheets: tuple[Sheet, ...], words: Words) -> Iterator[tuple[str, str, bool]]:
    for anchor, title in (
        ("overview", N_("The site at a glance")),
        ("register", N_("Register of openings")),
        ("nonconformities", N_("Nonconformities")),
        ("to-do", N_("Still to be shown or decided")),
        ("concessions", N_("Concessions")),
        ("signatures", N_("Signatures")),
    ):
        yield anchor, words.say(title), False
    for number, page in enumerate(sheets, start=1):
        yield f"opening-{number}", words.say(N_("Opening {mark}"), mark=page.mark), True
    for anchor, title in (
        ("sources", N_("Rules in force and their bases")),
        ("people", N_("People")),
        ("inside", N_("Inside this file")),
    ):
        yield anchor, words.say(title), False


def _facts(site: Site, words: Words) -> Iterator[tuple[str, str]]:
    for label, value in (
        (N_("Project"), site.name),
        (N_("Place"), site.place),
        (N_("Client"), site.client),
        (N_("Installed by"), site.firm),
    ):
        if value:
            yield words.say(label), value


def _people(site: Site, words: Words) -> Iterator[tuple[str, str, str]]:
    for person in site.people:
        yield (
            person.name,
            words.listed([words.say(labels.ROLES[role]) for role in person.roles]),
            person.firm or "",
        )


def _moments(part: Any) -> Iterator[datetime]:
    """Give every moment that a record mentions, save those that lie ahead of it."""
    for key, value in part.__dict__.items():
        for item in value if isinstance(value, tuple) else (value,):
            if isinstance(item, datetime) and key != "until":
                yield item
            elif isinstance(item, BaseModel):
                yield from _moments(item)
