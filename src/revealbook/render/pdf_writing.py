"""What the PDF writer does over and over is done once; no byte of the PDF changes."""

from collections.abc import Callable, Iterator
from contextlib import contextmanager
from importlib import import_module
from importlib.metadata import version
from typing import Any

LOOKED_AT = ("0.13.0",)
"""Versions of pydyf that are known to repeat this; others are left alone, because nobody has looked."""


@contextmanager
def nothing_written_twice() -> Iterator[None]:
    """Keep a document's list of pages until a page is added, and its streams while it is written.

    Each tag names its page, and pydyf writes the references of *all* pages to give one: tags times pages.
    Estimated from the cost of one listing and the number of tags: 0.4 s of CPU for 59 pages, 3.4 s for 195,
    88 s for 1000. To give the file its identifier, pydyf puts together and compresses every stream a second
    time: 6 % of the CPU of a pack of 135 pages. This holds for the whole process while one document is
    written.
    """
    pydyf: Any = import_module("pydyf")
    if version("pydyf") not in LOOKED_AT:
        yield
        return
    pdf, stream = pydyf.PDF, pydyf.Stream
    listing, writing, composing = pdf.page_references, pdf.write, stream.data
    pdf.page_references = property(_Listed(listing.fget))

    def write(self: Any, *arguments: Any, **named: Any) -> None:
        stream.data = property(_Composed(composing.fget))
        try:
            writing(self, *arguments, **named)
        finally:
            stream.data = composing

    pdf.write = write
    try:
        yield
    finally:
        pdf.page_references, pdf.write = listing, writing


class _Listed:
    """The references of one document's pages, listed again when it has more pages or is another one."""

    def __init__(self, listing: Callable[[Any], tuple[bytes, ...]]) -> None:
        self.listing = listing
        self.pdf: Any = None
        self.pages = -1
        self.references: tuple[bytes, ...] = ()

    def __call__(self, pdf: Any) -> tuple[bytes, ...]:
        pages = len(pdf.pages["Kids"])
        if pdf is not self.pdf or pages != self.pages:
            self.pdf, self.pages, self.references = pdf, pages, self.listing(pdf)
        return self.references


class _Composed:
    """The content of streams, by the stream, which is kept so that no other one takes its place."""

    def __init__(self, composing: Callable[[Any], bytes]) -> None:
        self.composing = composing
        self.kept: dict[int, tuple[Any, bytes]] = {}

    def __call__(self, stream: Any) -> bytes:
        if id(stream) not in self.kept:
            self.kept[id(stream)] = stream, self.composing(stream)
        return self.kept[id(stream)][1]
