"""`revealbook begin`: a new site folder."""

from pathlib import Path

import typer

from revealbook.cli.exit_codes import UNUSABLE, WELL
from revealbook.records.begin import begin


def run(folder: Path, first: str) -> int:
    """Make the folder and say what to do next."""
    try:
        made = begin(folder, folder.resolve().name.lower().replace(" ", "-"), first)
    except FileExistsError as error:
        typer.echo(f"{error.args[0]} is there already; nothing was changed.", err=True)
        return UNUSABLE
    for file in made:
        typer.echo(f"made {file}")
    typer.echo(f"\nFill in {folder}/site.yaml and {made[-1]}, then: revealbook check {folder}")
    return WELL
