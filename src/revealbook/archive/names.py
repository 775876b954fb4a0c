"""Names that every file system takes: of sites as folders, of logical paths, of content files."""

import re
from collections.abc import Collection, Iterable
from hashlib import sha256
from unicodedata import category, normalize

from revealbook.archive.refusal import Refused

_SITE = re.compile(r"[A-Za-z0-9]([A-Za-z0-9._ +-]*[A-Za-z0-9_+-])?")
_LONGEST_SITE = 60
_DEVICES = frozenset(
    {"con", "prn", "aux", "nul", *(f"{kind}{number}" for kind in ("com", "lpt") for number in range(10))}
)
"""Names that Windows keeps for devices, with any ending."""
_OWN = re.compile(r"extensions|ocfl[_.].*")
"""Names that the standard keeps for itself in a storage root."""
_STRANGE = re.compile(r'[<>:"|?*%~\x00-\x1f\x7f]|[. ]$')
"""What some file system does not take in a name, and the signs with which that is replaced."""
_LONGEST_PART = 200
"""Bytes of one part of a content path; file systems take 255."""


def check_site(site: str, others: Iterable[str] = ()) -> None:
    """Refuse a site's id that cannot be a folder's name on every system, or is one other already.

    Args:
        site: the id, as in site.yaml.
        others: sites that are in the archive.

    Raises:
        Refused: it holds a slash, ends in a point or blank, is a name that a system keeps for itself, or
            differs from another site by capital letters only.
    """
    stem = site.partition(".")[0].rstrip().casefold()
    if not _SITE.fullmatch(site) or len(site) > _LONGEST_SITE:
        why = "it may hold letters, digits, blanks and . _ + - only, and must not end in a point or blank"
    elif stem in _DEVICES or _OWN.fullmatch(site.casefold()):
        why = "that name is kept by Windows or by the archive standard"
    elif same := [one for one in others if one != site and one.casefold() == site.casefold()]:
        why = f"the archive holds {same[0]}, which some systems cannot tell from it"
    else:
        return
    raise Refused(f"The site's id {site!r} cannot be a folder of the archive: {why}.")


def check_paths(paths: Collection[str]) -> None:
    """Refuse logical paths that lead elsewhere, or of which one would be file and folder.

    Raises:
        Refused: a path is empty, absolute, goes up, holds a backslash or control character, or is a folder
            of another.
    """
    folders = {path[:place] for path in paths for place, sign in enumerate(path) if sign == "/"}
    for path in paths:
        parts = path.split("/")
        if _unwritable(path) or any(part in {"", ".", ".."} for part in parts):
            raise Refused(f"{path!r} cannot be a file's path in the archive.")
        if path in folders:
            raise Refused(f"{path} would be a file and a folder in the archive.")


class ContentNames:
    """Content paths for logical paths, each free and possible on every file system.

    Nearly always the content path is the logical path; it differs where a system would not take it, or
    would take it for another one.
    """

    def __init__(self, taken: Iterable[str] = ()) -> None:
        """Begin with the content paths that are taken."""
        self._taken = {_same(path) for path in taken}

    def give(self, folder: str, logical: str) -> str:
        """Give a free content path below a folder, and remember it.

        Args:
            folder: where, as `v2/content`.
            logical: the logical path.
        """
        path = plain = f"{folder}/{'/'.join(map(_possible, logical.split('/')))}"
        stem, point, ending = plain.rpartition(".")
        number = 1
        while _same(path) in self._taken:
            number += 1
            path = f"{stem}~{number}.{ending}" if point and "/" not in ending else f"{plain}~{number}"
        self._taken.add(_same(path))
        return path


def _unwritable(path: str) -> bool:
    """Whether a path holds a backslash, a control character or half a character."""
    return any(sign == "\\" or category(sign) in {"Cc", "Cs"} for sign in path)


def _same(path: str) -> str:
    """Give what is equal for names that some file system takes for one another."""
    return normalize("NFC", path).casefold()


def _possible(part: str) -> str:
    """Write one part of a path so that every file system takes it."""
    name = _STRANGE.sub(lambda found: f"%{ord(found[0]):02X}", part)
    if name.partition(".")[0].rstrip().casefold() in _DEVICES:
        name = f"%{ord(name[0]):02X}{name[1:]}"
    if len(name.encode()) > _LONGEST_PART:
        kept = name.encode()[: _LONGEST_PART // 2].decode(errors="ignore")
        name = f"{kept}~{sha256(part.encode()).hexdigest()[:16]}"
    return name
