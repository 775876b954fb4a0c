"""The conforming record, changed at a few paths and judged again; `test_cases` and others ask it."""

import copy
import re
from collections.abc import Mapping
from dataclasses import replace
from functools import cache
from pathlib import Path
from typing import Any

from revealbook.measures.measure import measure
from revealbook.measures.method import Method
from revealbook.measures.work import Surroundings, Work
from revealbook.records.opening import Opening
from revealbook.records.site import Site
from revealbook.rules.finding import Judgement
from revealbook.rules.judge import judge
from revealbook.rules.read import read_rules, shipped_sets
from revealbook.rules.rule_set import RuleSet
from revealbook.source.problem import Problem
from revealbook.source.read import read

TESTS = Path(__file__).parents[1]
CONFORMING = TESTS / "conforming"
RECORD = CONFORMING / "openings" / "W-1.01.yaml"
WAYS = Path(__file__).parent / "ways.yaml"
_PART = re.compile(r"([a-z0-9_]+)|\[(\d+)\]")


@cache
def plain(path: Path) -> Any:
    """The plain data of a YAML file."""
    document = read(path, path.name)
    assert not isinstance(document, Problem), document
    return document.data


@cache
def shipped(name: str) -> RuleSet:
    """A shipped rule set."""
    rules = read_rules(name, None)
    assert isinstance(rules, RuleSet), rules
    return rules


def common_practice() -> RuleSet:
    """The rule set that the others extend."""
    return shipped("common-practice")


@cache
def set_of(rule: str) -> RuleSet:
    """The smallest shipped set that holds a rule: the one that brings it."""
    sets = sorted((shipped(name) for name in shipped_sets()), key=lambda one: len(one.rules))
    return next(one for one in sets if rule in {held.id for held in one.rules})


def bare(rules: RuleSet) -> RuleSet:
    """A rule set whose limits decide by themselves, so that a case can stand exactly at one."""
    return replace(rules, method=rules.method.model_copy(update={"decision": "simple acceptance"}))


def put(data: Any, path: str, value: Any) -> None:
    """Put a value at a path such as `frame.pieces.left.holes_mm[0]`.

    One past the end of a list appends; None takes a list's item away, and leaves a key without its value.
    """
    parts: list[str | int] = [name or int(index) for name, index in _PART.findall(path)]
    for part in parts[:-1]:
        data = data[part]
    last = parts[-1]
    if isinstance(last, str):
        data[last] = value
    elif value is None:
        del data[last]
    elif last == len(data):
        data.append(value)
    else:
        data[last] = value


def work_of(changes: Mapping[str, Any], method: Method | None = None, way: str = "") -> Work:
    """Give the conforming record after changes; paths that begin with `site.` change the site file.

    Args:
        changes: values by path.
        method: the method; that of common practice if none is given.
        way: another way of working, from ways.yaml, that the record follows before it is changed.
    """
    record, site = copy.deepcopy(plain(RECORD)), copy.deepcopy(plain(CONFORMING / "site.yaml"))
    other_way = plain(WAYS)[way] if way else {}
    for path, value in (*other_way.items(), *changes.items()):
        put({"site": site} if path.startswith("site.") else record, path, copy.deepcopy(value))
    around = Surroundings.of(Site.model_validate(site), method or common_practice().method)
    return Work(Opening.model_validate(record), around)


def judged(changes: Mapping[str, Any], rules: RuleSet | None = None, way: str = "") -> dict[str, Judgement]:
    """Judge the conforming record after changes by a rule set; common practice if none is given."""
    rules = rules or common_practice()
    readings = measure(work_of(changes, rules.method, way), rules.measures)
    return {judgement.rule_id: judgement for judgement in judge(rules, readings)}
