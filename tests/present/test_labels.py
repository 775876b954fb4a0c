"""Whatever a measure can give has its words: parts of the opening, keys, reasons, choices."""

import ast
from collections.abc import Iterator
from functools import cache
from pathlib import Path
from typing import Any, get_args

import pytest
from pydantic import BaseModel, ValidationError
from tests.rules.changes import CONFORMING, RECORD, common_practice, plain

import revealbook.measures
from revealbook.measures.catalogue import CATALOGUE
from revealbook.measures.measure import measure
from revealbook.measures.reading import Missing, Outcome
from revealbook.measures.work import Surroundings, Work
from revealbook.present import keys, labels
from revealbook.present.words import words_in
from revealbook.records.acceptance import HoldPointName, Role
from revealbook.records.opening import Opening
from revealbook.records.products import Products
from revealbook.records.site import Site
from revealbook.rules import finding, rule
from revealbook.rules.basis import Basis

ENGLISH = words_in("en")
MEASURES = Path(str(revealbook.measures.__file__)).parent
_NAME_IS_AT = {"Missing": 1, "Detail": 0}


def _keys(data: Any) -> set[str]:
    """Every key that stands anywhere in the data."""
    if isinstance(data, dict):
        return set(data).union(*map(_keys, data.values()))
    return set().union(*map(_keys, data)) if isinstance(data, list) else set()


def _without(data: Any, key: str) -> Any:
    """The same data without a key, wherever it stands."""
    if isinstance(data, dict):
        return {name: _without(value, key) for name, value in data.items() if name != key}
    return [_without(one, key) for one in data] if isinstance(data, list) else data


@cache
def outcomes() -> tuple[Outcome, ...]:
    """What all measures give of the conforming opening, and of it with one kind of key left out at a time."""
    record, site = plain(RECORD), plain(CONFORMING / "site.yaml")
    products = site["products"]
    pairs = [(record, site), ({"opening": {"mark": "A"}}, site)]
    pairs += [(_without(record, key), site) for key in sorted(_keys(record))]
    pairs += [(record, {**site, "products": _without(products, key)}) for key in sorted(_keys(products))]
    found_ones: list[Outcome] = []
    for one, around in pairs:
        try:
            held = Site.model_validate(around)
            work = Work(Opening.model_validate(one), Surroundings.of(held, common_practice().method))
        except ValidationError:
            continue
        found_ones += [taken for given in measure(work, CATALOGUE).values() for taken in given]
    return tuple(found_ones)


def _stated(constructor: str) -> Iterator[str]:
    """Names that the code of the measures states in so many letters."""
    for file in MEASURES.rglob("*.py"):
        for node in ast.walk(ast.parse(file.read_text(encoding="utf-8"))):
            if isinstance(node, ast.Call) and getattr(node.func, "id", "") == constructor:
                name = node.args[_NAME_IS_AT[constructor]]
                parts = (name.body, name.orelse) if isinstance(name, ast.IfExp) else (name,)
                yield from (str(part.value) for part in parts if isinstance(part, ast.Constant))


def test_everything_that_can_be_missing_has_its_words() -> None:
    known = {*keys.KEYS, *labels.PARTS, *keys.REASONS}
    missing = {taken.what for taken in outcomes() if isinstance(taken, Missing)} | set(_stated("Missing"))
    assert len(missing) > 80
    assert missing - known == set()


@pytest.mark.slow
def test_everything_that_a_reading_is_computed_from_has_its_words() -> None:
    names = {detail.name for taken in outcomes() for detail in taken.details} | set(_stated("Detail"))
    assert len(names) > 40
    assert names - {*keys.KEYS, *labels.PARTS} == set()


@pytest.mark.slow
def test_every_part_of_an_opening_has_its_words() -> None:
    ids = {one["id"] for one in plain(RECORD)["nonconformities"]}
    tokens = {token for taken in outcomes() for token in taken.subject} - ids
    assert len(tokens) > 40
    assert {token for token in tokens if not _known(token)} == set()


def _known(token: str) -> bool:
    return token in labels.PARTS or any(token.startswith(f"{prefix} ") for prefix in labels.NUMBERED)


def test_every_word_of_a_choice_has_its_label() -> None:
    words = {word for one in CATALOGUE.values() for word in one.choices}
    assert words
    assert words - set(labels.CHOICES) == set()


def test_closed_lists_are_labelled_whole() -> None:
    assert set(labels.OUTCOMES) == set(finding.Outcome)
    assert tuple(labels.STAGES) == rule.STAGES
    assert tuple(labels.GRADES) == rule.GRADES
    assert set(labels.ROLES) == set(get_args(Role))
    assert set(labels.BASES) == set(get_args(Basis.model_fields["kind"].annotation))
    assert set(get_args(HoldPointName)) <= set(labels.PARTS)


def test_outcomes_are_called_what_the_files_call_them() -> None:
    assert {str(outcome): word for outcome, word in labels.OUTCOMES.items()} == {
        word: word for word in ("conforms", "does not conform", "undecided", "not shown", "does not apply")
    }


@pytest.mark.parametrize(
    ("subject", "said"),
    [
        ((), ""),
        (("left",), "left"),
        (("bottom", "first_end"), "bottom, first end"),
        (("left", "hole 1-2"), "left, hole 1–2"),
        (("bonding",), "adhesive"),
        (("hold point before covering",), "hold point before covering"),
        (("hold point frame",), "hold point mounting frame"),
        (("top", "joint 1", "after"), "top, joint 1, side after it"),
        (("set 2",), "fixings, set 2"),
        (("event 3",), "sealing event 3"),
        (("concession wall-plumb",), "concession wall-plumb"),
        (("NC-1",), "NC-1"),
    ],
)
def test_a_part_is_called_what_the_trade_calls_it(subject: tuple[str, ...], said: str) -> None:
    assert labels.subject(subject, ENGLISH) == said


def test_a_key_is_called_by_its_label_a_part_by_its_own_and_anything_else_as_it_is_written() -> None:
    assert labels.key("air_min_c", ENGLISH) == "lowest air temperature allowed"
    assert labels.key("foam", ENGLISH) == "foam"
    assert labels.key("never_heard_of_mm", ENGLISH) == "never_heard_of_mm"


def test_a_choice_without_a_label_is_said_as_it_is() -> None:
    assert labels.choice("all at once", ENGLISH) == "all at once"
    assert labels.choice("magnets", ENGLISH) == "magnets"


def test_no_label_repeats_the_key_it_stands_for() -> None:
    assert [key for key, label in keys.KEYS.items() if key == label and "_" in key] == []


def test_figures_of_every_product_that_a_measure_asks_for_are_labelled() -> None:
    def keys_of(model: type[BaseModel]) -> set[str]:
        return {key for part in model.model_json_schema()["$defs"].values() for key in part["properties"]}

    asked = {one.what for one in outcomes() if isinstance(one, Missing) and one.path[-1:] == ("product",)}
    assert asked & keys_of(Products) <= set(keys.KEYS)
    assert asked & keys_of(Products)
