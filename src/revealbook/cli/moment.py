"""The moment that a command writes into what it makes."""

import os
from datetime import UTC, datetime

import typer

from revealbook.cli.exit_codes import UNUSABLE


def moment() -> datetime:
    """Give the moment that SOURCE_DATE_EPOCH asks for, or now; a wrong one is told and ends the command."""
    return asked_moment() or datetime.now(UTC).astimezone()


def asked_moment() -> datetime | None:
    """Give the moment that SOURCE_DATE_EPOCH asks for, if it does; a wrong one ends the command."""
    epoch = os.environ.get("SOURCE_DATE_EPOCH")
    try:
        return datetime.fromtimestamp(int(epoch), UTC) if epoch else None
    except (ValueError, OverflowError, OSError) as error:
        typer.echo("SOURCE_DATE_EPOCH is no number of seconds since 1970; unset it or correct it.", err=True)
        raise typer.Exit(UNUSABLE) from error
