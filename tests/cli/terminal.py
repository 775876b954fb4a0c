"""Runs the commands as a terminal does: status, what was printed, and nothing else comes out."""

import os
import subprocess
import sys
from collections.abc import Iterator
from contextlib import chdir, contextmanager, redirect_stderr, redirect_stdout
from io import BytesIO, TextIOWrapper
from pathlib import Path
from typing import NamedTuple

from revealbook.cli.app import main


class Run(NamedTuple):
    """What a command left behind."""

    status: int
    out: str
    err: str


@contextmanager
def _given(arguments: tuple[str, ...]) -> Iterator[None]:
    before, width = sys.argv, os.environ.get("COLUMNS")
    sys.argv, os.environ["COLUMNS"] = ["revealbook", *arguments], "80"
    try:
        yield
    finally:
        sys.argv = before
        os.environ.pop("COLUMNS")
        if width is not None:
            os.environ["COLUMNS"] = width


def run(*arguments: str | Path, cwd: Path | None = None, encoding: str = "utf-8") -> Run:
    """Run a command in this process, its output being no terminal; an exception goes through."""
    out, err = (TextIOWrapper(BytesIO(), encoding=encoding) for _ in range(2))
    status: object = 0
    with (
        _given(tuple(map(str, arguments))),
        chdir(cwd or Path.cwd()),
        redirect_stdout(out),
        redirect_stderr(err),
    ):
        try:
            main()
        except SystemExit as left:
            status = left.code or 0
    said = []
    for stream in (out, err):
        stream.flush()
        said.append(stream.buffer.getvalue().decode(encoding))
    assert isinstance(status, int)
    return Run(status, *said)


def process(*arguments: str | Path, cwd: Path | None = None, **environment: str) -> Run:
    """Run a command in a process of its own."""
    command = [sys.executable, "-c", "from revealbook.cli.app import main; main()", *map(str, arguments)]
    done = subprocess.run(
        command, cwd=cwd, env={**os.environ, "COLUMNS": "80", **environment}, capture_output=True, check=False
    )
    return Run(done.returncode, done.stdout.decode(), done.stderr.decode())
