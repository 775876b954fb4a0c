"""One pack: a judged site to the bytes of its PDF."""

from dataclasses import dataclass
from datetime import UTC, datetime
from pathlib import Path

from revealbook.present.present import Pack, present
from revealbook.present.sheet import pictures_of
from revealbook.present.words import words_in
from revealbook.records.load import PHOTOS
from revealbook.render.codes import qr
from revealbook.render.embed import Attachment
from revealbook.render.look import Look
from revealbook.render.photos import NoPhoto, Photo, derive
from revealbook.render.render import render_pdf
from revealbook.rules.judged import JudgedSite
from revealbook.source.problem import Problem

TEMPLATES = "report_templates"
"""A site's own templates, if it has any."""
NEVER_DATED = datetime(2000, 1, 1, tzinfo=UTC)
"""The date of a pack in which nothing is dated."""


@dataclass(frozen=True, slots=True)
class Packed:
    """A rendered handover pack.

    Attributes:
        pdf: its bytes.
        pages: how many pages.
        pack: what it shows.
        warnings: what its maker should know.
    """

    pdf: bytes
    pages: int
    pack: Pack
    warnings: tuple[str, ...]


def make_pack(pack: Pack, photos: dict[str, Photo], path: Path, cache: Path, made: datetime | None) -> Packed:
    """Render presented pages: a pack, or the index of volumes if it names any.

    Args:
        pack: what the pages show.
        photos: scaled photographs by the name that records give them.
        path: the site folder, for its own templates.
        cache: folder that holds the scaled photographs.
        made: the date the PDF carries; the latest moment that any record mentions if left out.

    Raises:
        RenderFailed: a template is wrong or asks for what is not there.
    """
    words = words_in(pack.site.language)
    dated = made or pack.last_entry or NEVER_DATED
    own = path / TEMPLATES
    look = Look(pack.site.paper, pack.site.language, own if own.is_dir() else None, (cache,))
    attachments = [
        Attachment(
            file.name, file.content, words.say(file.description), file.media_type, file.relationship, dated
        )
        for file in pack.carried
    ]
    context = {"pack": pack, "photos": photos, "made": dated}
    shared = {"words": words, "say": words.say, "qr": qr}
    template = "index.html" if pack.volumes else "pack.html"
    rendered = render_pdf(template, context, look=look, made=dated, attachments=attachments, shared=shared)
    return Packed(rendered.pdf, rendered.pages, pack, rendered.warnings)


def pack_of(judged: JudgedSite, *, with_sheets: bool = True) -> Pack:
    """Present a judged site in its own language, without its openings' sheets if it is for an index."""
    return present(judged, words_in(judged.site.site.language), with_sheets=with_sheets)


def photographs(judged: JudgedSite, path: Path, cache: Path) -> dict[str, Photo] | tuple[Problem, ...]:
    """Scale every photograph that the records name; all that cannot be used, if any cannot.

    Args:
        judged: the site.
        path: its folder.
        cache: folder for the scaled ones; may be deleted at any time.
    """
    ready: dict[str, Photo] = {}
    problems: list[Problem] = []
    for opening in judged.openings:
        for place, photo in pictures_of(opening.record.opening).items():
            found = ready.get(photo.file) or derive(path / PHOTOS / photo.file, cache)
            if isinstance(found, NoPhoto):
                facts = {"file": photo.file, "why": found.why}
                problems.append(
                    Problem(opening.record.sheet.place((*place, "file")), "photo_unusable", facts)
                )
            else:
                ready[photo.file] = found
    return tuple(problems) or ready
