"""A PostgreSQL server for one run of tests, if its programs are on this machine."""

import os
import shutil
import subprocess
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from tempfile import mkdtemp

_OWNER = "postgres"


def programs() -> Path | None:
    """Find the folder of the server's programs."""
    beside = sorted(Path("/usr/lib/postgresql").glob("*/bin"), key=lambda one: one.parent.name, reverse=True)
    on_path = shutil.which("initdb")
    folders = [*([Path(on_path).parent] if on_path else []), *beside]
    return next((one for one in folders if (one / "initdb").exists()), None)


@contextmanager
def server() -> Iterator[str | None]:
    """Give the address of a server: that of REVEALBOOK_POSTGRES, or of a new one without a network."""
    if address := os.environ.get("REVEALBOOK_POSTGRES"):
        yield address
        return
    folder = programs()
    if folder is None:
        yield None
        return
    home = Path(mkdtemp(prefix="revealbook-pg-", dir="/tmp"))  # a socket's path must be short
    if os.geteuid() == 0:  # the server refuses to run as root
        shutil.chown(home, _OWNER)
    try:
        _run(folder / "initdb", "-D", home / "data", "-U", "tester", "-A", "trust", "-E", "UTF8", "-N")
        options = f"-c listen_addresses= -c unix_socket_directories={home} -c fsync=off"
        _run(folder / "pg_ctl", "-D", home / "data", "-w", "-l", home / "log", "-o", options, "start")
        yield f"postgresql://tester@/postgres?host={home}"
    finally:
        _run(folder / "pg_ctl", "-D", home / "data", "-m", "immediate", "-w", "stop", check=False)
        shutil.rmtree(home, ignore_errors=True)


def _run(*command: str | Path, check: bool = True) -> None:
    owner = _OWNER if os.geteuid() == 0 else None
    done = subprocess.run(
        [str(part) for part in command],
        check=False,
        capture_output=True,
        cwd="/",
        text=True,
        user=owner,
        group=owner,
    )
    if check and done.returncode:
        raise RuntimeError(f"{command[0]} failed: {done.stdout} {done.stderr}")
