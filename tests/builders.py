"""Records built from plain dicts, as YAML would give them."""

from collections.abc import Iterable, Mapping
from copy import deepcopy
from functools import cache
from pathlib import Path
from typing import Any

from revealbook.measures.catalogue import CATALOGUE
from revealbook.measures.method import Method
from revealbook.measures.reading import Missing, Outcome, Reading
from revealbook.measures.work import Surroundings, Work
from revealbook.records.opening import Opening
from revealbook.records.site import Site
from revealbook.source.read import Document, read

CONFORMING = Path(__file__).parent / "conforming"
SITE: dict[str, Any] = {"id": "s", "name": "S", "rules": {"set": "common-practice", "edition": "2026-12"}}


@cache
def _read(file: str) -> Any:
    document = read(CONFORMING / file, file)
    assert isinstance(document, Document), document
    return document.data


def full_opening() -> Any:
    """Give the conforming record as plain data, free to be changed."""
    return deepcopy(_read("openings/W-1.01.yaml"))


def full_site() -> Any:
    """Give the conforming site file as plain data, free to be changed."""
    return deepcopy(_read("site.yaml"))


def bonded(**keys: Any) -> list[dict[str, Any]]:
    """Make `frame.bonding` of one application to all four pieces."""
    return [{"of": ["bottom", "left", "right", "top"], **keys}]


def build(
    opening: Mapping[str, Any] | None = None,
    site: Mapping[str, Any] | None = None,
    method: Method | None = None,
) -> Work:
    """Make the work of one opening; what every file needs is added."""
    record = Opening.model_validate({"opening": {"mark": "W-1"}} | dict(opening or {}))
    around = Site.model_validate(SITE | dict(site or {}))
    return Work(record, Surroundings.of(around, method or Method()))


def taken(work: Work, name: str) -> tuple[Outcome, ...]:
    """Take one measure of the catalogue."""
    return tuple(CATALOGUE[name].function(work))


def values(work: Work, name: str) -> dict[tuple[str, ...], Any]:
    """Give the values of a measure by subject; what is missing as text, `missing KEY at PATH`."""
    return {outcome.subject: _said(outcome) for outcome in taken(work, name)}


def only(outcomes: Iterable[Outcome]) -> Outcome:
    """Give the one outcome of a measure that has exactly one."""
    (outcome,) = outcomes
    return outcome


def value(work: Work, name: str) -> Any:
    """Give the value of a measure that has exactly one outcome."""
    (outcome,) = taken(work, name)
    return _said(outcome)


def reading(work: Work, name: str) -> Reading:
    """Give the only reading of a measure."""
    (outcome,) = taken(work, name)
    assert isinstance(outcome, Reading), outcome
    return outcome


def details(outcome: Reading | Missing) -> dict[str, Any]:
    """Give a reading's details by name."""
    return {detail.name: detail.value for detail in outcome.details}


def _said(outcome: Outcome) -> Any:
    if isinstance(outcome, Reading):
        return outcome.value
    return f"missing {outcome.what} at {'.'.join(map(str, outcome.path))}"
