"""The typesetter's list of pages, kept while a document is written."""

from importlib.metadata import version

import pydyf
import pytest

from revealbook.render import page_list
from revealbook.render.page_list import pages_listed_once


def _with_pages(count: int) -> pydyf.PDF:
    pdf = pydyf.PDF()
    for _ in range(count):
        pdf.add_page(pydyf.Dictionary())
    return pdf


def test_pages_are_listed_once_and_as_before() -> None:
    pdf = _with_pages(3)
    before = pdf.page_references
    with pages_listed_once():
        assert pdf.page_references == before
        assert pdf.page_references is pdf.page_references
    assert pdf.page_references is not pdf.page_references


def test_a_page_that_is_added_is_listed() -> None:
    pdf = _with_pages(1)
    with pages_listed_once():
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
    with pages_listed_once():
        assert (one.page_references, other.page_references) == own
        assert one.page_references == own[0]


def test_the_list_is_the_typesetters_again_after_a_failure() -> None:
    theirs = pydyf.PDF.page_references
    with pytest.raises(ValueError, match="broken"), pages_listed_once():
        raise ValueError("broken")
    assert pydyf.PDF.page_references is theirs


def test_a_version_that_nobody_has_looked_at_is_left_alone(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(page_list, "LISTED_ANEW", ())
    theirs = pydyf.PDF.page_references
    with pages_listed_once():
        assert pydyf.PDF.page_references is theirs


def test_the_installed_version_is_a_known_one() -> None:
    assert version("pydyf") in page_list.LISTED_ANEW, "look whether it still lists all pages for each tag"
