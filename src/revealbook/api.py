"""The whole path on one page: load > measure > judge > present > render; works without the terminal."""

from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass
from datetime import UTC, datetime
from itertools import chain
from pathlib import Path
from typing import TYPE_CHECKING

from pydantic import BaseModel

from revealbook.measures.measure import measure
from revealbook.measures.work import Surroundings, Work
from revealbook.present.present import Pack, present
from revealbook.present.sheet import pictures_of
from revealbook.present.words import languages, words_in
from revealbook.records.load import PHOTOS, Folder, load_records, load_site, look_into
from revealbook.records.opening import Opening
from revealbook.records.record import Record, SiteFile
from revealbook.rules.conceded import unknown_concessions
from revealbook.rules.judge import judge
from revealbook.rules.judged import JudgedOpening, JudgedSite
from revealbook.rules.overlay import Overlay
from revealbook.rules.read import read_rules
from revealbook.rules.rule_set import RuleSet, SourceFile
from revealbook.source.place import Place
from revealbook.source.problem import Problem
from revealbook.source.read import read
from revealbook.source.validate import validate

if TYPE_CHECKING:
    from revealbook.render.photos import Photo

Progress = Callable[[int, int, str], None]
"""Called with how many are done, of how many, and what was done last."""
TEMPLATES = "report_templates"
"""A site's own templates, if it has any."""


@dataclass(frozen=True, slots=True)
class Checked:
    """What checking a site folder gave.

    Attributes:
        judged: the site with every opening that could be read; None if the site file or rules could not.
        problems: everything that could not be read, in the order of the files.
    """

    judged: JudgedSite | None
    problems: tuple[Problem, ...]


def check(path: Path, progress: Progress | None = None) -> Checked:
    """Read a site folder and judge all its openings.

    Args:
        path: the site folder.
        progress: told after each opening.
    """
    folder = look_into(path)
    if isinstance(folder, Problem):
        return Checked(None, (folder,))
    site = load_site(folder)
    if not isinstance(site, SiteFile):
        return Checked(None, (*site, *_faults(folder, folder.overlays, Overlay),
                              *_faults(folder, folder.records, Opening)))  # fmt: skip
    rules = rules_of(folder, site)
    faults = (*_unspoken(site), *(() if isinstance(rules, RuleSet) else rules))
    records = load_records(folder, site.site)
    if faults or not isinstance(rules, RuleSet):
        unread = (record for record in records if not isinstance(record, Record))
        return Checked(None, (*faults, *chain.from_iterable(unread)))
    around = Surroundings.of(site.site, rules.method)
    judged: list[JudgedOpening] = []
    problems: list[Problem] = []
    for done, record in enumerate(records, start=1):
        found = (
            (tuple(unknown_concessions(record, rules)) or record) if isinstance(record, Record) else record
        )
        if isinstance(found, Record):
            judged.append(_judged(found, rules, around))
        else:
            problems.extend(found)
        if progress is not None:
            progress(done, len(folder.records), folder.records[done - 1].stem)
    return Checked(JudgedSite(site, rules, tuple(judged)), tuple(problems))


def _faults(folder: Folder, files: Iterable[Path], model: type[BaseModel]) -> Iterator[Problem]:
    """Give what is wrong with files by themselves, where there is no site to hold them against."""
    for file in files:
        document = read(file, folder.shown(file))
        valid = (document,) if isinstance(document, Problem) else validate(model, document)
        if isinstance(valid, tuple):
            yield from valid


def _unspoken(site: SiteFile) -> Iterator[Problem]:
    """Give a problem if nothing is translated into the language that the site asks for."""
    known = languages()
    if site.site.language not in known:
        facts = {"name": site.site.language, "known": tuple(known)}
        yield Problem(site.sheet.place(("language",)), "language_unknown", facts)


def _judged(record: Record, rules: RuleSet, around: Surroundings) -> JudgedOpening:
    readings = measure(Work(record.opening, around), rules.measures)
    return JudgedOpening(record, judge(rules, readings))


def rules_of(folder: Folder, site: SiteFile) -> RuleSet | tuple[Problem, ...]:
    """Read the rule set in force on a site, with its overlays."""
    overlays: list[SourceFile] = []
    unreadable: list[Problem] = []
    for file in folder.overlays:
        try:
            overlays.append(SourceFile(folder.shown(file), file.read_bytes()))
        except OSError as error:
            facts = {"reason": error.strerror or str(error)}
            unreadable.append(Problem(Place(folder.shown(file)), "unreadable", facts))
    rules = read_rules(site.site.rules.set, site.site.rules.edition, overlays)
    if not unreadable:
        return rules
    return (*unreadable, *(() if isinstance(rules, RuleSet) else rules))


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
    shared = {"words": words, "say": words.say}
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
