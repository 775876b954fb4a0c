"""Two folders exchanged in one step, so that at no moment is there neither or a mixture of both."""

import ctypes
import os
import sys
from collections.abc import Callable
from errno import EINVAL, ENOSYS, ENOTSUP, EOPNOTSUPP
from pathlib import Path

Swap = Callable[[Path, Path], bool]
"""Exchanges two folders at once; False if system or file system cannot, and then nothing was done."""
_HERE = -100
"""AT_FDCWD: paths count from the working folder."""
_EXCHANGE = 2
"""RENAME_EXCHANGE of Linux and RENAME_SWAP of macOS."""
_UNABLE = frozenset({ENOSYS, EINVAL, ENOTSUP, EOPNOTSUPP})


def swap(one: Path, other: Path) -> bool:
    """Exchange two folders of one file system by a single call (Linux: renameat2, macOS: renamex_np).

    Returns:
        Whether it was done; False if this system or file system has no such call, as many network shares.

    Raises:
        OSError: it was refused for another reason; nothing was done.
    """
    call = _call()
    if call is None:
        return False
    if call(os.fsencode(one), os.fsencode(other)) == 0:
        return True
    number = ctypes.get_errno()
    if number in _UNABLE:
        return False
    raise OSError(number, os.strerror(number), str(one), None, str(other))


def never(_one: Path, _other: Path) -> bool:
    """Exchange nothing, as a file system does that has no such call."""
    return False


def _call() -> Callable[[bytes, bytes], int] | None:
    """Find the system's call, if it has one."""
    if sys.platform not in {"linux", "darwin"}:
        return None
    library = ctypes.CDLL(None, use_errno=True)
    if hasattr(library, "renameat2"):
        return lambda one, other: int(library.renameat2(_HERE, one, _HERE, other, ctypes.c_uint(_EXCHANGE)))
    if hasattr(library, "renamex_np"):
        return lambda one, other: int(library.renamex_np(one, other, ctypes.c_uint(_EXCHANGE)))
    return None


def replace_folder(new: Path, target: Path, swap: Swap = swap) -> None:
    """Put a complete folder in the place of another, or in a place where there is none.

    Where folders cannot be exchanged, the old one steps aside first, to `old` beside the new one; whoever is
    stopped between these two steps leaves it there for `put_back`.

    Args:
        new: the complete folder, on the same file system.
        target: its place.
        swap: how two folders are exchanged.
    """
    if not target.exists():
        new.rename(target)
    elif not swap(new, target):
        target.rename(new.with_name("old"))
        new.rename(target)


def put_back(beside: Path, target: Path) -> bool:
    """Put a folder back that had stepped aside when its filer was stopped; whether there was one.

    Args:
        beside: the folder in which `old` may stand.
        target: the place it stepped aside from.
    """
    old = beside / "old"
    if target.exists() or not old.exists():
        return False
    old.rename(target)
    return True
