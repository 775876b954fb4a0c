"""The sheet of one opening inside its pack: its pages by the pack's bookmarks, and a copy of them."""

import os
import re
from collections.abc import Iterable
from pathlib import Path
from typing import NamedTuple

import pypdfium2

from revealbook.archive.file import PACKS
from revealbook.archive.store import Archive
from revealbook.lookup.question import Found
from revealbook.present.words import N_, languages, words_in


class Pages(NamedTuple):
    """Pages of a PDF, counted from 1, both included."""

    first: int
    last: int


def pack_of(archive: Archive, found: Found) -> Path | None:
    """Give the pack that holds an opening as a file in the archive; None if the index knows of none.

    Raises:
        Refused: the archive does not hold it any more.
        Damaged: the archive's inventory is not what was written.
    """
    if not found.pack:
        return None
    return archive.content(found.site, found.until, f"{PACKS}{found.pack}")


def sheet_pages(pack: Path, mark: str) -> Pages | None:
    """Find the pages of an opening's sheet; None if the PDF cannot be read or has no such bookmark.

    Args:
        pack: the PDF.
        mark: the opening's mark.
    """
    titles, starts = titles_of([mark]), bookmarks(pack)
    first = next((page for title, page in starts if title in titles), None)
    if first is None:
        return None
    return Pages(first, min(page for _, page in starts if page > first) - 1)


def titles_of(marks: Iterable[str]) -> dict[str, str]:
    """Give the bookmarks that lead to openings' sheets, in every language, each with its mark."""
    return {
        words_in(language).say(N_("Opening {mark}"), mark=mark): mark
        for language in languages()
        for mark in marks
    }


def bookmarks(pack: Path) -> list[tuple[str, int]]:
    """Give the chief bookmarks of a PDF with their pages, counted from 1; none if it cannot be read.

    What follows the last page stands at the end, without a title.
    """
    try:
        with pypdfium2.PdfDocument(os.fspath(pack)) as pdf:
            marked = [(one.get_title(), one.get_dest()) for one in pdf.get_toc() if one.level == 0]
            starts = [(title, place.get_index()) for title, place in marked if place is not None]
            return [*((title, at + 1) for title, at in starts if at is not None), ("", len(pdf) + 1)]
    except pypdfium2.PdfiumError:
        return []


def copy_sheet(pack: Path, pages: Pages, to: Path) -> None:
    """Copy pages of a pack into a PDF of their own.

    The copy is for reading and printing. It has no tags, is no PDF/A and carries no records; it cannot be
    judged again, and proves nothing: the pack does.

    Args:
        pack: the PDF.
        pages: which pages.
        to: the file to write.
    """
    with pypdfium2.PdfDocument(os.fspath(pack)) as pdf, pypdfium2.PdfDocument.new() as copy:
        copy.import_pages(pdf, list(range(pages.first - 1, pages.last)))
        to.parent.mkdir(parents=True, exist_ok=True)
        copy.save(os.fspath(to))


def sheet_name(found: Found) -> str:
    """Give the name of a copied sheet's file: site, mark and version."""
    mark = re.sub(r"[^\w.+-]", "-", found.mark)
    return f"{found.site}-{mark}-version-{found.until}.pdf"
