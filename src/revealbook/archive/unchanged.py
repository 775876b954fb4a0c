"""A filed file for use: its content is held against its digest first."""

from pathlib import Path

from revealbook.archive.disk import digest_of
from revealbook.archive.refusal import Damaged
from revealbook.archive.store import Archive, Version


def unchanged(archive: Archive, site: str, version: Version, path: str) -> Path:
    """Give the place of a file's content on the disk, if it is what was filed.

    Args:
        archive: where it is filed.
        site: the site's id.
        version: the version that holds it.
        path: the file, as the version names it.

    Raises:
        Refused: the version holds no such file.
        Damaged: the content is not what was filed, or cannot be read.
    """
    content = archive.content(site, version.number, path)
    which = f"{path} of {site}, version {version.number},"
    try:
        digest = digest_of(content)
    except OSError as error:
        raise Damaged(f"{which} cannot be read: {error.strerror}.") from error
    if digest != version.state[path]:
        raise Damaged(f"{which} is not what was filed; `revealbook prove` tells what could restore it.")
    return content
