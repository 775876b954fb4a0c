"""THE STEP: a template and what it shows, to HTML or PDF."""

from collections.abc import Mapping, Sequence
from dataclasses import replace
from datetime import UTC, datetime

from revealbook.render.embed import Attachment
from revealbook.render.fonts import coverage, showable
from revealbook.render.look import Look
from revealbook.render.pdf import Rendered, typeset
from revealbook.render.templates import fill, folders

_NOTHING: Mapping[str, object] = {}


def render_html(
    template: str,
    context: Mapping[str, object],
    *,
    look: Look,
    made: datetime,
    shared: Mapping[str, object] = _NOTHING,
) -> str:
    """Fill a template.

    Args:
        template: its name, such as "pack.html".
        context: what it shows.
        look: paper, language, folders.
        made: the date that the page carries, with zone; from the data, never from the clock.
        shared: names that every template and macro sees, such as a function that translates.

    Returns:
        The whole page; characters that no font can show are written as `[U+1F600]`.

    Raises:
        RenderFailed: the template is missing or wrong, or asks for something that the context lacks.
        ValueError: `made` has no zone.
    """
    return showable(_filled(template, context, look, made, shared))


def render_pdf(
    template: str,
    context: Mapping[str, object],
    *,
    look: Look,
    made: datetime,
    attachments: Sequence[Attachment] = (),
    shared: Mapping[str, object] = _NOTHING,
) -> Rendered:
    """Fill a template and typeset it as PDF/A-3a and PDF/UA-1.

    Arguments are those of `render_html`; `attachments` are files to carry inside the PDF.

    Raises:
        RenderFailed: as `render_html`, or a picture or style is missing, refused or not accessible.
        ValueError: `made` has no zone, or two attachments have one name.
    """
    html = _filled(template, context, look, made, shared)
    rendered = typeset(
        showable(html), roots=(*folders(look), *look.photo_roots), attachments=attachments, made=made
    )
    spelt_out = tuple(f"No font shows {one!r}; it is printed as {showable(one)}." for one in coverage(html))
    return replace(rendered, warnings=(*spelt_out, *rendered.warnings))


def _filled(
    template: str, context: Mapping[str, object], look: Look, made: datetime, shared: Mapping[str, object]
) -> str:
    if made.tzinfo is None:
        raise ValueError("The time a page is made has no zone.")
    stamp = made.astimezone(UTC).strftime("%Y-%m-%dT%H:%M:%SZ")
    return fill(template, context, look, {**shared, "made_utc": stamp})
