"""The work in facts: products, fixings, dated events, people, and what was written freely."""

from collections.abc import Iterable, Iterator
from datetime import datetime
from itertools import chain
from typing import Any, NamedTuple

from revealbook.present.facts_record import DatedEvent, PersonDid, UsedFixing, UsedProduct
from revealbook.records.applications import applications
from revealbook.records.bonding import Batch
from revealbook.records.fixing import FixingSet
from revealbook.records.opening import Opening
from revealbook.records.part import photos_named
from revealbook.records.products import Products
from revealbook.records.site import Person, Site

_PIECES = ("bottom", "left", "right", "top")
_READINGS = ("product", "air_c", "surface_c", "rh_pct")
_SECTIONS = ("survey", "frame", "supports", "plinth", "window", "seals")


class Done(NamedTuple):
    """Something done: what, when and by whom as far as recorded, and the model that holds its readings."""

    step: str
    at: datetime | None
    by: str | None
    part: Any = None
    batch: str | None = None


def products(opening: Opening, site: Site) -> tuple[UsedProduct, ...]:
    """Give the products that were used, once each, in the order of the work."""
    names = _names(site)
    used = (
        UsedProduct(use=use, id=id_, name=names.get((kind, id_), ""), batch=batch)
        for use, kind, id_, batch in _products(opening)
        if id_ or batch
    )
    return tuple(dict.fromkeys(used))


def _products(opening: Opening) -> Iterator[tuple[str, str, str | None, str | None]]:
    frame, plinth, seals = opening.frame, opening.plinth, opening.seals
    for side in _PIECES:
        piece = getattr(frame.pieces, side) if frame and frame.pieces else None
        if piece is not None:
            yield "frame profile", "profiles", piece.profile, None
    for one in applications(opening):
        for batch in one.recorded.batches or (Batch(),):
            yield "adhesive", "adhesives", one.recorded.product, batch.number
    if plinth:
        yield "plinth profile", "profiles", plinth.product, None
    for event in (seals.events if seals else None) or ():
        if event.step != "trim":
            kind = "foams" if event.step == "foam" else "tapes"
            yield event.step or "seal", kind, event.product, event.batch


def fixings(opening: Opening, site: Site) -> tuple[UsedFixing, ...]:
    """Give the kinds of fixings by what they hold, with the number of recorded positions."""
    names, number = _names(site), dict[tuple[str, str | None], int]()
    for what, used in _fixings(opening):
        key = what, used.product
        number[key] = number.get(key, 0) + len(used.at_mm or ())
    return tuple(
        UsedFixing(what=what, id=id_, name=names.get(("fixings", id_), ""), number=count)
        for (what, id_), count in number.items()
    )


def _fixings(opening: Opening) -> Iterator[tuple[str, FixingSet]]:
    pieces = opening.frame.pieces if opening.frame else None
    for side in _PIECES:
        piece = getattr(pieces, side) if pieces else None
        yield from (("frame", one) for one in (piece.fixings if piece else None) or ())
    placed = (opening.supports.placed if opening.supports else None) or ()
    brackets = (opening.plinth.brackets if opening.plinth else None) or ()
    yield from (("supports", one.fixings) for one in placed if one.fixings)
    yield from (("brackets", one.fixings) for one in brackets if one.fixings)
    yield from (("window", one) for one in (opening.window.fixings if opening.window else None) or ())


def _names(site: Site) -> dict[tuple[str, str | None], str]:
    return {
        (kind, product.id): product.name or ""
        for kind in Products.model_fields
        for product in getattr(site.products, kind)
    }


def events(opening: Opening) -> tuple[DatedEvent, ...]:
    """Give what was done when, in order of time."""
    dated = [
        DatedEvent(step=one.step, at=one.at, by=one.by, batch=one.batch, **_readings(one.part))
        for one in _done(opening)
        if one.at is not None
    ]
    return tuple(sorted(dated, key=lambda event: event.at))


def _readings(part: Any) -> dict[str, Any]:
    return {key: getattr(part, key, None) for key in _READINGS} if part else {}


def people(opening: Opening, site: Site) -> tuple[PersonDid, ...]:
    """Give who did what, in the order of the work."""
    known, did = {person.id: person for person in site.people}, dict[str, list[str]]()
    for one in _done(opening):
        if one.by:
            did.setdefault(one.by, []).append(one.step)
    return tuple(_person(id_, tuple(dict.fromkeys(steps)), known.get(id_)) for id_, steps in did.items())


def _person(id_: str, did: tuple[str, ...], person: Person | None) -> PersonDid:
    name, roles = (person.name, person.roles) if person else (id_, ())
    return PersonDid(id=id_, name=name, roles=roles, did=did)


def _done(opening: Opening) -> Iterator[Done]:
    return chain(_work(opening), _seals(opening), _looked(opening))


def _work(opening: Opening) -> Iterator[Done]:
    for name in _SECTIONS:
        section = getattr(opening, name)
        if section is not None:
            yield Done(name, section.at, section.by)
    for one in applications(opening):
        yield Done("bonding", one.recorded.laid_at, one.by, one.recorded, one.batch)
        yield Done("pressed on", one.recorded.pressed_at, one.by)
    if plinth := opening.plinth:
        yield Done("plinth fitted", plinth.fitted_at, plinth.by)
    if window := opening.window:
        yield Done("window set", window.set_at, window.by)
        yield Done("window secured", window.secured_at, window.by)


def _seals(opening: Opening) -> Iterator[Done]:
    seals, tests = opening.seals, opening.tests
    for event in (seals.events if seals else None) or ():
        yield Done(
            event.step or "seal", event.at, event.by or (seals.by if seals else None), event, event.batch
        )
    for name in ("air_leakage", "water_spray", "thermometry"):
        test = getattr(tests, name) if tests else None
        if test is not None:
            yield Done(name.replace("_", " "), test.at, test.by)


def _looked(opening: Opening) -> Iterator[Done]:
    for point in opening.hold_points or ():
        yield Done(f"hold point {point.name}", point.at, point.by)
    for wrong in opening.nonconformities:
        yield Done(f"found {wrong.id}", wrong.found_at, wrong.found_by)
        if done := wrong.correction:
            yield Done(f"corrected {wrong.id}", done.at, done.by)
            yield Done(f"checked {wrong.id}", done.checked_at, done.checked_by)
    for conceded in opening.concessions:
        yield Done(f"concession {conceded.rule}", conceded.at, conceded.accepted_by)
    for sign in opening.sign_offs or ():
        yield Done(f"signed as {sign.role}", sign.at, sign.by)
    if covering := opening.covering:
        yield Done("covered", covering.at, covering.by)


def texts(opening: Opening) -> tuple[str, ...]:
    """Give what somebody wrote freely, once each: notes, what photographs show, what was wrong and done."""
    wrong = opening.nonconformities
    written: Iterable[str | None] = chain(
        (getattr(getattr(opening, name), "note", None) for name in ("opening", *_SECTIONS)),
        (point.note for point in opening.hold_points or ()),
        (one.what for one in wrong),
        (one.correction.what for one in wrong if one.correction),
        (one.recorded.note for one in applications(opening)),
        (one.covers for one in opening.concessions),
        (named.photo.shows for named in photos_named(opening)),
    )
    return tuple(dict.fromkeys(text for text in written if text))
