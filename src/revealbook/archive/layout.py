"""An archive's folders and the few files that say what they are."""

import json
from importlib.resources import files
from pathlib import Path

from revealbook.archive.refusal import NotAnArchive

READ_ME = "READ-ME.txt"
STORE, WORK = "store", "work"
LOCKS, STAGING = "locks", "staging"
ROOT_DECLARATION = ("0=ocfl_1.1", b"ocfl_1.1\n")
OBJECT_DECLARATION = ("0=ocfl_object_1.1", b"ocfl_object_1.1\n")
_FLAT = {
    "extension": "0002-flat-direct-storage-layout",
    "description": "The folder of an object is its id: the id of the site.",
}
LAYOUT = ("ocfl_layout.json", (json.dumps(_FLAT, indent=1) + "\n").encode())


def read_me() -> str:
    """Give the page for a person who has the archive, but not this program."""
    return (files("revealbook.archive") / "read-me.txt").read_text(encoding="utf-8")


def check_archive(path: Path) -> None:
    """Refuse a folder that is no archive.

    Raises:
        NotAnArchive: it is none, or was made by another version of the standard.
    """
    if not path.is_dir():
        raise NotAnArchive(f"There is no archive at {path}.")
    if not (path / STORE / ROOT_DECLARATION[0]).is_file():
        raise NotAnArchive(f"{path} is no archive: {STORE}/{ROOT_DECLARATION[0]} is not there.")


def is_made(path: Path) -> bool:
    """Whether an archive is at a path; if not, one may be made there.

    Raises:
        NotAnArchive: something else is there: neither an empty folder nor an archive half made.
    """
    if (path / STORE).exists():
        return True
    if path.exists() and not (path.is_dir() and {one.name for one in path.iterdir()} <= {READ_ME, WORK}):
        raise NotAnArchive(f"{path} is no archive and not empty; name an empty or new folder.")
    return False


def write_root(folder: Path) -> list[Path]:
    """Write what an empty storage root holds (OCFL 1.1, section 4) into an empty folder; give its files."""
    written = dict((ROOT_DECLARATION, LAYOUT))
    for name, content in written.items():
        (folder / name).write_bytes(content)
    return [folder / name for name in written]
