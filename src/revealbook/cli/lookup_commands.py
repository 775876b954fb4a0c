"""The commands of looking up filed packs: index, find, trace, story, page."""

import typer

lookup = typer.Typer(rich_markup_mode=None)
