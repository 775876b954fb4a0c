"""Filers in processes of their own, killed before a step on the disk, and what they left there."""

import json
import multiprocessing
import runpy
import signal
from collections.abc import Callable
from multiprocessing.process import BaseProcess
from pathlib import Path

from revealbook.archive.store import Archive

_FILER = str(Path(__file__).parent / "filer.py")
_SERVER = multiprocessing.get_context("forkserver")
_SERVER.set_forkserver_preload(["revealbook.archive.receive"])


def start(do: Callable[[], object], stop_before: int = 0) -> BaseProcess:
    """Start a process that files something, and may kill itself before a step."""
    job = {"do": do, "stop_before": stop_before}
    child = _SERVER.Process(target=runpy.run_path, args=(_FILER, {"job": job}))
    child.start()
    return child


def killed(do: Callable[[], object], step: int) -> bool:
    """Have something filed by a process that kills itself before a step; whether it came to that."""
    child = start(do, step)
    child.join()
    status = child.exitcode
    child.close()
    assert status in {0, -signal.SIGKILL}
    return status != 0


def versions_on_disk(archive: Archive, site: str) -> int:
    """Count versions as they lie there, by nothing of ours; 0 if there is no site."""
    file = archive.path / "store" / site / "inventory.json"
    return len(json.loads(file.read_bytes())["versions"]) if file.exists() else 0


def unseen(_done: int, _total: int, _name: str) -> None:
    """See nothing; unlike a lambda it can go to another process."""
