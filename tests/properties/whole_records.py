"""Whole records for laws that hold over all of them: the conforming one, the example's, and made ones.

A made record is one of these with a few values changed by a seeded draw: the same on every run. Laws try a
seeded part of what there is to try; `REVEALBOOK_FULL=1` tries all.
"""

import os
from collections.abc import Iterator
from copy import deepcopy
from dataclasses import replace
from functools import cache
from pathlib import Path
from random import Random
from typing import Any, NamedTuple, TypeVar

from pydantic import ValidationError
from tests.builders import full_opening, full_site
from tests.rules.changes import WAYS, plain
from tests.rules.changes import put as set_at

from revealbook.measures.measure import measure
from revealbook.measures.work import Surroundings, Work
from revealbook.records.load import Folder, load_site, look_into
from revealbook.records.opening import Opening
from revealbook.records.record import SiteFile
from revealbook.records.site import Site
from revealbook.rules.finding import Outcome
from revealbook.rules.judge import judge
from revealbook.rules.read import read_rules
from revealbook.rules.rule_set import RuleSet, SourceFile
from revealbook.source.read import Document, read

EXAMPLE = Path(__file__).parents[2] / "examples" / "larch-court"
CASES = Path(__file__).parents[1] / "rules" / "cases"
MADE = 200
"""How many records are made."""
FULL = 2000
"""Signs in a record that is filled in; one that is hardly begun has little to change."""
Keys = tuple[str | int, ...]
Item = TypeVar("Item")


class Whole(NamedTuple):
    """A record with all that it is judged by; plain data, as YAML gives it."""

    name: str
    opening: dict[str, Any]
    around: Surroundings
    rules: RuleSet


def outcomes(opening: dict[str, Any], around: Surroundings, rules: RuleSet) -> dict[str, Outcome] | None:
    """Judge plain data: each rule's outcome; None if it is no record at all."""
    try:
        work = Work(Opening.model_validate(opening), around)
    except ValidationError:
        return None
    return {one.rule_id: one.outcome for one in judge(rules, measure(work, rules.measures))}


def only(rules: RuleSet, rule: str) -> RuleSet:
    """Give a rule set with one of its rules."""
    return replace(rules, rules=tuple(held for held in rules.rules if held.id == rule))


@cache
def judged(name: str) -> dict[str, Outcome]:
    """The outcomes of one of `records()` as it stands."""
    whole = next(one for one in records() if one.name == name)
    found = outcomes(whole.opening, whole.around, whole.rules)
    assert found is not None
    return found


@cache
def shipped() -> tuple[Whole, ...]:
    """The conforming record by the largest rule set, and every record of the example by its own."""
    limits = read_rules("published-limits", None)
    assert isinstance(limits, RuleSet), limits
    site = Site.model_validate(full_site())
    first = Whole("conforming", full_opening(), Surroundings.of(site, limits.method), limits)
    return (first, *_example())


def _example() -> Iterator[Whole]:
    folder = look_into(EXAMPLE)
    assert isinstance(folder, Folder)
    site = load_site(folder)
    assert isinstance(site, SiteFile)
    asked = site.site.rules
    overlays = [SourceFile(file.name, file.read_bytes()) for file in folder.overlays]
    rules = read_rules(asked.set, asked.edition, overlays)
    assert isinstance(rules, RuleSet), rules
    around = Surroundings.of(site.site, rules.method)
    for file in folder.records:
        document = read(file, file.name)
        assert isinstance(document, Document)
        yield Whole(file.stem, document.data, around, rules)


@cache
def records() -> tuple[Whole, ...]:
    """All records: as shipped, and made."""
    return (*shipped(), *_made(Random(10)))


def _made(draw: Random) -> Iterator[Whole]:
    full = [whole for whole in shipped() if len(str(whole.opening)) > FULL]
    for number in range(MADE):
        base = draw.choice(full)
        opening = base.opening
        for _ in range(draw.randint(1, 6)):
            opening = _with_a_change(opening, draw)
        made = base._replace(name=f"{base.name} made {number}", opening=opening)
        if outcomes(opening, base.around, base.rules) is not None:
            yield made


def _with_a_change(opening: dict[str, Any], draw: Random) -> dict[str, Any]:
    """Change one value: a number by a little or much, a yes to a no; or take something away."""
    paths = [path for path in leaves(opening) if path[0] != "opening" and "instruments" not in path]
    path = draw.choice(paths)
    value = at(opening, path)
    if isinstance(value, bool):
        return put(opening, path, not value)
    if isinstance(value, int | float):
        return put(opening, path, type(value)(value * draw.choice((0.5, 0.9, 0.97, 1.03, 1.1, 2))))
    return without(opening, path) if isinstance(path[-1], str) else opening


def failing() -> Iterator[tuple[Whole, str]]:
    """Give the conforming record with each change by which a rule's cases break it, and that rule."""
    for rule in sorted({held.id for held in shipped()[0].rules.rules}):
        for case in plain(CASES / f"{rule}.yaml"):
            if case["outcome"] in {"does not conform", "undecided", "not shown"}:
                way = plain(WAYS)[case["way"]] if "way" in case else {}
                yield _of_case(f"{rule}: {case['name']}", way, case["set"]), rule


def _of_case(name: str, way: dict[str, Any], changes: dict[str, Any]) -> Whole:
    record, site = full_opening(), full_site()
    for path, value in (*way.items(), *changes.items()):
        set_at({"site": site} if path.startswith("site.") else record, path, deepcopy(value))
    rules = shipped()[0].rules
    return Whole(name, record, Surroundings.of(Site.model_validate(site), rules.method), rules)


def parts(data: Any, path: Keys = ()) -> Iterator[Keys]:
    """Give the paths of all keys and list entries, sections and leaves."""
    inner = data.items() if isinstance(data, dict) else enumerate(data) if isinstance(data, list) else ()
    for key, value in inner:
        yield (*path, key)
        yield from parts(value, (*path, key))


def leaves(data: Any) -> list[Keys]:
    """Give the paths of all single values."""
    return [path for path in parts(data) if not isinstance(at(data, path), dict | list)]


def at(data: Any, path: Keys) -> Any:
    """Give the value at a path."""
    for part in path:
        data = data[part]
    return data


def put(data: Item, path: Keys, value: Any) -> Item:
    """Give data with another value at a path; what is not on the way to it is shared."""
    first, *rest = path
    copy: Any = data.copy()  # type: ignore[attr-defined]  # a mapping or a list
    copy[first] = put(copy[first], tuple(rest), value) if rest else value
    return copy  # type: ignore[no-any-return]


def without(data: Item, path: Keys) -> Item:
    """Give data without a key or list entry."""
    first, *rest = path
    copy: Any = data.copy()  # type: ignore[attr-defined]  # a mapping or a list
    if rest:
        copy[first] = without(copy[first], tuple(rest))
    else:
        del copy[first]
    return copy  # type: ignore[no-any-return]


def some(things: list[Item], most: int, seed: int = 10) -> list[Item]:
    """Give a seeded part of the things to try; all of them in a full run."""
    if os.environ.get("REVEALBOOK_FULL") or len(things) <= most:
        return things
    return Random(seed).sample(things, most)
