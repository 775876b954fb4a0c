"""Sheets rendered and written to a file, and what is said of it."""

from collections.abc import Callable
from pathlib import Path

import typer

from revealbook.cli.terminal import tell_failed
from revealbook.making.sheets import Sheets
from revealbook.render.failure import RenderFailed


def write_sheets(target: Path, make: Callable[[], Sheets], *, aside: bool) -> bool:
    """Render and write; give whether it was written.

    Args:
        target: the PDF.
        make: renders it.
        aside: whether what is said of it goes to the error output, because the output is for machines.
    """
    try:
        printed = make()
    except RenderFailed as failed:
        tell_failed(failed)
        return False
    target.parent.mkdir(parents=True, exist_ok=True)
    target.write_bytes(printed.pdf)
    for warning in printed.warnings:
        typer.echo(warning, err=True)
    typer.echo(f"{target}: {printed.pages} page{'' if printed.pages == 1 else 's'}", err=aside)
    return True
