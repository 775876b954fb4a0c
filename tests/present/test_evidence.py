"""What a pack carries, and the fingerprint over it: any byte counts, and nothing else."""

import json
from dataclasses import replace
from hashlib import sha256
from math import isfinite
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st
from tests.present.judging import site

from revealbook.present.evidence import Carried, evidence, findings_json, fingerprint, path_of, short
from revealbook.rules.judged import JudgedSite

SITE = site({"A-1": {}, "A-2": {"survey.sound": None}})
CARRIED = evidence(SITE)


def test_a_pack_carries_site_records_rules_and_findings_as_they_were_read() -> None:
    by_path = {file.path: file for file in CARRIED}
    assert by_path["site.yaml"].content == SITE.site.sheet.raw
    assert by_path["openings/A-1.yaml"].content == SITE.openings[0].record.sheet.raw
    assert by_path["rule_sets/common-practice/frame.yaml"].content in {
        file.raw for file in SITE.rule_set.files
    }
    assert by_path["findings.json"].content == findings_json(SITE)
    assert len(by_path) == len(CARRIED) == 1 + 2 + len(SITE.rule_set.files) + 1
    assert list(by_path) == sorted(by_path)


@pytest.mark.parametrize(
    ("path", "kind", "media_type", "relationship", "description"),
    [
        ("site.yaml", "site", "application/yaml", "Source", "Site file as filed"),
        ("openings/A-1.yaml", "record", "application/yaml", "Source", "Record of an opening as filed"),
        ("rule_sets/common-practice/set.yaml", "rules", "application/yaml", "Supplement", "Rules in force"),
        ("findings.json", "findings", "application/json", "Data", "Findings as judged"),
    ],
)
def test_each_carried_file_says_what_it_is(
    path: str, kind: str, media_type: str, relationship: str, description: str
) -> None:
    (file,) = [file for file in CARRIED if file.path == path]
    assert (file.kind, file.media_type, file.relationship) == (kind, media_type, relationship)
    assert file.description == description


PATH = st.lists(st.text("ab_%5F.-é ", min_size=1, max_size=6), min_size=1, max_size=3).map("/".join)


@given(PATH)
def test_a_carried_file_s_name_has_no_folder_and_leads_back_to_its_path(path: str) -> None:
    name = Carried(path, b"", "record").name
    assert "/" not in name
    assert path_of(name) == path


@given(st.tuples(PATH, PATH).filter(lambda two: two[0] != two[1]))
def test_two_paths_never_get_one_name(two: tuple[str, str]) -> None:
    assert len({Carried(path, b"", "record").name for path in two}) == 2


@pytest.mark.parametrize(
    ("path", "name"),
    [
        ("openings/W-1.01.yaml", "openings__W-1.01.yaml"),
        ("rule_sets/common-practice/set.yaml", "rule_sets__common-practice__set.yaml"),
        ("openings/W__1.yaml", "openings__W%5F%5F1.yaml"),
        ("rules/50%.yaml", "rules__50%25.yaml"),
    ],
)
def test_a_name_reads_like_its_path(path: str, name: str) -> None:
    assert Carried(path, b"", "rules").name == name


@pytest.mark.parametrize("number", range(len(CARRIED)))
def test_the_fingerprint_changes_with_any_byte_of_any_carried_file(number: int) -> None:
    file = CARRIED[number]
    for changed in (file.content + b"\n", file.content[:-1], bytes([file.content[0] ^ 1]) + file.content[1:]):
        others = (*CARRIED[:number], replace(file, content=changed), *CARRIED[number + 1 :])
        assert fingerprint(others) != fingerprint(CARRIED)


def test_the_fingerprint_changes_when_a_file_is_missing_added_or_renamed() -> None:
    first, *rest = CARRIED
    assert fingerprint(tuple(rest)) != fingerprint(CARRIED)
    assert fingerprint((*CARRIED, replace(first, path="openings/A-9.yaml"))) != fingerprint(CARRIED)
    assert fingerprint((replace(first, path="a.json"), *rest)) != fingerprint(CARRIED)


def test_the_fingerprint_does_not_depend_on_order_kind_or_run() -> None:
    assert fingerprint(CARRIED[::-1]) == fingerprint(CARRIED)
    assert fingerprint(tuple(replace(file, kind="rules") for file in CARRIED)) == fingerprint(CARRIED)
    assert fingerprint(evidence(site({"A-1": {}, "A-2": {"survey.sound": None}}))) == fingerprint(CARRIED)


def test_anybody_can_compute_the_fingerprint_with_sha256sum() -> None:
    lines = [f"{sha256(file.content).hexdigest()}  {file.path}\n" for file in CARRIED]
    listed = "".join(sorted(lines, key=lambda line: line.split("  ", 1)[1]))
    assert fingerprint(CARRIED) == sha256(listed.encode()).hexdigest()
    assert CARRIED[0].digest == sha256(CARRIED[0].content).hexdigest()


def test_a_fingerprint_is_shortened_into_groups_that_people_can_compare() -> None:
    assert short("0123456789abcdef0000") == "0123 4567 89ab cdef"


def _numbers(plain: Any) -> list[float]:
    if isinstance(plain, dict | list):
        inside = plain.values() if isinstance(plain, dict) else plain
        return [number for value in inside for number in _numbers(value)]
    return [plain] if isinstance(plain, float) else []


ENDLESS: JudgedSite = site({"A": {"frame.pieces.left.holes_mm": [], "frame.pieces.left.fixings": []}})


def test_embedded_findings_are_json_without_endless_numbers() -> None:
    text = findings_json(ENDLESS).decode()
    assert "Infinity" not in text
    assert "NaN" not in text
    numbers = _numbers(json.loads(text))
    assert numbers
    assert all(map(isfinite, numbers))


def test_embedded_findings_are_one_byte_string_for_one_set_of_findings() -> None:
    again = site({"A-1": {}, "A-2": {"survey.sound": None}})
    assert findings_json(again) == findings_json(SITE)
    assert findings_json(again).endswith(b"}\n")


def test_embedded_findings_tell_a_judgement_a_line() -> None:
    lines = findings_json(SITE).decode().splitlines()
    rules = [json.loads(line.rstrip(","))["rule"] for line in lines if '"rule":' in line]
    assert rules == [one.rule_id for opening in SITE.openings for one in opening.judgements]
    assert json.loads("".join(lines))["site"] == SITE.site.site.id
