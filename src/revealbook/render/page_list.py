"""A list of pages that the typesetter is spared writing anew for every tag; no byte of the PDF changes."""

from collections.abc import Callable, Iterator
from contextlib import contextmanager
from importlib import import_module
from importlib.metadata import version
from typing import Any

LISTED_ANEW = ("0.13.0",)
"""Versions of pydyf that are known to list all pages whenever one is asked for."""


@contextmanager
def pages_listed_once() -> Iterator[None]:
    """Keep a document's list of pages until a page is added.

    Each tag names its page, and pydyf writes the references of *all* pages to give one: tags times pages.
    Estimated from the cost of one listing and the number of tags: 0.4 s of CPU for 59 pages, 3.4 s for 195,
    88 s for 1000. This holds for the whole process while one document is written. Other versions of pydyf
    are left alone: nobody has looked.
    """
    pdf: Any = import_module("pydyf").PDF
    if version("pydyf") not in LISTED_ANEW:
        yield
        return
    theirs = pdf.page_references
    pdf.page_references = property(_Kept(theirs.fget))
    try:
        yield
    finally:
        pdf.page_references = theirs


class _Kept:
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
