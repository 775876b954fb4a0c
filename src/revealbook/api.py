"""The whole path on one page: load > measure > judge > present > render; works without the terminal."""

from dataclasses import replace
from datetime import datetime
from pathlib import Path
from typing import TYPE_CHECKING

from revealbook.present.words import languages
from revealbook.records.load import look_into
from revealbook.rules.judge_site import Checked, Progress, judge_site
from revealbook.rules.judged import JudgedSite
from revealbook.source.problem import Problem

if TYPE_CHECKING:
    from revealbook.making.pack import Packed


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


def pack(
    judged: JudgedSite, path: Path, cache: Path, made: datetime | None = None
) -> "Packed | tuple[Problem, ...]":
    """Render the handover pack of a judged site as one PDF.

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
    from revealbook.making.pack import make_pack, pack_of, photographs  # noqa: PLC0415 - checking loads no typesetter

    photos = photographs(judged, path, cache)
    if isinstance(photos, tuple):
        return photos
    return make_pack(pack_of(judged), photos, path, cache, made)
