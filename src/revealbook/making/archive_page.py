"""The page of an archive as one HTML file that needs nothing else: no server, no network, no program."""

import base64
import hashlib
from datetime import UTC, datetime

from markupsafe import Markup

from revealbook.present.archive_page import ArchivePage
from revealbook.present.words import words_in
from revealbook.render.look import Look
from revealbook.render.templates import fill


def make_archive_page(page: ArchivePage, made: datetime, language: str = "en") -> bytes:
    """Give the page as the bytes of an HTML file.

    Args:
        page: what it shows.
        made: the date that the page carries, with zone.
        language: the reader's language, `en` or `de`.

    Raises:
        ValueError: `made` has no zone, or there is no catalogue for the language.
        RenderFailed: a template is missing or wrong.
    """
    if made.tzinfo is None:
        raise ValueError("The time a page is made has no zone.")
    words, look = words_in(language), Look(language=language)
    stamp = made.astimezone(UTC).strftime("%Y-%m-%dT%H:%M:%SZ")
    shared: dict[str, object] = {"words": words, "say": words.say, "made_utc": stamp}
    style, script = (fill(f"archive_page.{kind}", {}, look, shared) for kind in ("css", "js"))
    shown: dict[str, object] = {
        "page": page,
        "style": Markup(style),  # noqa: S704 - our own files
        "script": Markup(script),  # noqa: S704
        "data": Markup(page.data),  # noqa: S704 - JSON without "<"
        "style_digest": _digest(style),
        "script_digest": _digest(script),
    }
    return fill("archive_page.html", shown, look, shared).encode()


def _digest(text: str) -> str:
    """Give the digest by which a page's policy allows one style or script and no other (CSP Level 2)."""
    return f"sha256-{base64.b64encode(hashlib.sha256(text.encode()).digest()).decode()}"
