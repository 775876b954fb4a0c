"""The one typeface of every page, and the characters it can show.

Fonts of the host never reach a page: the same record gives the same page on a laptop, a server and a
machine that has no font at all (where the typesetter would otherwise end the whole process).
"""

import os
import re
import tempfile
from functools import cache
from pathlib import Path

import fontpkg_fira_sans
from fontTools.ttLib import TTFont

FAMILY = "Fira Sans"
FACES = ("Regular", "Italic", "Medium", "MediumItalic", "SemiBold", "SemiBoldItalic", "Bold", "BoldItalic")

_CONFIGURATION = """<?xml version="1.0"?>
<!DOCTYPE fontconfig SYSTEM "urn:fontconfig:fonts.dtd">
<fontconfig>
  <dir>{folder}</dir>
  <cachedir>{cache}</cachedir>
  <selectfont>
    <rejectfont><glob>*</glob></rejectfont>
    <acceptfont>{accepted}</acceptfont>
  </selectfont>
</fontconfig>
"""
# Laid out without a glyph of their own: line ends, tab, soft hyphen, joiners, break opportunities, selectors,
# and the spaces of every width (made from the plain one).
_WITHOUT_GLYPH = frozenset(
    map(ord, "\n\r\t\u00ad\u200b\u200c\u200d\u2060\u202f\u205f\u3000\ufe0e\ufe0f")
) | frozenset(range(0x2000, 0x200B))
# The typeface has one hyphen; the others look the same. The second of these does not break.
_ALIKE = {"\u2010": "-", "\u2011": "-\u2060"}


def face_files() -> tuple[Path, ...]:
    """The font files that pages are set in, static TrueType, SIL Open Font License 1.1."""
    return tuple(fontpkg_fira_sans.ROOT / "files" / f"FiraSans-{face}.ttf" for face in FACES)


def use_own_fonts_only() -> Path:
    """Point fontconfig at the shipped faces and nothing else; call before the typesetter is imported.

    Returns:
        The configuration written, in a folder that goes when the process ends.
    """
    configuration = Path(_folder().name) / "fonts.conf"
    if not configuration.exists():
        configuration.write_text(
            _CONFIGURATION.format(
                folder=face_files()[0].parent,
                cache=configuration.parent / "cache",
                accepted="".join(f"<glob>{file}</glob>" for file in face_files()),
            ),
            encoding="utf-8",
        )
    os.environ["FONTCONFIG_FILE"] = str(configuration)
    return configuration


@cache
def _folder() -> tempfile.TemporaryDirectory[str]:
    return tempfile.TemporaryDirectory(prefix="revealbook-fonts-")


@cache
def characters() -> frozenset[int]:
    """Code points that every face can show (read from the fonts' own character maps)."""
    maps = []
    for file in face_files():
        with TTFont(file, lazy=True) as font:
            maps.append(frozenset(font.getBestCmap()))
    return frozenset.intersection(*maps)


@cache
def _unshowable() -> re.Pattern[str]:
    known = sorted(characters() | _WITHOUT_GLYPH)
    return re.compile("[^" + "".join(re.escape(chr(point)) for point in known) + "]")


def coverage(text: str) -> tuple[str, ...]:
    """Characters of the text that no font here can show, each once, in the order of their code points."""
    return tuple(sorted(set(_unshowable().findall(text)) - _ALIKE.keys()))


def showable(text: str) -> str:
    """The text with each character that no font can show written out as its code point, `[U+1F600]`.

    Hyphens that the typeface lacks become the one that it has.

    An empty box would hide what the record says, and PDF/A forbids it (ISO 19005-3, 6.2.11.8).
    """
    return _unshowable().sub(lambda found: _ALIKE.get(found[0]) or f"[U+{ord(found[0]):04X}]", text)
