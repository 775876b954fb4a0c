"""`revealbook schema`: JSON Schemas for editors."""

import json

import typer
from pydantic import BaseModel

from revealbook.cli.exit_codes import UNUSABLE, WELL
from revealbook.records.schema import WRITTEN, schema
from revealbook.rules.overlay import Overlay
from revealbook.rules.read import RuleFile

KINDS: dict[str, type[BaseModel]] = {**WRITTEN, "rules": RuleFile, "overlay": Overlay}


def run(kind: str) -> int:
    """Print the schema of a kind of file."""
    if kind not in KINDS:
        typer.echo(f"{kind} is no kind of file; there are: {', '.join(KINDS)}.", err=True)
        return UNUSABLE
    typer.echo(json.dumps(schema(KINDS[kind], kind), indent=1, ensure_ascii=False))
    return WELL
