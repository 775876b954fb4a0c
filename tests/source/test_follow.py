import pytest

from revealbook.source.follow import Path, at
from revealbook.source.place import Place
from revealbook.source.read import Document, read_bytes

TEXT = b"""\
opening:
  mark: W-2.07
frame:
  pieces:
    left: {length_mm: 1480, holes_mm: [180, 815, 1300]}
  fixings:
    - at_mm: [180]
      product: screw
    -
      at_mm: [815]
"""


@pytest.mark.parametrize(
    ("path", "line", "column"),
    [
        ((), 1, 1),
        (("opening",), 1, 1),
        (("opening", "mark"), 2, 3),
        (("frame", "pieces", "left", "length_mm"), 5, 12),
        (("frame", "pieces", "left", "holes_mm"), 5, 29),
        (("frame", "pieces", "left", "holes_mm", 1), 5, 45),
        (("frame", "fixings", 0), 7, 7),
        (("frame", "fixings", 0, "product"), 8, 7),
        (("frame", "fixings", 1, "at_mm", 0), 10, 15),
    ],
)
def test_a_value_stands_where_its_key_or_list_item_begins(path: Path, line: int, column: int) -> None:
    assert place(path) == Place("f.yaml", line, column)


@pytest.mark.parametrize(
    ("path", "line"),
    [
        (("survey",), 1),
        (("frame", "pieces", "right", "length_mm"), 4),
        (("frame", "pieces", "left", "holes_mm", 3), 5),
        (("frame", "pieces", "left", "length_mm", "deeper"), 5),
        (("frame", "fixings", "product"), 6),
    ],
)
def test_what_is_missing_stands_where_it_should_be_held(path: Path, line: int) -> None:
    assert place(path).line == line


def test_a_part_that_is_no_key_is_stepped_over() -> None:
    assert place(("frame", "a-union-tag", "pieces", "left")) == place(("frame", "pieces", "left"))


def place(path: Path) -> Place:
    document = read_bytes(TEXT, "f.yaml")
    assert isinstance(document, Document)
    return at(document.marks, path, document.file)
