"""`revealbook question`: what in the records of a site is worth asking about."""

import json
from pathlib import Path
from textwrap import fill

import typer
from platformdirs import user_cache_path
from rich.markup import escape

from revealbook.cli.exit_codes import UNUSABLE, WELL
from revealbook.cli.site import judged_site
from revealbook.cli.terminal import WIDTH, out, plain
from revealbook.inspection.question import Evidence, Photograph
from revealbook.inspection.questions import questions
from revealbook.present.questions import asked, questions_data, tally
from revealbook.present.words import words_in
from revealbook.records.load import PHOTOS
from revealbook.records.part import photos_named
from revealbook.render.photos import NoPhoto, derive
from revealbook.rules.judged import JudgedSite


def run(site: Path, *, json: bool = False) -> int:
    """Ask and print; 0 whenever the records could be read, for a question is no finding."""
    judged = judged_site(site)
    if judged is None:
        return UNUSABLE
    found = questions(Evidence(judged, _photographs(judged, site)))
    words = words_in(judged.site.site.language)
    if json:
        _print_json(questions_data(found, judged, words))
        return WELL
    console = out()
    for question in found:
        said = asked(question, judged, words)
        console.print(escape(fill(plain(said.openings), WIDTH)), style="bold")
        for text in (said.question, said.chance):
            console.print(escape(fill(plain(text), WIDTH, initial_indent="  ", subsequent_indent="  ")))
        for where in said.where:
            console.print(escape(plain(f"    {where}")), soft_wrap=True)
        console.print()
    console.print(escape(fill(tally(found, words), WIDTH)))
    return WELL


def _print_json(data: dict[str, object]) -> None:
    typer.echo(json.dumps(data, ensure_ascii=False, indent=1))


def _photographs(judged: JudgedSite, site: Path) -> dict[str, Photograph]:
    """Read the photographs that records name; one that cannot be read gives rise to no question here."""
    cache = user_cache_path("revealbook") / "photos"
    found: dict[str, Photograph] = {}
    for one in judged.openings:
        for named in photos_named(one.record.opening):
            file = named.photo.file
            if file not in found:
                photo = derive(site / PHOTOS / file, cache)
                if not isinstance(photo, NoPhoto):
                    found[file] = Photograph(photo.sha256, photo.taken)
    return found
