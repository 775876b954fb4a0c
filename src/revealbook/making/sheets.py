"""What is printed besides the packs; here what is needed before the work: setting out and cutting list."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime
from pathlib import Path

from revealbook.making.pack import TEMPLATES
from revealbook.present.cutting import cutting_sheets
from revealbook.present.planned import planned_site
from revealbook.present.words import words_in
from revealbook.records.site import Site
from revealbook.render.codes import qr
from revealbook.render.embed import Attachment
from revealbook.render.look import Look
from revealbook.render.render import render_pdf
from revealbook.setting_out.site import SetOutSite
from revealbook.setting_out.site_cuts import ProfileCuts, Saw


@dataclass(frozen=True, slots=True)
class Sheets:
    """Rendered sheets.

    Attributes:
        pdf: their bytes.
        pages: how many pages.
        warnings: what their maker should know.
    """

    pdf: bytes
    pages: int
    warnings: tuple[str, ...]


def make_setting_out(found: SetOutSite, path: Path, made: datetime) -> Sheets:
    """Render the setting-out sheets of a site.

    Args:
        found: its openings as set out.
        path: the site folder, for its own templates.
        made: the date that the sheets carry.

    Raises:
        RenderFailed: a template is wrong or asks for what is not there.
    """
    site = found.site.site
    shown: dict[str, object] = {"planned": planned_site(found, words_in(site.language))}
    return render_sheets("setting_out.html", shown, look_of(site, path), made)


def make_cutting_list(
    found: SetOutSite, profiles: tuple[ProfileCuts, ...], saw: Saw, path: Path, made: datetime
) -> Sheets:
    """Render the cutting list of a site; arguments and errors as `make_setting_out`, with list and saw."""
    site = found.site.site
    shown: dict[str, object] = {"cutting": cutting_sheets(found, profiles, saw, words_in(site.language))}
    return render_sheets("cutting.html", shown, look_of(site, path), made)


def look_of(site: Site, path: Path) -> Look:
    """Give how the sheets of a site look: its paper, its language, the templates of its own folder."""
    own = path / TEMPLATES
    return Look(site.paper, site.language, own if own.is_dir() else None)


def render_sheets(
    template: str,
    shown: dict[str, object],
    look: Look,
    made: datetime,
    *,
    carried: Sequence[Attachment] = (),
) -> Sheets:
    """Render what is printed besides the packs.

    Args:
        template: the template.
        shown: what it shows.
        look: paper, language, own templates.
        made: the date that the sheets carry.
        carried: files to carry inside the PDF.

    Raises:
        RenderFailed: a template is wrong or asks for what is not there.
    """
    words = words_in(look.language)
    shared = {"words": words, "say": words.say, "qr": qr}
    rendered = render_pdf(
        template, {**shown, "made": made}, look=look, made=made, attachments=carried, shared=shared
    )
    return Sheets(rendered.pdf, rendered.pages, rendered.warnings)
