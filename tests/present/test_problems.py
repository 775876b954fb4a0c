"""Every problem has its sentence, and every sentence gets the facts that it names."""
# ruff: noqa: E501, ISC004 - sentences stand here as a reader sees them

import ast
import re
import string
from collections.abc import Iterator
from pathlib import Path

import pytest
from tests.present.judging import ENGLISH
from tests.records.folders import folder_of, record

import revealbook
from revealbook.api import check
from revealbook.present.problems import _SENTENCES, line, sentence
from revealbook.source.place import Place
from revealbook.source.problem import Problem
from revealbook.source.read import read_bytes
from revealbook.source.scalars import WrittenNumber
from revealbook.source.validate import _CODES

SRC = Path(str(revealbook.__file__)).parent
OTHER_ROOMS = {"archive"}
"""Rooms whose problems stand on other pages."""


def said(code: str, **facts: object) -> str:
    return sentence(Problem(Place("f.yaml", 3, 5), code, facts), ENGLISH)


def _raised() -> set[str]:
    """Codes that the sources state: by name where a problem is made, or in a table of codes."""
    codes = set(_CODES.values())
    for file in SRC.rglob("*.py"):
        if file.relative_to(SRC).parts[0] in OTHER_ROOMS:
            continue
        for node in ast.walk(ast.parse(file.read_text(encoding="utf-8"))):
            if isinstance(node, ast.Call):
                codes |= set(_codes_of(node))
            elif isinstance(node, ast.Yield) and isinstance(node.value, ast.Tuple) and file.name == "fit.py":
                codes |= set(_texts(node.value.elts[1]))
    return codes


def _codes_of(call: ast.Call) -> list[str]:
    at = {"Problem": 1, "_Refused": 1, "_unknown": None}.get(getattr(call.func, "id", ""), ...)
    if at is ... or at is None or len(call.args) <= at:
        return []
    return list(_texts(call.args[at]))


def _texts(node: ast.AST) -> Iterator[str]:
    """Texts that an expression may give; what it only looks up with is none of them."""
    if isinstance(node, ast.Constant) and isinstance(node.value, str):
        yield node.value
    elif isinstance(node, ast.IfExp):
        yield from (*_texts(node.body), *_texts(node.orelse))
    elif isinstance(node, ast.Call):  # table.get(looked up, otherwise)
        yield from (text for argument in node.args[1:] for text in _texts(argument))


def test_every_problem_that_the_sources_raise_has_its_sentence() -> None:
    raised = _raised()
    assert {"duplicate_key", "repeated_mark", "limit_below_zero", "photo_unusable", "unknown_key"} <= raised
    assert raised - set(_SENTENCES) == set()


def test_no_sentence_stands_there_for_nothing() -> None:
    stated = {
        part.value
        for file in SRC.rglob("*.py")
        if file.name != "problems.py"
        for part in ast.walk(ast.parse(file.read_text(encoding="utf-8")))
        if isinstance(part, ast.Constant) and isinstance(part.value, str)
    }
    assert set(_SENTENCES) - stated == {"left_empty"}


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("", "f.yaml: The file is empty."),
        (b"a: \xff", "f.yaml:1: This line is not UTF-8 text; save the file as UTF-8."),
        ("a: 1\nb: \x01", "f.yaml:2: This line holds a control character that YAML does not allow."),
        ("a:\n\tb: 1", "f.yaml:2:1: A tab stands at the start of this line; indent with spaces."),
        ("a: 1\n---\nb: 1", "f.yaml:2:1: A second document starts here (---); one file holds one record."),
        ("a: *x", "f.yaml:1:4: A YAML alias (*) stands here; write the value out, so that the record can be "
                  "read by itself."),
        ("a: !!int 3", "f.yaml:1:4: A YAML tag (tag:yaml.org,2002:int) stands here; write the plain value."),
        ("[a]: 1", "f.yaml:1:1: A list or mapping stands where a key should; brackets or braces may need quotes."),
        ("a: 1\na: 2", "f.yaml:2:1: “a” stands here a second time; the first is in line 1."),
        ("[" * 60, "f.yaml:1:42: This is nested more than 40 levels deep."),
        ("a: [1, 2\n", "f.yaml:2:1: This is not well-formed YAML: did not find expected ',' or ']'. Check colons, "
                     "quotes and indentation just above."),
    ],
)  # fmt: skip
def test_what_is_wrong_with_the_text_of_a_file(text: str | bytes, words: str) -> None:
    found = read_bytes(text if isinstance(text, bytes) else text.encode(), "f.yaml")
    assert isinstance(found, Problem)
    assert line(found, ENGLISH) == words


WRONG = {
    "survey: {widht_mm: 3}": "“widht_mm” is not known here. Did you mean “widths_mm”?",
    "survey: {widths_mm: {top: 1.23}}": "1.23 cannot be right for “top”: the smallest that makes sense is 100. "
    "It looks like metres; in millimetres it would be 1230.",
    "survey: {widths_mm: {top: 54.9}}": "54.9 cannot be right for “top”: the smallest that makes sense is 100. "
    "It looks like centimetres; in millimetres it would be 549.",
    "survey: {moisture_pct: 2000.5}": "2000.5 cannot be right for “moisture_pct”: "
    "the largest that makes sense is 1000.",
    "survey: {out_of_plumb_mm: '4,5'}": "“out_of_plumb_mm” wants a number, not 4,5. The decimal sign is a point: 4.5.",
    "survey: {out_of_plumb_mm: about 4}": "“out_of_plumb_mm” wants a number, not about 4.",
    "survey: {sound: no}": "“sound” wants true or false, not no.",
    "survey: {substrate: straw}": "“substrate” cannot be straw; it is one of: 'concrete', 'solid masonry', ",
    "survey: [1]": "“survey” wants keys of its own below it, not a list.",
    "survey: {photos: wall.jpg}": "“photos” wants a list, not wall.jpg; write [ ] around it or a dash before each item.",
    "survey: {by: []}": "“by” wants text, not a list; put it in quotes.",
    "survey: {note: ''}": "“note” is empty; leave the key out if there is nothing to say.",
    "survey: {at: 2026-11-20T14:05}": "2026-11-20T14:05 has no time zone; write it as 2026-11-20T14:05+01:00.",
    "survey: {at: yesterday}": "“at” wants a date and time with its zone, as 2026-11-20T14:05+01:00, not yesterday.",
    "survey: {at: 2026-13-20T14:05+01:00}": "2026-13-20T14:05+01:00 is no date or time of the calendar.",
    "frame: {bonding: {expires: soon}}": "“expires” wants a date, as 2026-11-20, not soon.",
    "frame: {bonding: {cartridges: 2.5}}": "“cartridges” wants a whole number, not 2.5.",
    "survey: {by: '-x'}": "“-x” cannot be used for “by”: letters, digits and . _ - / + only, no leading sign.",
    "survey: {by: zoe}": "“zoe” is not among the people that are known. Known here: ada, ben.",
    "survey: {by: bem}": "“bem” is not among the people that are known. Did you mean “ben”?",
    "survey: {photos: [{shows: wall}]}": "“file” is missing here; it cannot be left out.",
    "survey: {photos: [{file: wall.jpg}]}": "The photograph wall.jpg is not in photos/.",
    "survey: {}\nseals: {events: [{step: }]}\nclimate: [{at: }]": "“at” is empty here; write its value, "
    "or take the line out.",
}


@pytest.mark.parametrize(("text", "words"), WRONG.items())
def test_what_is_wrong_in_a_record(tmp_path: Path, text: str, words: str) -> None:
    folder_of(tmp_path, {"openings/A.yaml": record("A", text)})
    (problem,) = check(tmp_path).problems
    assert problem.place.file == "openings/A.yaml"
    assert problem.place.line >= 2
    assert sentence(problem, ENGLISH).startswith(words)


def test_a_file_named_otherwise_than_its_mark_is_told(tmp_path: Path) -> None:
    folder_of(tmp_path, {"openings/B.yaml": record("A")})
    (problem,) = check(tmp_path).problems
    assert line(problem, ENGLISH) == (
        "openings/B.yaml:1:11: The mark is A, but the file is called B.yaml; one of them is wrong."
    )


def test_every_placeholder_of_a_sentence_is_a_name() -> None:
    for code, text in _SENTENCES.items():
        names = [name for _, name, _, _ in string.Formatter().parse(text) if name is not None]
        assert all(re.fullmatch(r"[a-z_]+", name) for name in names), code


def test_a_key_left_without_value_is_called_empty_whatever_it_wants() -> None:
    for code in ("not_a_number", "not_text", "not_a_list", "not_a_section", "not_yes_or_no", "not_a_time"):
        assert said(code, key="k", value=None) == "“k” is empty here; write its value, or take the line out."


@pytest.mark.parametrize(
    ("value", "shown"),
    [
        (True, "true"), (False, "false"), (1234567, "1234567"), (1234567.5, "1234567.5"),
        (WrittenNumber("2.50"), "2.50"), ({}, "{}"), ({"a": 1}, "keys of its own"), ([1], "a list"),
        (("a", 2), "a, 2"), ("two\nlines", "two lines"), ("a\x1b[2Jb", "a�[2Jb"), ("x" * 500, "x" * 199 + "…"),
    ],
)  # fmt: skip
def test_a_value_is_repeated_as_it_was_written_but_fit_for_one_line(value: object, shown: str) -> None:
    assert said("not_text", key="k", value=value) == f"“k” wants text, not {shown}; put it in quotes."


def test_a_long_list_of_known_names_is_not_recited() -> None:
    few, many = ("a", "b"), tuple(map(str, range(13)))
    assert said("unknown_key", key="zz", known=few) == "“zz” is not known here. Known here: a, b."
    assert said("unknown_key", key="zz", known=many) == "“zz” is not known here."
    assert said("unknown_key", key="zz", known=()) == "“zz” is not known here."


@pytest.mark.parametrize(("text", "advised"), [("1,5", True), ("1,234,5", False), ("one, two", False)])
def test_a_decimal_comma_is_pointed_out(text: str, advised: bool) -> None:
    assert ("The decimal sign is a point: 1.5." in said("not_a_number", key="k", value=text)) is advised


@pytest.mark.parametrize(
    ("code", "facts", "words"),
    [
        ("unreadable", {"reason": "Is a directory"}, "The file cannot be read: Is a directory."),
        ("too_large", {"bytes": 9, "limit": 8}, "The file has 9 bytes; at most 8 are read."),
        ("edition_differs", {"asked": "1", "set": "s", "known": "2"},
         "The site asks for edition 1 of s; this version of Revealbook has 2."),
        ("unknown_rule_set", {"name": "x", "known": ("a", "b")}, "No rule set is called “x”; there are: a, b."),
        ("unknown_edition", {"set": "s", "asked": "3", "known": ("1", "2")},
         "There is no edition 3 of s; this version of Revealbook has: 1, 2."),
        ("building_set_unknown", {"name": "x", "set": "s", "known": ("s", "t")},
         "This building cannot be judged by “x”: the site's rule set, s, does not extend it. Possible: s, t."),
        ("clause_without_number", {"clause": "tables"},
         "A published basis names the number of its clause, not only “tables”; if nobody has seen it, the basis is "
         "“from memory”."),
        ("condition_contradicts_itself", {"name": "x"},
         "“x” stands under applies_when and under applies_unless; the rule would never apply."),
        ("unknown_measure", {"name": "x", "nearest": "y"}, "No measure is called “x”. Did you mean “y”?"),
        ("unit_differs", {"measure": "m", "unit": "mm", "stated": "cm"},
         "“m” is measured in mm; the limit is stated in cm."),
        ("limit_kinds", {"known": ("at_least", "at_most"), "stated": "at_least, at_most"},
         "A rule states exactly one kind of limit out of: at_least, at_most. Here stand: at_least, at_most."),
        ("limit_below_zero", {"limit": -3.0, "measure": "gap"}, "-3 can never be met: “gap” is never below zero."),
        ("repeated_mark", {"name": "A", "first": "openings/A.yaml"},
         "The mark “A” already stands in openings/A.yaml."),
        ("language_unknown", {"name": "de", "known": ("en",)},
         "There is no catalogue of the language “de” yet; there are: en."),
        ("time_before", {"key": "set_at", "value": "2025-11-20T08:30+01:00", "days": 364, "other": "pressed_at",
                         "other_at": "2026-11-19T09:34+01:00", "year": 2026},
         "“set_at” cannot be 2025-11-20T08:30+01:00: that is 364 days before “pressed_at” "
         "(2026-11-19T09:34+01:00). The year is probably 2026."),
        ("time_alone", {"key": "at", "value": "2024-02-29T08:30+01:00", "days": 900, "year": None},
         "“at” cannot be 2024-02-29T08:30+01:00: all work of this record is 900 days or more away."),
        ("size_off", {"key": "length_mm", "value": 139.4, "about": 1392, "slip": "cm"},
         "“length_mm” cannot be 139.4 mm: the record's other sizes make it about 1392 mm. It looks like "
         "centimetres; in millimetres it would be 1394."),
        ("size_off", {"key": "length_mm", "value": 13940, "about": 1392, "slip": "ten"},
         "“length_mm” cannot be 13940 mm: the record's other sizes make it about 1392 mm. It looks ten times too "
         "large; a tenth of it is 1394."),
        ("refused", {"key": "k", "pydantic_says": "odd"}, "“k” cannot be used: odd."),
    ],
)  # fmt: skip
def test_problems_of_rules_and_folders_are_plain(code: str, facts: dict[str, object], words: str) -> None:
    assert said(code, **facts) == words


def test_a_place_with_signs_that_steer_a_terminal_is_shown_without_them() -> None:
    odd = Problem(Place("rules/a\n\x1b[31mb.yaml", 1), "empty_file")
    assert line(odd, ENGLISH) == "rules/a �[31mb.yaml:1: The file is empty."
