"""YAML text to plain data that remembers where each value stands.

One parser for every file: libyaml, by way of PyYAML's event interface. It is used for nodes and their marks
only; what a scalar means is decided in `scalars` (YAML 1.2), and everything that could surprise - anchors,
aliases, tags, duplicate keys, deep nesting, huge files - is refused with its place.
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

_PLAIN = "plain"
_QUOTED = "quoted"

Marks = tuple[int, int, Any]  # line, column (from 1), marks of the parts or None


@dataclass(frozen=True, slots=True)
class Document:
    """One file read.

    Attributes:
        file: its path as shown to the user.
        data: plain dicts, lists, text, numbers, truth values and None.
        marks: the places of the same tree, for `follow.at`.
    """

    file: str
    data: Any
    marks: Marks


class _Refused(Exception):  # noqa: N818 - it never leaves this module
    def __init__(self, mark: Any, code: str, **facts: object) -> None:
        super().__init__(code)
        self.mark, self.code, self.facts = mark, code, facts


class _NodeLoader(CParser):
    """libyaml's parser with a resolver that only tells plain scalars from quoted ones."""

    def resolve(self, kind: type, _value: Any, implicit: Any) -> str:
        return _PLAIN if kind is yaml.ScalarNode and implicit[0] else _QUOTED

    def descend_resolver(self, _parent: Any, _index: Any) -> None:
        """Nothing depends on the path here."""

    def ascend_resolver(self) -> None:
        """Nothing depends on the path here."""


def read(path: Path, shown_as: str) -> Document | Problem:
    """Read one YAML file.

    Args:
        path: the file.
        shown_as: how its places name it, e.g. `openings/W-2.07.yaml`.

    Returns:
        The document, or the first thing that keeps it from being read.
    """
    try:
        raw = path.read_bytes()
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
    return _compose(text, shown_as)


def _compose(text: str, file: str) -> Document | Problem:
    loader = _NodeLoader(text)
    try:
        node = loader.get_single_node()
        if node is None:
            return Problem(Place(file), "empty_file")
        data, marks = _walk(node, node.start_mark, 0, set())
    except _Refused as refused:
        return Problem(_place(file, refused.mark), refused.code, refused.facts)
    except yaml.reader.ReaderError as error:
        line = text.count("\n", 0, max(error.position, 0)) + 1
        return Problem(Place(file, line), "control_character")
    except yaml.MarkedYAMLError as error:
        return _syntax_problem(error, text, file)
    finally:
        loader.dispose()
    return Document(file, data, marks)


def _syntax_problem(error: yaml.MarkedYAMLError, text: str, file: str) -> Problem:
    mark = error.problem_mark or error.context_mark
    place = _place(file, mark) if mark else Place(file)
    lines = text.splitlines()
    line = lines[place.line - 1] if 0 < place.line <= len(lines) else ""
    if "\t" in line[: len(line) - len(line.lstrip())]:
        return Problem(place, "tab", {})
    if error.problem and "but found another document" in error.problem:
        return Problem(place, "second_document", {})
    return Problem(place, "yaml_syntax", {"parser_says": error.problem or str(error)})


def _place(file: str, mark: Any) -> Place:
    return Place(file, mark.line + 1, mark.column + 1)


def _walk(node: Any, mark: Any, depth: int, seen: set[int]) -> tuple[Any, Marks]:
    """Turn a node into data and marks; `mark` is where its place is said to be (the key, in a mapping)."""
    if depth > MAX_DEPTH:
        raise _Refused(node.start_mark, "too_deep", limit=MAX_DEPTH)
    if node.tag not in (_PLAIN, _QUOTED):
        raise _Refused(node.start_mark, "tag", tag=node.tag)
    if id(node) in seen:
        raise _Refused(mark, "alias")
    seen.add(id(node))
    line, column = mark.line + 1, mark.column + 1
    if type(node) is yaml.ScalarNode:
        return (meaning(node.value) if node.tag == _PLAIN else node.value), (line, column, None)
    if type(node) is yaml.SequenceNode:
        pairs = [_walk(item, item.start_mark, depth + 1, seen) for item in node.value]
        return [data for data, _ in pairs], (line, column, [marks for _, marks in pairs])
    data, marks = _walk_mapping(node, depth, seen)
    return data, (line, column, marks)


def _walk_mapping(node: Any, depth: int, seen: set[int]) -> tuple[dict[str, Any], dict[str, Marks]]:
    data: dict[str, Any] = {}
    marks: dict[str, Marks] = {}
    for key, value in node.value:
        if type(key) is not yaml.ScalarNode:
            raise _Refused(key.start_mark, "key_not_text")
        name = key.value
        if name in marks:
            raise _Refused(key.start_mark, "duplicate_key", key=name, first_line=marks[name][0])
        data[name], marks[name] = _walk(value, key.start_mark, depth + 1, seen)
    return data, marks
