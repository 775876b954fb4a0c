"""From a path of keys and list positions to the place where that value stands."""

from collections.abc import Sequence

from revealbook.source.place import Place
from revealbook.source.read import Marks

Path = Sequence[str | int]


def at(marks: Marks, path: Path, file: str) -> Place:
    """Follow `path` down the marks of a document.

    A part that is no key here (a union's tag, a key that is missing) is stepped over, so a missing key gives
    the place of what should hold it.
    """
    line, column, parts = marks
    for part in path:
        found = None
        if isinstance(parts, dict):
            found = parts.get(part)
        elif isinstance(parts, list) and isinstance(part, int) and part < len(parts):
            found = parts[part]
        if found is not None:
            line, column, parts = found
    return Place(file, line, column)
