"""One filer at a time for a site: locks that a stopped filer does not keep."""

import json
import os
import socket
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from datetime import UTC, datetime
from getpass import getuser
from pathlib import Path

from filelock import FileLock, Timeout

from revealbook.archive.refusal import Busy

_SOON_S = 1.0
"""After so long a wait is told."""


def nobody_asks(_sentence: str) -> None:
    """Tell nobody that there is a wait."""


@contextmanager
def held(
    locks: Path, name: str, patience_s: float, waiting: Callable[[str], None] = nobody_asks
) -> Iterator[None]:
    """Hold a lock; the system frees it if this process is stopped, however hard.

    Args:
        locks: the folder of locks.
        name: whose lock, as a site's id.
        patience_s: how long to wait for another filer, s; 0 not at all.
        waiting: told once, in a sentence, if there is a wait.

    Raises:
        Busy: another filer held it all the time.
    """
    locks.mkdir(parents=True, exist_ok=True)
    lock, holder = FileLock(locks / f"{name}.lock"), locks / f"{name}.holder"
    started = time.monotonic()
    try:
        lock.acquire(timeout=min(patience_s, _SOON_S))
    except Timeout:
        left = patience_s - (time.monotonic() - started)
        if left > 0:
            waiting(f"{_said(name, holder)}; waiting ...")
        _acquire_or_tell(lock, name, holder, max(left, 0))
    try:
        _write(holder)
        yield
    finally:
        holder.unlink(missing_ok=True)
        lock.release()


def _acquire_or_tell(lock: FileLock, name: str, holder: Path, patience_s: float) -> None:
    try:
        lock.acquire(timeout=patience_s)
    except Timeout:
        raise Busy(f"{_said(name, holder)}; try again when that is done.") from None


def _write(holder: Path) -> None:
    since = datetime.now(UTC).astimezone().isoformat(timespec="seconds")
    told = {"user": _user(), "host": socket.gethostname(), "pid": os.getpid(), "since": since}
    unfinished = holder.with_suffix(".writing")
    unfinished.write_text(json.dumps(told), encoding="utf-8")
    unfinished.replace(holder)


def _user() -> str:
    try:
        return getuser()
    except (OSError, KeyError):  # a user without a name, as in some containers
        return "somebody"


def _said(name: str, holder: Path) -> str:
    """Say who holds a lock, as far as that can be known."""
    try:
        told = json.loads(holder.read_bytes())
        who = "{user} on {host}, process {pid}, since {since}".format_map(told)
    except (OSError, ValueError, KeyError, TypeError):
        who = "somebody else"
    return f"{name} is being filed just now by {who}"
