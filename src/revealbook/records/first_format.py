"""Files of record format 1, brought into the shape of format 2 as they are read.

Format 1 told of the adhesive once, as keys below `frame.bonding`; format 2 lists applications. The file
itself stays as it is, and every value keeps its place in it. Nothing is added that the file does not say.
"""

from collections.abc import Mapping
from dataclasses import replace
from pathlib import Path
from typing import Any

from revealbook.source.follow import at
from revealbook.source.problem import Problem
from revealbook.source.read import Document, Marks, read

FORMAT = 2
KNOWN = (1, FORMAT)
_HOLD_FRAMES: tuple[tuple[str, ...], ...] = ((), ("readings",))
"""Where a frame may stand: in a record, and below the readings of what was measured again."""
_PIECES = ("bottom", "left", "right", "top")
_OF_BATCH = {"batch": "number", "expires": "expires"}


def read_record(path: Path, shown_as: str) -> Document | Problem:
    """Read a site file, a record or a later record of any known format, in the shape of format 2.

    Args:
        path: the file.
        shown_as: how its places name it.
    """
    document = read(path, shown_as)
    return document if isinstance(document, Problem) else in_format_2(document)


def in_format_2(document: Document) -> Document | Problem:
    """Give a document in the shape of format 2, values and places alike, or what keeps it from that."""
    data = document.data
    if not isinstance(data, dict):
        return document
    stated = data.get("format", 1)
    if type(stated) is not int or stated not in KNOWN:
        place = at(document.marks, ("format",), document.file)
        return Problem(place, "unknown_format", {"value": stated, "known": KNOWN})
    if stated == FORMAT:
        return document
    line, column, parts = document.marks
    data, parts = {**data, "format": FORMAT}, dict(parts)
    for path in _HOLD_FRAMES:
        _upgrade_bonding(data, parts, (*path, "frame"))
    return replace(document, data=data, marks=(line, column, parts))


def _upgrade_bonding(data: dict[str, Any], marks: dict[str, Marks], path: tuple[str, ...]) -> None:
    """Make a list of one application out of the bonding below `path`, in copies of what leads there."""
    for key in path:
        if not isinstance(data.get(key), dict):
            return
        line, column, parts = marks[key]
        data[key], marks[key] = dict(data[key]), (line, column, dict(parts))
        data, marks = data[key], marks[key][2]
    bonding = data.get("bonding")
    if isinstance(bonding, dict):
        line, column, parts = marks["bonding"]
        application, places = _application(bonding, parts, (line, column))
        data["bonding"] = [application]
        marks["bonding"] = (line, column, [(line, column, places)])


def _application(
    bonding: Mapping[str, Any], parts: Mapping[str, Marks], start: tuple[int, int]
) -> tuple[dict[str, Any], dict[str, Marks]]:
    """Give an application of all four pieces with its places; a key that format 1 does not know stays."""
    kept = {key: key for key in bonding if key not in _OF_BATCH}
    if "laid_at" not in bonding and "at" in bonding:
        kept["at"] = "laid_at"
    made: dict[str, Any] = {"of": list(_PIECES)}
    made |= {new: bonding[old] for old, new in kept.items()}
    places = {new: parts[old] for old, new in kept.items()}
    batch = {new: bonding[old] for old, new in _OF_BATCH.items() if old in bonding}
    if batch and "batches" not in bonding:
        of_batch = {new: parts[old] for old, new in _OF_BATCH.items() if old in bonding}
        made["batches"] = [batch]
        places["batches"] = (*start, [(*start, of_batch)])
    return made, places
