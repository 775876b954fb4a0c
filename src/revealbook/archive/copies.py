"""Other copies of what an archive lost: found by content, wherever they lie and whatever they are called."""

from collections.abc import Iterable
from pathlib import Path

from revealbook.archive.disk import digest_of


def find_copies(wanted: Iterable[str], folders: Iterable[Path]) -> dict[str, Path]:
    """Find files by their SHA-512 below some folders: another archive, an unpacked bag, a site folder.

    Args:
        wanted: the digests.
        folders: where to look.

    Returns:
        For each digest the first file that has it; nothing for those that no file has.
    """
    lacking, found = set(wanted) - {""}, dict[str, Path]()
    for file in (file for folder in folders for file in sorted(folder.rglob("*"))):
        if not lacking:
            break
        if file.is_file():
            digest = digest_of(file)
            if digest in lacking:
                found[digest] = file
                lacking.discard(digest)
    return found
