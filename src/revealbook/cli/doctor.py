"""`revealbook doctor`: whether this machine can make packs."""

import typer

from revealbook.cli.exit_codes import UNUSABLE, WELL
from revealbook.render.doctor import examine


def run() -> int:
    """Print what was looked at, and what to install."""
    found = examine()
    for one in found:
        sign = "well   " if one.well else "MISSING" if one.needed else "better "
        typer.echo(f"{sign}  {one.subject}: {one.words}")
    return UNUSABLE if any(one.needed and not one.well for one in found) else WELL
