from typing import Annotated, Literal

import pytest
from pydantic import BaseModel, ConfigDict, Field

from revealbook.source.problem import Problem
from revealbook.source.read import Document, read_bytes
from revealbook.source.validate import keys_known_at, validate


class Piece(BaseModel):
    model_config = ConfigDict(frozen=True, strict=True, extra="forbid")
    length_mm: Annotated[float, Field(ge=20, le=15_000)] | None = None
    depth_m: Annotated[float, Field(ge=1, le=20)] | None = None
    kind: Literal["frame", "plinth"] | None = None


class Whole(BaseModel):
    model_config = ConfigDict(frozen=True, strict=True, extra="forbid")
    name: str
    piece: Piece | None = None
    pieces: Annotated[tuple[Piece, ...], Field(strict=False)] = ()
    widths_mm: Annotated[tuple[Annotated[float, Field(ge=100)], ...], Field(strict=False)] = ()
    word: Annotated[str, Field(max_length=3)] | None = None
    odd: Annotated[str, Field(pattern="^a")] | None = None
    when: Annotated[bytes, Field()] | None = None


def held(text: str) -> Whole | tuple[Problem, ...]:
    document = read_bytes(text.encode(), "f.yaml")
    assert isinstance(document, Document)
    return validate(Whole, document)


def faults(text: str) -> tuple[Problem, ...]:
    found = held(text)
    assert isinstance(found, tuple)
    return found


def test_a_document_that_fits_gives_its_model() -> None:
    assert held("name: a\npiece: {length_mm: 1200}") == Whole(name="a", piece=Piece(length_mm=1200))


def test_faults_come_in_the_order_of_the_file_not_of_the_model() -> None:
    found = faults("word: long\npieces: [{length_mm: x}]\nnam: a")
    assert [(problem.place.line, problem.code) for problem in found] == [
        (1, "missing_key"), (1, "text_too_long"), (2, "not_a_number"), (3, "unknown_key"),
    ]  # fmt: skip


def test_an_unknown_key_names_the_nearest_and_all_that_are_known_there() -> None:
    (problem,) = faults("name: a\npieces: [{}, {lenght_mm: 3}]")
    assert problem.facts["nearest"] == "length_mm"
    assert problem.facts["known"] == ("length_mm", "depth_m", "kind")
    assert (problem.place.line, problem.place.column) == (2, 15)


@pytest.mark.parametrize(
    ("text", "slip"),
    [
        ("1.2", "m"),
        ("0.021", "m"),
        ("19.9", "cm"),
        ("16", "cm"),
        ("0.019", None),
        ("-1.2", None),
        ("0", None),
    ],
)
def test_metres_are_recognised_when_they_make_sense_as_millimetres(text: str, slip: str | None) -> None:
    (problem,) = faults(f"name: a\npiece: {{length_mm: {text}}}")
    assert problem.code == "too_small"
    assert problem.facts["slip"] == slip


def test_a_digit_too_many_is_recognised_when_a_tenth_makes_sense() -> None:
    (problem,) = faults("name: a\npiece: {length_mm: 30000}")
    assert (problem.code, problem.facts["slip"]) == ("too_large_value", "ten")
    (problem,) = faults("name: a\npiece: {length_mm: 300000}")
    assert problem.facts["slip"] is None


def test_metres_are_recognised_in_a_list_of_millimetres() -> None:
    (problem,) = faults("name: a\nwidths_mm: [1200, 1.2]")
    assert problem.facts["slip"] == "m"


def test_no_slip_is_told_where_no_millimetres_are_asked_for() -> None:
    (problem,) = faults("name: a\npiece: {depth_m: 0.5}")
    assert problem.facts["slip"] is None


def test_too_large_a_number_has_its_limit() -> None:
    (problem,) = faults("name: a\npiece: {depth_m: 20.1}")
    assert (problem.code, problem.facts["le"], problem.facts["key"]) == ("too_large_value", 20, "depth_m")


def test_a_word_out_of_a_closed_choice_names_the_choice() -> None:
    (problem,) = faults("name: a\npiece: {kind: sill}")
    assert problem.code == "not_one_of"
    assert "plinth" in str(problem.facts["expected"])


def test_a_fault_of_no_known_kind_keeps_what_pydantic_says() -> None:
    (problem,) = faults("name: a\nwhen: 3")
    assert problem.code == "refused"
    assert problem.facts["pydantic_says"]


def test_a_document_that_is_no_section_is_refused_as_a_whole() -> None:
    (problem,) = faults("[1, 2]")
    assert (problem.code, str(problem.place)) == ("not_a_section", "f.yaml:1:1")


def test_an_empty_document_is_refused_as_a_whole() -> None:
    (problem,) = faults("---\n")
    assert problem.code == "not_a_section"


def test_keys_are_known_along_a_path() -> None:
    assert keys_known_at(Whole, ()) == tuple(Whole.model_fields)
    assert keys_known_at(Whole, ("piece",)) == ("length_mm", "depth_m", "kind")
    assert keys_known_at(Whole, ("pieces", 3)) == ("length_mm", "depth_m", "kind")
    assert keys_known_at(Whole, ("a-union-tag", "piece")) == ("length_mm", "depth_m", "kind")
    assert keys_known_at(Whole, ("name",)) == ()
