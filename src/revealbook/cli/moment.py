"""The moment that a command writes into what it makes."""

import os
from datetime import UTC, datetime

import typer


def moment() -> datetime | None:
    """Give now, or the moment that SOURCE_DATE_EPOCH asks for; None once a wrong one is told."""
    epoch = os.environ.get("SOURCE_DATE_EPOCH")
    try:
        return datetime.fromtimestamp(int(epoch), UTC) if epoch else datetime.now(UTC).astimezone()
    except (ValueError, OverflowError, OSError):
        typer.echo("SOURCE_DATE_EPOCH is no number of seconds since 1970; unset it or correct it.", err=True)
        return None
