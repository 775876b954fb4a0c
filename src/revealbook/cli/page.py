"""`revealbook page`, and `revealbook find --page`: openings as one page for people without a terminal."""

from collections.abc import Iterable, Mapping, Sequence
from pathlib import Path

import typer

from revealbook.archive.refusal import Damaged, Refused
from revealbook.archive.store import Archive
from revealbook.cli.exit_codes import UNUSABLE, WELL
from revealbook.cli.file import tell_refused
from revealbook.cli.moment import moment
from revealbook.cli.terminal import plain, progress
from revealbook.lookup.filed import Entry
from revealbook.lookup.question import Found
from revealbook.making.archive_page import make_archive_page
from revealbook.making.filed_sites import damaged_site, list_site
from revealbook.present.archive_page import archive_page
from revealbook.present.asked import asked
from revealbook.present.listed import FiledSite, ListedOpening
from revealbook.present.words import words_in

_Listed = tuple[FiledSite, tuple[ListedOpening, ...]]


def run(path: Path, to: Path, sites: Sequence[str], language: str) -> int:
    """Write the page of an archive; give 0, or 2 if there is no such archive or site, or one is damaged."""
    try:
        archive = Archive.open(path)
        whole = _write(archive, to, sites or archive.sites(), language)
    except Refused as refused:
        tell_refused(refused)
        return UNUSABLE
    return WELL if whole else UNUSABLE


def write_found(
    archive: Archive, to: Path, found: Iterable[Found], question: Mapping[str, object], language: str
) -> bool:
    """Write a page of openings that were found; tell whether all could be listed.

    Raises:
        Refused: a version without facts cannot be judged.
    """
    kept = {(one.site, one.mark, one.since) for one in found}
    sites = sorted({site for site, _, _ in kept})
    return _write(archive, to, sites, language, kept=kept, asked_for=asked(question, words_in(language)))


def _write(
    archive: Archive,
    to: Path,
    sites: Sequence[str],
    language: str,
    *,
    kept: set[tuple[str, str, int]] | None = None,
    asked_for: str = "",
) -> bool:
    words, made, beside = words_in(language), moment(), to.resolve().parent
    whole, listed = True, list[_Listed]()

    def wanted(entry: Entry) -> bool:
        return entry.latest if kept is None else (entry.facts.site, entry.facts.mark, entry.since) in kept

    with progress("sites") as seen:
        for number, site in enumerate(sites, 1):
            try:
                listed.append(list_site(archive, site, words, beside=beside, kept=wanted))
            except Damaged as damage:
                tell_refused(damage)
                whole = False
                listed.append((damaged_site(site, str(damage), words), ()))
            seen(number, len(sites), site)
    openings = [opening for _, of_site in listed for opening in of_site]
    page = archive_page(
        archive.path.resolve().name, [site for site, _ in listed], openings, made, words, asked=asked_for
    )
    to.parent.mkdir(parents=True, exist_ok=True)
    to.write_bytes(make_archive_page(page, made, language))
    typer.echo(plain(f"{to}: {page.as_of}"), err=kept is not None)  # `find` may print JSON
    return whole
