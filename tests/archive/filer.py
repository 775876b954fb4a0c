"""A process that files something; run by path in a process of its own, with `job` given as a global.

It calls `job["do"]`. With `stop_before` it kills itself the way the system would, right before its n-th step
on the disk: opening, making, linking, renaming or removing something, or asking the system to exchange two
folders.
"""

import os
import signal
import sys
from typing import Any

STEPS = ("open", "os.mkdir", "os.link", "os.rename", "os.remove", "os.rmdir", "shutil.", "ctypes.dlsym")
job: dict[str, Any] = globals()["job"]
steps = 0


def count(event: str, _arguments: object) -> None:
    """Count steps, and kill this process before the one asked for."""
    global steps  # noqa: PLW0603 - a hook keeps its count nowhere else
    if event.startswith(STEPS):
        steps += 1
        if steps == job["stop_before"]:
            os.kill(os.getpid(), signal.SIGKILL)


if job["stop_before"]:
    sys.addaudithook(count)
job["do"]()
