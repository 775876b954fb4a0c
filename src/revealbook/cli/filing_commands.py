"""The commands of filing packs, their versions, sending and receiving, proof."""

import typer

filing = typer.Typer(rich_markup_mode=None)
