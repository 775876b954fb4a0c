"""YAML text to plain data that remembers where each value stands.

One parser for every file: libyaml, by way of PyYAML's event interface. It is used for events and their marks
only; what a scalar means is decided in `scalars` (YAML 1.2), and everything that could surprise - anchors,
aliases, tags, duplicate keys, deep nesting, huge files - is refused with its place, before anything is built
from it.
"""

from dataclasses import dataclass
from pathlib import Path
from typing import Any

import yaml
from yaml.cyaml import CParser  # type: ignore[attr-defined]

from revealbook.source.place import Place
from revealbook.source.problem import Problem
from revealbook.source.scalars import meaning

MAX_BYTES = 2_000_000
MAX_DEPTH = 40

Marks = tuple[int, int, Any]  # line, column (from 1), marks of the parts or None


@dataclass(frozen=True, slots=True)
class Document:
    """One file read.

    Attributes:
        file: its path as shown to the user.
        data: plain dicts, lists, text, numbers, truth values and None.
        marks: the places of the same tree, for `follow.at`.
        raw: the bytes as they were read.
    """

    file: str
    data: Any
    marks: Marks
    raw: bytes


class _Refused(Exception):  # noqa: N818 - it never leaves this module
    def __init__(self, mark: Any, code: str, **facts: object) -> None:
        super().__init__(code)
        self.mark, self.code, self.facts = mark, code, facts


def read(path: Path, shown_as: str) -> Document | Problem:
    """Read one YAML file.

    Args:
        path: the file.
        shown_as: how its places name it, e.g. `openings/W-2.07.yaml`.

    Returns:
        The document, or the first thing that keeps it from being read.
    """
    try:
        with path.open("rb") as opened:
            raw = opened.read(MAX_BYTES + 1)
    except OSError as error:
        return Problem(Place(shown_as), "unreadable", {"reason": error.strerror or str(error)})
    return read_bytes(raw, shown_as)


def read_bytes(raw: bytes, shown_as: str) -> Document | Problem:
    """Read YAML from bytes, as `read` does from a file."""
    if len(raw) > MAX_BYTES:
        return Problem(Place(shown_as), "too_large", {"bytes": len(raw), "limit": MAX_BYTES})
    try:
        text = raw.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        line = raw.count(b"\n", 0, error.start) + 1
        return Problem(Place(shown_as, line), "not_utf8")
    return _compose(text, shown_as, raw)


def _compose(text: str, file: str, raw: bytes) -> Document | Problem:
    parser: Any = CParser(text)
    try:
        first = _start_of_document(parser)
        if first is None:
            return Problem(Place(file), "empty_file")
        data, marks = _walk(parser, first, first.start_mark, 0)
        _end_of_stream(parser)
    except _Refused as refused:
        return Problem(_place(file, refused.mark), refused.code, refused.facts)
    except yaml.reader.ReaderError as error:
        line = text.encode().count(b"\n", 0, max(error.position, 0)) + 1
        return Problem(Place(file, line), "control_character")
    except yaml.MarkedYAMLError as error:
        return _syntax_problem(error, text, file)
    finally:
        parser.dispose()
    return Document(file, data, marks, raw)


def _start_of_document(parser: Any) -> Any:
    """Give the first event of the document itself, or None if there is no document."""
    parser.get_event()  # the start of the stream
    if parser.check_event(yaml.StreamEndEvent):
        return None
    parser.get_event()  # the start of the document
    return parser.get_event()


def _end_of_stream(parser: Any) -> None:
    parser.get_event()  # the end of the document
    if not parser.check_event(yaml.StreamEndEvent):
        raise _Refused(parser.get_event().start_mark, "second_document")


def _syntax_problem(error: yaml.MarkedYAMLError, text: str, file: str) -> Problem:
    mark = error.problem_mark or error.context_mark
    place = _place(file, mark) if mark else Place(file)
    lines = text.splitlines()
    line = lines[place.line - 1] if 0 < place.line <= len(lines) else ""
    if "\t" in line[: len(line) - len(line.lstrip())]:
        return Problem(place, "tab", {})
    return Problem(place, "yaml_syntax", {"parser_says": error.problem or str(error)})


def _place(file: str, mark: Any) -> Place:
    return Place(file, mark.line + 1, mark.column + 1)


def _walk(parser: Any, event: Any, mark: Any, depth: int) -> tuple[Any, Marks]:
    """Turn an event and what belongs to it into data and marks.

    `mark` is where its place is said to be: that of the key, in a mapping.
    """
    _refuse_indirection(event)
    if depth > MAX_DEPTH:
        raise _Refused(event.start_mark, "too_deep", limit=MAX_DEPTH)
    line, column = mark.line + 1, mark.column + 1
    if type(event) is yaml.ScalarEvent:
        return (event.value if event.style else meaning(event.value)), (line, column, None)
    if type(event) is yaml.SequenceStartEvent:
        items, places = _walk_sequence(parser, depth)
        return items, (line, column, places)
    keyed, marks = _walk_mapping(parser, depth)
    return keyed, (line, column, marks)


def _walk_sequence(parser: Any, depth: int) -> tuple[list[Any], list[Marks]]:
    data: list[Any] = []
    marks: list[Marks] = []
    while type(event := parser.get_event()) is not yaml.SequenceEndEvent:
        item, place = _walk(parser, event, event.start_mark, depth + 1)
        data.append(item)
        marks.append(place)
    return data, marks


def _walk_mapping(parser: Any, depth: int) -> tuple[dict[str, Any], dict[str, Marks]]:
    data: dict[str, Any] = {}
    marks: dict[str, Marks] = {}
    while type(key := parser.get_event()) is not yaml.MappingEndEvent:
        name = _key(key)
        if name in marks:
            raise _Refused(key.start_mark, "duplicate_key", key=name, first_line=marks[name][0])
        data[name], marks[name] = _walk(parser, parser.get_event(), key.start_mark, depth + 1)
    return data, marks


def _key(event: Any) -> str:
    """Give a key's text: keys are text as written, whatever they look like."""
    if type(event) not in {yaml.ScalarEvent, yaml.AliasEvent}:
        raise _Refused(event.start_mark, "key_not_text")
    _refuse_indirection(event)
    return str(event.value)


def _refuse_indirection(event: Any) -> None:
    """Refuse an alias, an anchor that one could point to, and a tag."""
    if event.anchor is not None:
        raise _Refused(event.start_mark, "alias", name=event.anchor)
    if event.tag is not None:
        raise _Refused(event.start_mark, "tag", tag=event.tag)
