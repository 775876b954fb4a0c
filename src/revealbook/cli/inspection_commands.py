"""The commands of the clerk's desk: sample, compare, questions."""

import typer

inspection = typer.Typer(rich_markup_mode=None)
