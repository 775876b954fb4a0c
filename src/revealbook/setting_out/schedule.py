"""A schedule of openings, as CSV or XLSX, to the identities of blank records."""

import csv
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from io import StringIO
from itertools import islice
from pathlib import Path
from typing import Any
from zipfile import BadZipFile

from pydantic import ValidationError

from revealbook.records.opening import Identity
from revealbook.source.nearest import nearest
from revealbook.source.place import Place
from revealbook.source.problem import Problem

COLUMNS = (
    "mark", "building", "floor", "elevation", "room", "serial", "drawing", "width_mm", "height_mm",
    "height_above_ground_m", "distance_from_corner_m",
)  # fmt: skip
"""The columns that a schedule may have, called as the keys of a record; `mark` must be there."""
MAX_BYTES = 10_000_000
MAX_ROWS = 5_000
_NUMBERS = frozenset(name for name in COLUMNS if name.endswith(("_mm", "_m")))
_DELIMITERS = ";,\t|"
_TEXT_ENCODINGS = ("utf-8-sig", "cp1252")
"""Spreadsheets write either; every file can be read as the second."""

Row = tuple[int, Sequence[Any]]
"""A line of the schedule, counted from 1, and its cells."""


@dataclass(frozen=True, slots=True)
class Listed:
    """One opening of a schedule, and the line it stands in."""

    line: int
    identity: Identity


def read_schedule(path: Path) -> tuple[Listed, ...] | tuple[Problem, ...]:
    """Read a schedule of openings.

    The first line names the columns, as the keys of a record are called (`COLUMNS`). Delimiter and decimal
    sign of a CSV file are found out from the file; of a workbook the first sheet is read, and of a formula
    its last value.

    Args:
        path: a file ending in .csv, .tsv, .txt or .xlsx.

    Returns:
        The openings in the order of the schedule; or everything that is wrong with it, all at once.
    """
    rows = _rows(path)
    if isinstance(rows, Problem):
        return (rows,)
    if not rows:
        return (Problem(Place(path.name), "schedule_empty"),)
    heading, *body = rows
    columns = [_plain(cell) for cell in heading[1]]
    wrong = tuple(_wrong_columns(columns, Place(path.name, heading[0])))
    if wrong:
        return wrong
    openings, problems = _openings(columns, body, path.name)
    return tuple(problems) or tuple(openings)


def _rows(path: Path) -> list[Row] | Problem:
    try:
        size = path.stat().st_size
        if size > MAX_BYTES:
            return Problem(Place(path.name), "too_large", {"bytes": size, "limit": MAX_BYTES})
        read = _of_workbook(path) if path.suffix.lower() == ".xlsx" else _of_text(path)
        rows = list(islice(((line, cells) for line, cells in read if any(map(_plain, cells))), MAX_ROWS + 2))
    except (OSError, csv.Error) as error:
        reason = getattr(error, "strerror", None) or str(error)
        return Problem(Place(path.name), "unreadable", {"reason": reason})
    except (BadZipFile, KeyError, ValueError):
        return Problem(Place(path.name), "unreadable", {"reason": "this is no workbook"})
    if len(rows) > MAX_ROWS + 1:
        return Problem(Place(path.name), "schedule_too_long", {"limit": MAX_ROWS})
    return rows


def _of_text(path: Path) -> Iterator[Row]:
    raw = path.read_bytes()
    text = next(filter(None, (_decoded(raw, encoding) for encoding in _TEXT_ENCODINGS)), "")
    first = text.partition("\n")[0]
    delimiter = max(_DELIMITERS, key=first.count)
    reader = csv.reader(StringIO(text, newline=""), delimiter=delimiter)
    return ((reader.line_num, cells) for cells in reader)


def _decoded(raw: bytes, encoding: str) -> str | None:
    try:
        return raw.decode(encoding)
    except UnicodeDecodeError:
        return None


def _of_workbook(path: Path) -> Iterator[Row]:
    # A second to load, and only needed here.
    from openpyxl import load_workbook  # noqa: PLC0415
    from openpyxl.utils.exceptions import InvalidFileException  # noqa: PLC0415

    try:
        workbook = load_workbook(path, read_only=True, data_only=True)
    except InvalidFileException as error:
        raise ValueError(str(error)) from error
    try:
        yield from enumerate(workbook.worksheets[0].iter_rows(values_only=True), start=1)
    finally:
        workbook.close()


def _plain(cell: Any) -> str:
    if cell is None:
        return ""
    if isinstance(cell, float) and cell.is_integer():
        return f"{cell:.0f}"
    return str(cell).strip()


def _wrong_columns(columns: Sequence[str], place: Place) -> Iterator[Problem]:
    seen: set[str] = set()
    for number, name in enumerate(columns, start=1):
        here = Place(place.file, place.line, number)
        if name in seen and name:
            yield Problem(here, "repeated_column", {"name": name})
        elif name and name not in COLUMNS:
            facts = {"name": name, "nearest": nearest(name, COLUMNS), "columns": COLUMNS}
            yield Problem(here, "unknown_column", facts)
        seen.add(name)
    if "mark" not in seen:
        yield Problem(place, "mark_column_missing", {"columns": COLUMNS})


def _openings(columns: Sequence[str], body: Sequence[Row], file: str) -> tuple[list[Listed], list[Problem]]:
    openings: list[Listed] = []
    problems: list[Problem] = []
    lines: dict[str, int] = {}
    for line, cells in body:
        made = list(_opening(columns, cells, Place(file, line)))
        problems += [one for one in made if isinstance(one, Problem)]
        for identity in made:
            if not isinstance(identity, Identity):
                continue
            earlier = lines.setdefault(identity.mark.lower(), line)
            if earlier != line:
                facts = {"name": identity.mark, "first_line": earlier}
                problems.append(Problem(Place(file, line), "mark_listed_twice", facts))
            openings.append(Listed(line, identity))
    return openings, problems


def _opening(columns: Sequence[str], cells: Sequence[Any], place: Place) -> Iterator[Identity | Problem]:
    """Give a line's identity, or everything that is wrong with the line."""
    known: dict[str, object] = {}
    wrong = False
    for number, (name, cell) in enumerate(zip(columns, cells, strict=False), start=1):
        text = _plain(cell)
        if not name or not text:
            continue
        value = _number(text) if name in _NUMBERS else text
        if value is None:
            wrong = True
            here = Place(place.file, place.line, number)
            yield Problem(here, "cell_not_a_number", {"key": name, "value": text})
        else:
            known[name] = value
    if wrong:
        return
    if "mark" not in known:
        yield Problem(place, "mark_missing")
    elif "/" in str(known["mark"]):
        yield Problem(place, "mark_no_file_name", {"name": known["mark"]})
    else:
        yield from _valid(known, columns, place)


def _number(text: str) -> float | None:
    """Read a number with a decimal point or comma; spaces and apostrophes may part thousands."""
    bare = text.replace("\u00a0", "").replace("\u202f", "").replace(" ", "").replace("'", "")
    if bare.count(",") == 1 and bare.rfind(",") > bare.rfind("."):
        bare = bare.replace(".", "").replace(",", ".")
    try:
        return float(bare)
    except ValueError:
        return None


def _valid(known: Mapping[str, object], columns: Sequence[str], place: Place) -> Iterator[Identity | Problem]:
    try:
        yield Identity.model_validate(known)
    except ValidationError as error:
        for details in error.errors(include_url=False):
            name = str(details["loc"][0])
            here = Place(place.file, place.line, columns.index(name) + 1)
            facts = {"key": name, "value": details["input"], **details.get("ctx", {})}
            yield Problem(here, _CODES.get(details["type"], "cell_refused"), facts)


_CODES = {
    "greater_than_equal": "too_small",
    "less_than_equal": "too_large_value",
    "finite_number": "cell_not_a_number",
    "string_pattern_mismatch": "not_a_name",
    "string_too_long": "text_too_long",
}
