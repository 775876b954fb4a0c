"""Files opened with the computer's own program for them."""

from collections.abc import Sequence
from pathlib import Path

import typer

from revealbook.cli.terminal import plain

MOST = 5
"""So many windows are opened at once; whoever asked for more finds the rest beside them."""


def show(files: Sequence[Path]) -> None:
    """Open files, or say where they lie if this computer has nothing to open them with."""
    for file in files[:MOST]:
        if typer.launch(str(file)) != 0:
            typer.echo(plain(f"Nothing on this computer opens it; it lies at {file}"), err=True)
            return
    if len(files) > MOST:
        typer.echo(plain(f"The first {MOST} are opened; the others lie in {files[0].parent}"), err=True)
