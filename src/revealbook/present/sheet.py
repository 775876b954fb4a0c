"""The sheet of one opening: every rule by stage, products and batches, events, photographs, sign-offs."""

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date

from revealbook.measures.reading import Path
from revealbook.present import labels
from revealbook.present.conditions import ConditionsChart, conditions_chart
from revealbook.present.drawing import elevation
from revealbook.present.drawing_input import elevation_input, found_in
from revealbook.present.drawing_section import section, section_input
from revealbook.present.drawing_sheet import Drawing
from revealbook.present.nonconformities import Entry, entries
from revealbook.present.register import place, size
from revealbook.present.stages import Stage, stages
from revealbook.present.timechart import TimeChart, time_chart
from revealbook.present.timeline import Event, events
from revealbook.present.verdict import Count, Verdict, counts, of_opening
from revealbook.present.which_opening import facts
from revealbook.present.words import N_, Words
from revealbook.records.applications import applications
from revealbook.records.bonding import Batch
from revealbook.records.opening import Opening
from revealbook.records.part import Photo, parts, photos_named
from revealbook.records.site import Site
from revealbook.rules.finding import Outcome
from revealbook.rules.judged import JudgedOpening


@dataclass(frozen=True, slots=True)
class Picture:
    """A photograph of the opening and what it shows."""

    file: str
    caption: str


@dataclass(frozen=True, slots=True)
class Sheet:
    """What the sheet of an opening shows."""

    mark: str
    place: str
    size: str
    file: str
    verdict: Verdict
    counts: tuple[Count, ...]
    facts: tuple[tuple[str, str], ...]
    drawing: Drawing | None
    section: Drawing
    nonconformities: tuple[Entry, ...]
    stages: tuple[Stage, ...]
    events: tuple[Event, ...]
    time_chart: TimeChart | None
    conditions: ConditionsChart | None
    products: tuple[tuple[str, str, str, str], ...]
    pictures: tuple[Picture, ...]
    sign_offs: tuple[tuple[str, str, str], ...]
    notes: tuple[tuple[str, str], ...]


def sheet(judged: JudgedOpening, site: Site, words: Words) -> Sheet:
    """Give the sheet of one opening."""
    opening = judged.record.opening
    people = {person.id: person.name for person in site.people}
    breached = entries(judged, Outcome.DOES_NOT_CONFORM, words, people)
    numbers = {one.rule_id: one.number for one in breached}
    dated = events(opening, words, people)
    found = found_in(judged)
    shown = elevation_input(opening, site, found)
    return Sheet(
        mark=judged.mark,
        place=place(opening, words),
        size=size(opening, words),
        file=judged.record.sheet.file,
        verdict=of_opening(judged, words),
        counts=counts(judged.counts, words),
        facts=tuple(facts(opening, words)),
        drawing=elevation(shown, words) if shown else None,
        section=section(section_input(opening, found), words),
        nonconformities=breached,
        stages=stages(judged, numbers, words, people),
        events=dated,
        time_chart=time_chart(judged, dated, words),
        conditions=conditions_chart(judged, words),
        products=tuple(_products(opening, site, words)),
        pictures=tuple(_pictures(opening)),
        sign_offs=tuple(_sign_offs(opening, words, people)),
        notes=tuple(_notes(opening, words)),
    )


def _products(opening: Opening, site: Site, words: Words) -> Iterator[tuple[str, str, str, str]]:
    names = {
        (kind, product.id): product.name or product.id
        for kind in type(site.products).model_fields
        for product in getattr(site.products, kind)
    }
    used: list[tuple[str, str, str | None, str | None, date | None]] = [
        (words.say(N_("adhesive")), "adhesives", one.recorded.product, batch.number, batch.expires)
        for one in applications(opening)
        for batch in one.recorded.batches or (Batch(),)
    ]
    used += [
        (
            words.say(labels.PARTS[event.step]),
            "foams" if event.step == "foam" else "tapes",
            event.product,
            event.batch,
            event.expires,
        )
        for event in (opening.seals.events if opening.seals else None) or ()
        if event.step and event.step != "trim"
    ]
    missing = words.say(N_("not recorded"))
    for use, kind, id_, batch, expires in dict.fromkeys(used):
        product = names.get((kind, id_ or ""), id_ or missing)
        yield use, product, batch or missing, words.day(expires) if expires else missing
    for product in sorted(_fixings(opening)):
        yield words.say(N_("fixing")), names.get(("fixings", product), product), "", ""


def _fixings(opening: Opening) -> set[str]:
    return {
        part.product
        for _, part in parts(opening)
        if hasattr(part, "product") and hasattr(part, "embedment_mm") and part.product
    }


def pictures_of(opening: Opening) -> dict[Path, Photo]:
    """Give every photograph that a record names with its place there, once each, in the record's order."""
    found: dict[str, tuple[Path, Photo]] = {}
    for named in photos_named(opening):
        found.setdefault(named.photo.file, named)
    return dict(found.values())


def _pictures(opening: Opening) -> Iterator[Picture]:
    for photo in pictures_of(opening).values():
        yield Picture(photo.file, photo.shows or photo.file)


def _sign_offs(opening: Opening, words: Words, people: dict[str, str]) -> Iterator[tuple[str, str, str]]:
    for sign in opening.sign_offs or ():
        name = people.get(sign.by, sign.by) if sign.by else ""
        yield words.say(labels.ROLES[sign.role]), name, words.moment(sign.at) if sign.at else ""


def _notes(opening: Opening, words: Words) -> Iterator[tuple[str, str]]:
    for name in ("opening", "survey", "frame", "supports", "plinth", "window", "seals"):
        part = getattr(opening, name)
        if part is not None and part.note:
            yield words.say(labels.STAGES.get(name, N_("Opening"))), part.note
