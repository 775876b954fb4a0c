"""Which keys of a record and site file no rule in force reads.

Found by looking: the measures that the rules need are taken of made-up records that state every key, and
every key that one of them takes is noted. A key that is shown or counted elsewhere is not read by a rule; why
that is right stands in unread.yaml.
"""

from collections.abc import Iterator, Mapping
from dataclasses import replace
from fnmatch import fnmatchcase
from functools import cache
from importlib.resources import files
from itertools import product
from typing import Any

from pydantic import BaseModel

from revealbook.measures.catalogue import CATALOGUE
from revealbook.measures.work import Surroundings, Work
from revealbook.records.example import Variant, full_example, inner_model
from revealbook.records.opening import Opening
from revealbook.records.products import Products
from revealbook.records.site import Site
from revealbook.rules.rule_set import RuleSet
from revealbook.rules.traced import Traced
from revealbook.source.read import Document, read_bytes

SITE = "site"
"""Stands before the keys of the site file."""
_TURNS = 4
_GOES_FIRST = ("sashes", "pressed_width_mm", "pressed_thickness_mm")
"""Keys beside which another is not looked at, in the order in which they go first."""


def unread(rule_set: RuleSet) -> tuple[str, ...]:
    """Give the path of every key of a record, then of the site file, that no rule in force reads.

    Parts of one kind side by side, as the four pieces, count as one: `frame.pieces.*.length_mm`.
    """
    seen = keys_read(rule_set)
    named = (*keys(Opening), *(f"{SITE}.{key}" for key in keys(Site)))
    return tuple(key for key in named if key not in seen)


def keys(model: type[BaseModel]) -> Iterator[str]:
    """Give the path of every key of a model that holds a value and no keys of its own."""
    yield from dict.fromkeys(_starred(model, path) for path in _leaves(model))


def keys_read(rule_set: RuleSet) -> frozenset[str]:
    """Give every key that the measures take which the rules in force need."""
    seen: set[str] = set()
    for variant in _variants():
        opening = Traced(Opening.model_validate(full_example(Opening, variant)), seen)
        site = Traced(Site.model_validate(full_example(Site, variant)), seen, SITE)
        around = Surroundings.of(site, rule_set.method)  # type: ignore[arg-type]
        found = {"products": _Whichever(around.products), "uncertainties": _Whichever(around.uncertainties)}
        listed = replace(around, **found)  # type: ignore[arg-type]
        work = Work(opening, listed)  # type: ignore[arg-type]
        for name in dict.fromkeys(one for held in rule_set.rules for one in held.rule.measures):
            for _ in CATALOGUE[name].function(work):
                pass
    starred = {_starred(Opening, path) for path in seen if not path.startswith(f"{SITE}.")}
    own = {path.removeprefix(f"{SITE}.") for path in seen if path.startswith(f"{SITE}.")}
    return frozenset(starred | {f"{SITE}.{_starred(Site, path)}" for path in own})


def reason(key: str) -> str:
    """Give the reason for which no rule needs to read a key; empty if none is stated."""
    return next((text for pattern, text in reasons().items() if fnmatchcase(key, pattern)), "")


@cache
def reasons() -> Mapping[str, str]:
    """Give the stated reasons by pattern of the keys' paths; the first that fits counts."""
    read = read_bytes((files("revealbook.rules") / "unread.yaml").read_bytes(), "unread.yaml")
    return dict(read.data) if isinstance(read, Document) else {}


def _variants() -> Iterator[Variant]:
    """Give examples with all words, each yes and no, and with a product's figure in the record and not."""
    figures = {name for kind in Products.model_fields for name in _fields(kind)}
    own = frozenset(figures & {path.rpartition(".")[2] for path in _leaves(Opening)})
    left_out = (
        frozenset[str](),
        *(own.union(_GOES_FIRST[:number]) for number in range(len(_GOES_FIRST) + 1)),
    )
    for turn, opposite, without in product(range(_TURNS), (False, True), left_out):
        yield Variant(turn, opposite, without)


def _fields(kind: str) -> tuple[str, ...]:
    inner, _ = inner_model(Products.model_fields[kind].annotation)
    return tuple(inner.model_fields) if inner else ()


class _Whichever(dict[Any, Any]):
    """Products or instruments of an example, in which whatever is named is found: the first of its kind."""

    def get(self, key: Any, default: Any = None) -> Any:
        kind = key[0] if isinstance(key, tuple) else None
        return next((one for name, one in self.items() if kind is None or name[0] == kind), default)

    def __missing__(self, key: Any) -> Any:
        return self.get(key)


def _leaves(model: type[BaseModel], path: str = "") -> Iterator[str]:
    for name, field in model.model_fields.items():
        here = f"{path}.{name}" if path else name
        inner, _ = inner_model(field.annotation)
        if inner is None:
            yield here
        else:
            yield from _leaves(inner, here)


def _starred(model: type[BaseModel], path: str) -> str:
    """Write a path with a star for a part that has others of its kind beside it."""
    parts: list[str] = []
    here: type[BaseModel] | None = model
    for name in path.split("."):
        if here is None:
            break
        kinds = [inner_model(field.annotation) for field in here.model_fields.values()]
        kind = inner_model(here.model_fields[name].annotation)
        parts.append("*" if kind[0] is not None and kinds.count(kind) > 1 else name)
        here = kind[0]
    return ".".join(parts)
