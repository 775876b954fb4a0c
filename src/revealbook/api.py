"""The whole path on one page: load > measure > judge > present > render; works without the terminal."""

from dataclasses import dataclass, replace
from datetime import UTC, datetime
from pathlib import Path
from typing import TYPE_CHECKING

from revealbook.present.present import Pack, present
from revealbook.present.sheet import pictures_of
from revealbook.present.words import languages, words_in
from revealbook.records.load import PHOTOS, look_into
from revealbook.rules.judge_site import Checked, Progress, judge_site
from revealbook.rules.judged import JudgedSite
from revealbook.source.problem import Problem

if TYPE_CHECKING:
    from revealbook.render.photos import Photo

TEMPLATES = "report_templates"
"""A site's own templates, if it has any."""


def check(path: Path, progress: Progress | None = None) -> Checked:
    """Read a site folder and judge all its openings.

    Args:
        path: the site folder.
        progress: told after each opening.
    """
    folder = look_into(path)
    if isinstance(folder, Problem):
        return Checked(None, (folder,))
    checked = judge_site(folder, progress=progress)
    unspoken = _unspoken(checked.judged)
    return replace(checked, judged=None, problems=(*unspoken, *checked.problems)) if unspoken else checked


def _unspoken(judged: JudgedSite | None) -> tuple[Problem, ...]:
    """Give a problem if nothing is translated into the language that the site asks for."""
    known = languages()
    if judged is None or judged.site.site.language in known:
        return ()
    facts = {"name": judged.site.site.language, "known": tuple(known)}
    return (Problem(judged.site.sheet.place(("language",)), "language_unknown", facts),)


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


def pack(
    judged: JudgedSite, path: Path, cache: Path, made: datetime | None = None
) -> Packed | tuple[Problem, ...]:
    """Render the handover pack of a judged site.

    Args:
        judged: the site.
        path: its folder, for photographs and its own templates.
        cache: folder for scaled photographs; may be deleted at any time.
        made: the date it carries; the latest moment that any record mentions if left out.

    Returns:
        The pack, or the photographs that cannot be used.

    Raises:
        RenderFailed: a template is wrong or asks for what is not there.
    """
    from revealbook.render.codes import qr  # noqa: PLC0415 - as below
    from revealbook.render.embed import Attachment  # noqa: PLC0415 - checking must not load the typesetter
    from revealbook.render.look import Look  # noqa: PLC0415
    from revealbook.render.render import render_pdf  # noqa: PLC0415

    site = judged.site.site
    words = words_in(site.language)
    pages = present(judged, words)
    dated = made or pages.last_entry or datetime(2000, 1, 1, tzinfo=UTC)
    photos = _photos(judged, path / PHOTOS, cache)
    if isinstance(photos, tuple):
        return photos
    own = path / TEMPLATES
    look = Look(site.paper, site.language, own if own.is_dir() else None, (cache,))
    attachments = [
        Attachment(file.name, file.content, file.description, file.media_type, file.relationship, dated)
        for file in pages.carried
    ]
    context = {"pack": pages, "photos": photos, "made": dated}
    shared = {"words": words, "say": words.say, "qr": qr}
    rendered = render_pdf("pack.html", context, look=look, made=dated, attachments=attachments, shared=shared)
    return Packed(rendered.pdf, rendered.pages, pages, rendered.warnings)


def _photos(judged: JudgedSite, folder: Path, cache: Path) -> "dict[str, Photo] | tuple[Problem, ...]":
    """Scale every photograph that the records name; all that cannot be used, if any cannot."""
    from revealbook.render.photos import NoPhoto, derive  # noqa: PLC0415 - as above

    ready: dict[str, Photo] = {}
    problems: list[Problem] = []
    for opening in judged.openings:
        for place, photo in pictures_of(opening.record.opening).items():
            found = ready.get(photo.file) or derive(folder / photo.file, cache)
            if isinstance(found, NoPhoto):
                facts = {"file": photo.file, "why": found.why}
                where = opening.record.sheet.place((*place, "file"))
                problems.append(Problem(where, "photo_unusable", facts))
            else:
                ready[photo.file] = found
    return tuple(problems) or ready
