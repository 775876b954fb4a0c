"""Every record in `wrong/` is refused with exactly the problems that stand beside it."""

from pathlib import Path
from typing import Any

import pytest

from revealbook.records.first_format import read_record
from revealbook.records.opening import Opening
from revealbook.source.problem import Problem
from revealbook.source.read import Document, read
from revealbook.source.validate import validate

WRONG = Path(__file__).parent / "wrong"
RECORDS = sorted(file for file in WRONG.glob("*.yaml") if not file.name.endswith(".expected.yaml"))


def problems_of(file: Path) -> tuple[Problem, ...]:
    document = read_record(file, file.name)
    if isinstance(document, Problem):
        return (document,)
    found = validate(Opening, document)
    assert isinstance(found, tuple), "nothing is wrong with it"
    return found


def expected_of(file: Path) -> Any:
    document = read(file.with_suffix(".expected.yaml"), "expected")
    assert isinstance(document, Document), document
    return document.data


@pytest.mark.parametrize("file", RECORDS, ids=lambda file: file.stem)
def test_a_wrong_record_is_refused_with_every_fault_at_its_place(file: Path) -> None:
    found = problems_of(file)
    expected = expected_of(file)
    said = [f"{problem.place.line}:{problem.place.column} {problem.code}" for problem in found]
    assert said == [next(iter(one)) for one in expected]
    for problem, one in zip(found, expected, strict=True):
        facts = next(iter(one.values())) or {}
        assert {name: problem.facts.get(name) for name in facts} == facts, problem


def test_there_are_wrong_records_and_each_says_what_is_expected() -> None:
    stems = {file.stem for file in RECORDS}
    assert len(stems) > 10
    assert {file.name.removesuffix(".expected.yaml") for file in WRONG.glob("*.expected.yaml")} == stems
