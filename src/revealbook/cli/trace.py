"""`revealbook trace`: which other openings share a cause, and why each is listed."""

import json
from collections.abc import Iterator
from dataclasses import asdict, dataclass
from datetime import datetime
from pathlib import Path
from textwrap import wrap
from typing import Literal

import typer

from revealbook.archive.refusal import Refused
from revealbook.cli.exit_codes import UNUSABLE, WELL
from revealbook.cli.file import tell_refused
from revealbook.cli.indexing import looked_into
from revealbook.cli.story import split
from revealbook.cli.terminal import WIDTH, plain
from revealbook.lookup.database import Database
from revealbook.lookup.trace import Alike, Cause, Traced, trace_batch, trace_fitter, trace_opening

CAUTION = (
    "A shared cause says where to look first, not what went wrong: indicative. Loads and adhesives defer to "
    "local codes, the supplier's written instructions and licensed practice."
)


@dataclass(frozen=True, slots=True)
class Asked:
    """What was asked on the command line: one of opening, batch and fitter."""

    archive: Path
    index: str | None = None
    opening: str | None = None
    batch: str | None = None
    fitter: str | None = None
    day: datetime | None = None
    most: int = 20


def run(asked: Asked, form: Literal["text", "json"]) -> int:
    """Trace; give 0, or 2 if there is no such archive, opening, batch or fitter."""
    try:
        _check(asked)
        with looked_into(asked.archive, asked.index) as looked:
            traced = _traced(looked.index, asked)
    except Refused as refused:
        tell_refused(refused)
        return UNUSABLE
    if form == "json":
        typer.echo(json.dumps({**asdict(traced), "caution": CAUTION}, ensure_ascii=False, indent=1))
    else:
        for line in _lines(traced):
            typer.echo(plain(line))
    return WELL


def _check(asked: Asked) -> None:
    named = [one for one in (asked.opening, asked.batch, asked.fitter) if one is not None]
    if len(named) != 1:
        raise Refused("Name one of --opening, --batch and --fitter.")
    if asked.day and asked.fitter is None:
        raise Refused("--day goes with --fitter.")


def _traced(index: Database, asked: Asked) -> Traced:
    if asked.opening is not None:
        return trace_opening(index, *split(asked.opening), asked.most)
    if asked.batch is not None:
        return trace_batch(index, asked.batch, asked.most)
    day = asked.day.date() if asked.day else None
    return trace_fitter(index, asked.fitter or "", day, asked.most)


def _lines(traced: Traced) -> Iterator[str]:
    for cause in traced.causes:
        yield from wrap(f"{_cause(cause)}: {cause.openings} of {traced.openings} openings", WIDTH)
    if not traced.causes:
        yield "No batch, fitter's day, weather below the limit or nonconformity is recorded of it."
    yield ""
    for one in traced.alike:
        yield from wrap(_opening(one), WIDTH, subsequent_indent="  ")
        for cause in one.shared:
            yield from wrap(_cause(cause), WIDTH, initial_indent="  ", subsequent_indent="    ")
    listed = len(traced.alike)
    more = f"; here the first {listed}, --most lists more" if listed < traced.number else ""
    yield f"{traced.number} {'opening' if traced.number == 1 else 'openings'}{more}"
    yield from wrap(CAUTION, WIDTH)


def _cause(cause: Cause) -> str:
    return f"{cause.kind}: {cause.name}"


def _opening(one: Alike) -> str:
    place = ", ".join(filter(None, (one.building, one.floor, one.room)))
    said = f"{one.site}/{one.mark}  rank {one.rank:.2f}  {one.outcome}"
    return f"{said}  ({place})" if place else said
