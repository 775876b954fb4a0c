"""What the PDF writer would do over and over, done once."""

from importlib.metadata import version
from io import BytesIO

import pydyf
import pytest

from revealbook.render import pdf_writing
from revealbook.render.pdf_writing import nothing_written_twice


def _with_pages(count: int) -> pydyf.PDF:
    pdf = pydyf.PDF()
    for _ in range(count):
        pdf.add_page(pydyf.Dictionary())
    return pdf


def _theirs() -> tuple[object, ...]:
    return pydyf.PDF.page_references, pydyf.PDF.write, pydyf.Stream.data


class Counted(pydyf.Stream):  # type: ignore[misc]
    """A stream that counts how often its content is put together."""

    def __init__(self) -> None:
        super().__init__([b"0 0 m"], compress=True)
        self.times = 0

    @property
    def stream(self) -> list[bytes]:
        self.times += 1
        return [b"0 0 m"]

    @stream.setter
    def stream(self, _value: object) -> None:
        """Take what the base class sets."""


def _with_stream() -> tuple[pydyf.PDF, Counted]:
    pdf, stream = _with_pages(1), Counted()
    pdf.add_object(stream)
    return pdf, stream


@pytest.mark.parametrize("compress", [True, False])
def test_a_stream_is_put_together_once_and_no_byte_changes(compress: bool) -> None:
    before, after = BytesIO(), BytesIO()
    pdf, stream = _with_stream()
    pdf.write(before, version="1.7", identifier=b"abc", compress=compress)
    assert stream.times == 2, "the writer does not put it together twice any more"
    pdf, stream = _with_stream()
    with nothing_written_twice():
        pdf.write(after, version="1.7", identifier=b"abc", compress=compress)
    assert stream.times == 1
    assert before.getvalue() == after.getvalue()


def test_a_stream_that_changes_before_it_is_written_is_written_as_it_is_then() -> None:
    pdf, stream, written = _with_pages(1), pydyf.Stream([b"one"]), BytesIO()
    pdf.add_object(stream)
    with nothing_written_twice():
        assert b"one" in stream.data
        stream.stream = [b"two"]
        pdf.write(written, version="1.7", identifier=b"abc")
    assert b"two" in written.getvalue()
    assert b"one" not in written.getvalue()


def test_pages_are_listed_once_and_as_before() -> None:
    pdf = _with_pages(3)
    before = pdf.page_references
    with nothing_written_twice():
        assert pdf.page_references == before
        assert pdf.page_references is pdf.page_references
    assert pdf.page_references is not pdf.page_references


def test_a_page_that_is_added_is_listed() -> None:
    pdf = _with_pages(1)
    with nothing_written_twice():
        assert len(pdf.page_references) == 1
        pdf.add_page(pydyf.Dictionary())
        assert len(pdf.page_references) == 2


def test_two_documents_have_lists_of_their_own() -> None:
    one, other = _with_pages(2), pydyf.PDF()
    other.add_object(pydyf.Dictionary())
    other.add_page(pydyf.Dictionary())
    other.add_page(pydyf.Dictionary())
    own = one.page_references, other.page_references
    assert own[0] != own[1]
    with nothing_written_twice():
        assert (one.page_references, other.page_references) == own
        assert one.page_references == own[0]


def test_the_list_is_the_typesetters_again_after_a_failure() -> None:
    theirs = _theirs()
    with pytest.raises(ValueError, match="broken"), nothing_written_twice():
        raise ValueError("broken")
    assert _theirs() == theirs


def test_a_version_that_nobody_has_looked_at_is_left_alone(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(pdf_writing, "LOOKED_AT", ())
    theirs = _theirs()
    with nothing_written_twice():
        assert _theirs() == theirs


def test_the_installed_version_is_a_known_one() -> None:
    assert version("pydyf") in pdf_writing.LOOKED_AT, "look whether it still lists all pages for each tag"
