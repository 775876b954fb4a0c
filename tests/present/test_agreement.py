"""Findings inside a pack against those that judging again gives: nothing that was changed goes untold."""

import json
from collections.abc import Iterator
from copy import deepcopy
from dataclasses import replace
from functools import cache
from typing import Any

import pytest
from tests.present.judging import site

from revealbook import __version__
from revealbook.present.agreement import Difference, compare_findings, made_by_another_version
from revealbook.present.evidence import findings_json, written

Path = tuple[str | int, ...]
UNREADABLE = (Difference("", "", "findings.json cannot be read", "as judged now"),)
RULES = {"frame-overlap", "top-edge-sealed", "window-plumb"}
WHOLE = (Difference("", "", "findings.json differs", "as judged now"),)


@cache
def kept() -> bytes:
    """Two openings with a few rules: every outcome, limits by size and of truth, an uncertainty."""
    judged = site(
        {
            "A-1": {"frame.pieces.bottom.overlap_left_mm": 62, "frame.pieces.bottom.overlap_right_mm": 102},
            "A-2": {"survey.sound": None, "frame.insulation_follows_at_once": True},
        }
    )
    openings = tuple(
        replace(one, judgements=(*one.judgements[:5], *(of for of in one.judgements if of.rule_id in RULES)))
        for one in judged.openings
    )
    return findings_json(replace(judged, openings=openings))


def plain() -> Any:
    return json.loads(kept())


def leaves(data: Any, path: Path = ()) -> Iterator[tuple[Path, Any]]:
    """Every value that is no mapping or list, with its place."""
    items = data.items() if isinstance(data, dict) else enumerate(data) if isinstance(data, list) else ()
    if not items and not isinstance(data, dict | list):
        yield path, data
    for key, value in items:
        yield from leaves(value, (*path, key))


def with_value(path: Path, value: Any) -> bytes:
    data = deepcopy(plain())
    part = data
    for key in path[:-1]:
        part = part[key]
    part[path[-1]] = value
    return written(data)


def other(value: Any) -> Any:
    """Another value of the same kind, as somebody would put it who wants it to go unnoticed."""
    if isinstance(value, bool):
        return not value
    if isinstance(value, int | float):
        return value + 1
    return f"{value} " if isinstance(value, str) else "x"


def sample() -> list[tuple[Path, Any]]:
    """Of each kind of field the first three; a kind is the path without its numbers."""
    seen: dict[Path, list[tuple[Path, Any]]] = {}
    for path, value in leaves(plain()):
        seen.setdefault(tuple(part for part in path if isinstance(part, str)), []).append((path, value))
    del seen[("made_with",)]  # another version is told as such
    return [one for some in seen.values() for one in some[:2]]


def test_equal_findings_agree() -> None:
    assert kept() == written(plain()), "the tests write as the pack does"
    assert compare_findings(kept(), kept()) == ()


@pytest.mark.parametrize(("path", "value"), sample(), ids=lambda part: str(part)[:60])
def test_every_field_that_was_changed_is_told(path: Path, value: Any) -> None:
    assert compare_findings(with_value(path, other(value)), kept())


def test_every_single_value_of_an_opening_is_told() -> None:
    untold = [
        path
        for path, value in leaves(plain()["openings"][0]["judgements"])
        if not compare_findings(
            with_value(("openings", 0, "judgements", *path), other(value)), kept()
        )
    ]  # fmt: skip
    assert untold == []


def test_a_changed_outcome_is_told_by_opening_and_rule() -> None:
    data = plain()
    where = next(
        one for one in data["openings"][0]["judgements"] if one["outcome"] == "does not conform"
    )  # fmt: skip
    where["outcome"] = "conforms"
    assert compare_findings(written(data), kept()) == (
        Difference("A-1", "frame-overlap", "conforms", "does not conform"),
    )


def test_where_only_a_value_differs_the_words_are_told_with_it() -> None:
    data = plain()
    where = next(one for one in data["openings"][0]["judgements"] if one["rule"] == "frame-overlap")
    where["findings"][0]["found"] = "79 mm"
    (told,) = compare_findings(written(data), kept())
    assert (told.mark, told.rule) == ("A-1", "frame-overlap")
    assert told.kept.startswith("does not conform: 79 mm")
    assert told.now.startswith("does not conform: 62\u00a0mm")


def test_an_opening_or_rule_taken_out_or_put_in_is_told() -> None:
    without_opening, without_rule, twice = plain(), plain(), plain()
    del without_opening["openings"][1]
    rules = {one["rule"] for one in plain()["openings"][1]["judgements"]}
    told = compare_findings(written(without_opening), kept())
    assert {(one.mark, one.rule) for one in told} == {("A-2", rule) for rule in rules}
    assert {one.kept for one in told} == {"no such rule"}
    gone = without_rule["openings"][0]["judgements"].pop(0)["rule"]
    (one,) = compare_findings(written(without_rule), kept())
    assert (one.mark, one.rule, one.kept) == ("A-1", gone, "no such rule")
    (one,) = compare_findings(kept(), written(without_rule))
    assert (one.mark, one.rule, one.now) == ("A-1", gone, "no such rule")
    twice["openings"].append(twice["openings"][0])
    assert compare_findings(written(twice), kept()) == WHOLE


@pytest.mark.parametrize("key", ["site", "outcome"])
def test_what_is_said_of_the_whole_is_told_without_an_opening(key: str) -> None:
    told = compare_findings(with_value((key,), "other"), kept())
    assert told == (Difference("", key, "other", plain()[key]),)


@pytest.mark.parametrize(
    ("old", "new"),
    [
        (b'"mark":"A-1"', b'"mark":"A-9","mark":"A-1"'),
        (b'"outcome":"conforms"', b'"outcome": "conforms"'),
        (b"]}\n", b"]} \n"),
    ],
    ids=["a key twice", "a space", "a space at the end"],
)
def test_bytes_that_mean_the_same_to_json_are_told_as_a_whole(old: bytes, new: bytes) -> None:
    assert old in kept()
    assert compare_findings(kept().replace(old, new, 1), kept()) == WHOLE


def test_one_for_true_is_told() -> None:
    assert compare_findings(kept().replace(b'"value":true', b'"value":1', 1), kept()) == WHOLE


@pytest.mark.parametrize(
    "damaged",
    [b"", b"{", b"[]", b"null", b"{}", b'"x"', b"\xff\xfe", b"[" * 100_000, b'{"made_with": "0"}',
     b'{"made_with": 1, "site": 1, "rule_set": 1, "outcome": 1, "openings": 5}',
     b'{"made_with": 1, "site": 1, "rule_set": 1, "outcome": 1, "openings": [[]]}'],
    ids=lambda damaged: damaged[:20].decode("latin-1"),
)  # fmt: skip
def test_findings_that_cannot_be_read_are_told_as_such(damaged: bytes) -> None:
    assert compare_findings(damaged, kept()) == UNREADABLE


def by_another_version(change: tuple[bytes, bytes] = (b"", b"")) -> bytes:
    earlier = kept().replace(f'"made_with":"{__version__}"'.encode(), b'"made_with":"0.0.1"')
    assert earlier != kept()
    assert change[0] in earlier
    return earlier.replace(*change, 1)


def test_of_another_version_only_values_limits_and_outcomes_are_compared() -> None:
    reworded = by_another_version().replace(b'"found":"', b'"found":"well, ').replace(
        b'"required":"', b'"required":"as was said then, ')  # fmt: skip
    assert compare_findings(by_another_version(), kept()) == ()
    assert compare_findings(reworded, kept()) == ()
    assert compare_findings(by_another_version((b'"value":62', b'"value":82')), kept())
    assert compare_findings(by_another_version((b'"low":80', b'"low":60')), kept())
    assert compare_findings(by_another_version((b'"does not conform"', b'"conforms"')), kept())
    assert compare_findings(by_another_version((b'"value":true', b'"value":1')), kept()) == WHOLE


def test_the_version_that_made_a_pack_is_told_if_it_is_not_this_one() -> None:
    assert made_by_another_version(kept()) is None
    assert made_by_another_version(by_another_version()) == "0.0.1"
    assert made_by_another_version(b"") is None
    assert made_by_another_version(b"[]") is None
