"""Files of format 1 are read in the shape of format 2, every value at its own place."""

from typing import Any

import pytest

from revealbook.records.first_format import in_format_2
from revealbook.records.opening import Opening
from revealbook.source.follow import at
from revealbook.source.problem import Problem
from revealbook.source.read import Document, read_bytes
from revealbook.source.validate import validate

OLD = """\
opening: {mark: W}
frame:
  by: ada
  bonding:
    product: frame-bond
    batch: 0412
    at: 2026-11-19T09:20+01:00
    pressed_at: 2026-11-19T09:34+01:00
    expires: 2027-03-31
    used_ml: 860
"""


def upgraded(text: str) -> Document:
    document = read_bytes(text.encode(), "W.yaml")
    assert isinstance(document, Document), document
    made = in_format_2(document)
    assert isinstance(made, Document), made
    return made


def refused(text: str) -> Problem:
    document = read_bytes(text.encode(), "W.yaml")
    assert isinstance(document, Document), document
    made = in_format_2(document)
    assert isinstance(made, Problem)
    return made


def line(document: Document, *path: str | int) -> int:
    return at(document.marks, path, document.file).line


def test_the_bonding_of_format_1_is_one_application_to_all_four_pieces() -> None:
    made = upgraded(OLD).data
    assert made["format"] == 2
    assert made["frame"]["by"] == "ada"
    (application,) = made["frame"]["bonding"]
    assert application == {
        "of": ["bottom", "left", "right", "top"],
        "product": "frame-bond",
        "laid_at": "2026-11-19T09:20+01:00",
        "pressed_at": "2026-11-19T09:34+01:00",
        "used_ml": 860,
        "batches": [{"number": application["batches"][0]["number"], "expires": "2027-03-31"}],
    }
    held = validate(Opening, upgraded(OLD))
    assert isinstance(held, Opening), held
    assert held.frame
    assert held.frame.bonding
    assert held.frame.bonding[0].batches
    assert held.frame.bonding[0].batches[0].number == "0412"


@pytest.mark.parametrize(
    ("path", "expected"),
    [
        (("product",), 5),
        (("batches", 0, "number"), 6),
        (("laid_at",), 7),
        (("pressed_at",), 8),
        (("batches", 0, "expires"), 9),
        (("used_ml",), 10),
        (("cartridges",), 4),
        (("of",), 4),
    ],
)
def test_every_value_keeps_its_place_and_what_is_missing_has_that_of_the_bonding(
    path: tuple[str | int, ...], expected: int
) -> None:
    assert line(upgraded(OLD), "frame", "bonding", 0, *path) == expected


def test_a_batch_or_date_that_was_not_recorded_is_not_made_up() -> None:
    made = upgraded("frame:\n  bonding:\n    product: x\n")
    assert "batches" not in made.data["frame"]["bonding"][0]
    assert line(made, "frame", "bonding", 0, "batches", 0, "expires") == 2
    half = upgraded("frame:\n  bonding:\n    product: x\n    batch: a\n")
    assert half.data["frame"]["bonding"][0]["batches"] == [{"number": "a"}]
    assert line(half, "frame", "bonding", 0, "batches", 0, "expires") == 2


def test_what_was_measured_again_is_upgraded_below_its_readings() -> None:
    text = "mark: W\nreadings:\n  frame:\n    bonding: {cartridges: 3}\n"
    made = upgraded(text)
    assert made.data["readings"]["frame"]["bonding"][0]["cartridges"] == 3
    assert line(made, "readings", "frame", "bonding", 0, "cartridges") == 4


@pytest.mark.parametrize("text", ["opening: {mark: W}\n", "frame:\n", "frame: x\n", "frame: {bonding: }\n"])
def test_a_file_without_bonding_only_gets_its_format(text: str) -> None:
    before = read_bytes(text.encode(), "W.yaml")
    assert isinstance(before, Document)
    assert upgraded(text).data == {"format": 2, **before.data}


def test_a_key_that_format_1_does_not_know_stays_to_be_refused() -> None:
    found = validate(Opening, upgraded("opening: {mark: W}\nframe:\n  bonding:\n    bacth: a\n"))
    assert isinstance(found, tuple)
    assert [(one.code, one.place.line) for one in found] == [("unknown_key", 4)]
    both = upgraded("opening: {mark: W}\nframe: {bonding: {at: 1, laid_at: 2}}\n")
    assert both.data["frame"]["bonding"][0] | {"of": None} == {"of": None, "at": 1, "laid_at": 2}


def test_the_document_that_was_read_stays_as_it_is() -> None:
    document = read_bytes(OLD.encode(), "W.yaml")
    assert isinstance(document, Document)
    in_format_2(document)
    assert "format" not in document.data
    assert document.data["frame"]["bonding"]["product"] == "frame-bond"
    assert upgraded(OLD).raw == OLD.encode()


def test_format_2_is_taken_as_it_is() -> None:
    text = "format: 2\nopening: {mark: W}\nframe: {bonding: [{of: [left]}]}\n"
    document = read_bytes(text.encode(), "W.yaml")
    assert isinstance(document, Document)
    assert in_format_2(document) is document


def test_format_1_may_be_stated() -> None:
    assert upgraded(f"format: 1\n{OLD}").data == upgraded(OLD).data


@pytest.mark.parametrize("stated", ["3", "0", "true", '"2"', "two", "2.0", ""])
def test_a_format_that_is_not_known_is_told_at_its_place(stated: str) -> None:
    problem = refused(f"# a comment\nformat: {stated}\nopening: {{mark: W}}\n")
    assert problem.code == "unknown_format"
    assert problem.place.line == 2
    assert problem.facts["known"] == (1, 2)


@pytest.mark.parametrize("data", ["- a\n", "text\n"])
def test_what_is_no_record_at_all_is_left_to_be_refused(data: Any) -> None:
    document = read_bytes(data.encode(), "W.yaml")
    assert isinstance(document, Document)
    assert in_format_2(document) is document
