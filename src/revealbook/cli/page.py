"""`revealbook page`: an archive as one page for people without a terminal."""

from collections.abc import Sequence
from pathlib import Path

import typer

from revealbook.archive.refusal import Refused
from revealbook.archive.store import Archive
from revealbook.cli.exit_codes import UNUSABLE, WELL
from revealbook.cli.file import tell_refused
from revealbook.cli.moment import moment
from revealbook.making.archive_page import make_archive_page
from revealbook.making.filed_sites import list_site
from revealbook.present.archive_page import archive_page
from revealbook.present.words import words_in


def run(path: Path, to: Path, sites: Sequence[str], language: str) -> int:
    """Write the page; give 0, or 2 if there is no such archive or site."""
    words, made = words_in(language), moment()
    try:
        archive = Archive.open(path)
        listed = [
            list_site(archive, site, words, beside=to.resolve().parent) for site in sites or archive.sites()
        ]
    except Refused as refused:
        tell_refused(refused)
        return UNUSABLE
    openings = [opening for _, of_site in listed for opening in of_site]
    page = archive_page(path.resolve().name, [site for site, _ in listed], openings, made, words)
    to.parent.mkdir(parents=True, exist_ok=True)
    to.write_bytes(make_archive_page(page, made, language))
    typer.echo(f"{to}: {page.as_of}")
    return WELL
