"""`revealbook story`: how one opening was fixed."""

import json
from collections.abc import Iterator
from pathlib import Path
from textwrap import wrap
from typing import Any, Literal

import typer

from revealbook.archive.refusal import Refused
from revealbook.archive.store import Archive
from revealbook.cli.exit_codes import UNUSABLE, WELL
from revealbook.cli.file import tell_refused
from revealbook.cli.terminal import WIDTH, plain
from revealbook.lookup.story import Story, story_of
from revealbook.making.filed_sites import opening_pages
from revealbook.present.story import CAUTION
from revealbook.present.words import N_, Words, words_in

_NAME = "{site}/{mark}"
_BOUND = "\u00a0"
Pages = dict[int, tuple[str, int]]


def run(path: Path, opening: str, language: str, form: Literal["text", "json"]) -> int:
    """Tell; give 0, or 2 if there is no such archive or opening."""
    words = words_in(language)
    try:
        site, mark = split(opening)
        archive = Archive.open(path)
        story = story_of(archive, site, mark, words)
        pages = opening_pages(archive, site, [mark]).get(mark, {})
    except Refused as refused:
        tell_refused(refused)
        return UNUSABLE
    if form == "json":
        typer.echo(json.dumps(_plain(story, pages, words), ensure_ascii=False, indent=1))
        return WELL
    for line in _lines(story, pages, words):
        typer.echo(line)
    return WELL


def split(opening: str) -> tuple[str, str]:
    """Take `SITE/MARK` apart.

    Raises:
        Refused: it is not two names with a slash between.
    """
    site, slash, mark = opening.partition("/")
    if not (site and slash and mark):
        raise Refused(f"{opening!r} names no opening; write SITE/MARK, as larch-court/W-2.07.")
    return site, mark


def _lines(story: Story, pages: Pages, words: Words) -> Iterator[str]:
    yield plain(_NAME.format(site=story.site, mark=story.mark))
    for part in story.parts:
        yield ""
        yield part.heading
        for sentence in part.sentences:
            yield from _wrapped(sentence)
    yield ""
    for said in _pack(story, pages, words):
        yield from wrap(plain(said), WIDTH, subsequent_indent="  ", break_on_hyphens=False)
    yield ""
    yield from wrap(words.say(CAUTION), WIDTH)


def _wrapped(sentence: str) -> Iterator[str]:
    """Break a sentence into lines; a number stays with its unit."""
    kept = _BOUND.join(plain(part) for part in sentence.split(_BOUND))
    for line in wrap(kept, WIDTH, initial_indent="  ", subsequent_indent="    "):
        yield line.replace(_BOUND, " ")


def _pack(story: Story, pages: Pages, words: Words) -> Iterator[str]:
    """Say where the pack is, and on which pages this opening stands."""
    yield words.say(N_("Pack: {file}"), file=story.pack)
    for number, (name, page) in sorted(pages.items()):
        yield words.say(N_("Version {number}: {name}, page {page}"), number=number, name=name, page=page)
    if not story.agrees:
        yield words.say(N_("This pack does not agree with itself; `revealbook judge-again` tells where."))


def _plain(story: Story, pages: Pages, words: Words) -> dict[str, Any]:
    return {
        "site": story.site,
        "mark": story.mark,
        "outcome": story.judged.outcome.value,
        "parts": [
            {"key": part.key, "heading": part.heading, "sentences": part.sentences} for part in story.parts
        ],
        "record": story.judged.record.opening.model_dump(mode="json", exclude_none=True),
        "versions": [
            {
                "version": one.number,
                "filed_at": one.at.isoformat(),
                "filed_by": one.by,
                "note": one.note,
                "holds_opening": one.holds,
                "changes": [
                    {"rule": change.rule, "before": change.kept, "now": change.now} for change in one.changes
                ],
            }
            for one in story.filings
        ],
        "afterwards": [one.model_dump(mode="json", exclude_none=True) for one in story.later],
        "pack": str(story.pack),
        "pack_agrees_with_itself": story.agrees,
        "pages": [
            {"version": number, "pack": name, "page": page} for number, (name, page) in sorted(pages.items())
        ],
        "caution": words.say(CAUTION),
    }
