"""Names in a record that must be known: people, products, instruments, photographs, marks."""

from collections.abc import Iterable, Iterator
from pathlib import Path

from pydantic import BaseModel

from revealbook.records.bonding import Application
from revealbook.records.fixing import FixingSet
from revealbook.records.frame import FramePiece
from revealbook.records.part import Loc, Photo, parts
from revealbook.records.record import Record
from revealbook.records.seals import SealEvent
from revealbook.records.site import Site
from revealbook.records.supports import Plinth
from revealbook.source.nearest import nearest
from revealbook.source.problem import Problem

_PEOPLE_KEYS = frozenset({"by", "found_by", "checked_by", "accepted_by"})


def unknown_references(record: Record, site: Site, photos: frozenset[str] | None) -> Iterator[Problem]:
    """Give a problem for every name in the record that nothing stands behind.

    Args:
        record: the opening's record.
        site: the site it belongs to.
        photos: files below photos/, or None to leave photographs unchecked.
    """
    known = _names(site)
    for loc, kind, name in _references(record.opening):
        if kind == "photo":
            if photos is not None and name not in photos:
                yield Problem(
                    record.sheet.place(loc), "photo_missing", {"file": name, "nearest": nearest(name, photos)}
                )
        elif name not in known[kind]:
            facts = {"name": name, "kind": kind, "nearest": nearest(name, known[kind]), "known": known[kind]}
            yield Problem(record.sheet.place(loc), "unknown_name", facts)
    stem = Path(record.sheet.file).stem
    if stem != record.opening.mark:
        facts = {"mark": record.opening.mark, "stem": stem}
        yield Problem(record.sheet.place(("opening", "mark")), "mark_not_file_name", facts)


def _names(site: Site) -> dict[str, tuple[str, ...]]:
    products = site.products
    return {
        "people": _ids(site.people),
        "instruments": _ids(site.instruments),
        "adhesives": _ids(products.adhesives),
        "fixings": _ids(products.fixings),
        "profiles": _ids(products.profiles),
        "tapes": _ids(products.tapes),
        "foams": _ids(products.foams),
        "tapes or foams": _ids((*products.tapes, *products.foams)),
    }


def _ids(things: Iterable[object]) -> tuple[str, ...]:
    return tuple(str(thing.id) for thing in things)  # type: ignore[attr-defined]


def _references(opening: BaseModel) -> Iterator[tuple[Loc, str, str]]:
    """Give (path, kind, name) for all in a record that points elsewhere."""
    for loc, part in parts(opening):
        for key, value in part.__dict__.items():
            if isinstance(value, str) and (kind := _kind_of_name(part, key)):
                yield (*loc, key), kind, value
            elif key == "instruments" and isinstance(value, tuple):
                names = enumerate(value)
                yield from (((*loc, key, number), "instruments", str(name)) for number, name in names)


def _kind_of_name(part: BaseModel, key: str) -> str | None:
    """Tell what the text under `key` names: a person, a product of some kind, a photograph, or nothing."""
    if key in _PEOPLE_KEYS:
        return "people"
    if key == "file" and isinstance(part, Photo):
        return "photo"
    return _kind_of_product(part, key)


def _kind_of_product(part: BaseModel, key: str) -> str | None:
    if isinstance(part, FramePiece) and key == "profile":
        return "profiles"
    if key != "product":
        return None
    if isinstance(part, SealEvent):
        return "tapes or foams" if part.step is None else "foams" if part.step == "foam" else "tapes"
    kinds: dict[type[BaseModel], str] = {FixingSet: "fixings", Application: "adhesives", Plinth: "profiles"}
    return next((kind for model, kind in kinds.items() if isinstance(part, model)), None)
