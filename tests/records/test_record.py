from revealbook.records.record import Sheet
from revealbook.source.place import Place
from revealbook.source.read import Document, read_bytes


def test_a_sheet_keeps_places_and_bytes_of_its_document() -> None:
    document = read_bytes(b"opening:\n  mark: W\n", "openings/W.yaml")
    assert isinstance(document, Document)
    sheet = Sheet.of(document)
    assert sheet.place(("opening", "mark")) == Place("openings/W.yaml", 2, 3)
    assert sheet.place(("opening", "width_mm")) == Place("openings/W.yaml", 1, 1)
    assert sheet.raw == b"opening:\n  mark: W\n"
