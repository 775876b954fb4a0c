"""Files on the disk: written, copied and linked, and surely there before anything relies on them."""

import ctypes
import os
import shutil
import sys
from collections.abc import Iterable
from hashlib import sha512
from pathlib import Path
from typing import NamedTuple

from revealbook.archive.refusal import Refused

_PIECE = 1 << 20
_FEW = 60
"""Up to so many new files are brought to the disk one by one; more of them by one call for all."""


class Digested(NamedTuple):
    """A file whose digest was taken before it was looked at; it is stored only if it is still the same."""

    path: Path
    sha512: str


def digest_of(source: bytes | Path | Digested) -> str:
    """Give the SHA-512 of bytes or of a file, in lower-case hexadecimal digits."""
    if isinstance(source, Digested):
        return source.sha512
    whole = sha512()
    if isinstance(source, bytes):
        whole.update(source)
    else:
        with source.open("rb") as file:
            while piece := file.read(_PIECE):
                whole.update(piece)
    return whole.hexdigest()


def store_file(source: bytes | Path | Digested, digest: str, target: Path) -> None:
    """Write bytes or copy a file to a new place.

    Raises:
        Refused: the file changed since its digest was taken.
    """
    target.parent.mkdir(parents=True, exist_ok=True)
    if isinstance(source, bytes):
        target.write_bytes(source)
        return
    path = source.path if isinstance(source, Digested) else source
    whole = sha512()
    with path.open("rb") as read, target.open("xb") as written:
        while piece := read.read(_PIECE):
            whole.update(piece)
            written.write(piece)
    if whole.hexdigest() != digest:
        raise Refused(f"{path} was changed while it was being filed; file it again when it is finished.")


def link_tree(old: Path, new: Path, leave_out: Iterable[str]) -> list[Path]:
    """Make a folder that holds the same files as another by links; by copies where links are impossible.

    Args:
        old: the folder; it stays as it is.
        new: the folder to make.
        leave_out: names directly below the old one that are not taken over.

    Returns:
        The files that had to be copied.
    """
    left_out, copied = frozenset(leave_out), []

    def take(source: str, target: str) -> str:
        try:
            os.link(source, target)
        except OSError:  # another file system's ways, or a system that protects links
            shutil.copyfile(source, target)
            copied.append(Path(target))
        return target

    def ignored(folder: str, _names: list[str]) -> frozenset[str]:
        return left_out if Path(folder) == old else frozenset()

    shutil.copytree(old, new, copy_function=take, ignore=ignored)
    return copied


def flush(root: Path, new: Iterable[Path]) -> None:
    """Bring files and all folders below a root to the disk.

    Args:
        root: the folder.
        new: the files in it that were written now; links to old ones are on the disk already.
    """
    files = list(new)
    if len(files) > _FEW and _flush_file_system(root):
        return
    for path in (*files, *(Path(folder) for folder, _, _ in os.walk(root))):
        flush_one(path)


def flush_one(path: Path) -> None:
    """Bring one file, or the names in one folder, to the disk."""
    if os.name == "nt" and path.is_dir():
        return  # Windows has no such call for folders
    opened = os.open(path, os.O_RDWR if os.name == "nt" else os.O_RDONLY)
    try:
        os.fsync(opened)
    finally:
        os.close(opened)


def _flush_file_system(root: Path) -> bool:
    """Bring everything on a folder's file system to the disk by one call, if there is one (Linux: syncfs)."""
    library = ctypes.CDLL(None, use_errno=True) if sys.platform == "linux" else None
    if library is None or not hasattr(library, "syncfs"):
        return False
    opened = os.open(root, os.O_RDONLY)
    try:
        return bool(library.syncfs(opened) == 0)
    finally:
        os.close(opened)
