"""`revealbook begin`: a new site folder."""

from pathlib import Path
from shlex import quote

import typer

from revealbook.cli.exit_codes import UNUSABLE, WELL
from revealbook.records.begin import begin, record_file, site_id
from revealbook.records.load import SITE_FILE


def run(folder: Path, first: str) -> int:
    """Make the folder and say what to do next."""
    try:
        made = begin(folder, site_id(folder.resolve().name), first)
    except ValueError as error:
        typer.echo(str(error), err=True)
        return UNUSABLE
    except FileExistsError as error:
        typer.echo(f"{error.filename} is there already; nothing was changed.", err=True)
        return UNUSABLE
    for file in made:
        typer.echo(f"made {file}")
    typer.echo("\nWhat stays empty counts as not shown. Fill in:")
    for file in (folder / SITE_FILE, record_file(folder, first)):
        typer.echo(f"  {file}")
    typer.echo(f"then: revealbook check {quote(str(folder))}")
    return WELL
