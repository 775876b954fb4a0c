"""Values of two plain documents held against each other, each by its path of keys."""

import json
from collections.abc import Iterator
from typing import Any, Final

_ABSENT: Final = object()
_NAMES = ("id", "mark", "rule", "name", "role", "step", "file")
"""Keys by which the items of a list are told apart, if each item has another."""


def values_that_differ(
    before: Any, after: Any, path: str = ""
) -> Iterator[tuple[str, str | None, str | None]]:
    """Give each value that is not the same: its path, what it was and what it is.

    Args:
        before: plain data: mappings, lists, text, numbers, truth values and None.
        after: the later one.
        path: where both stand.

    Returns:
        Paths as `frame.pieces.left.overlap_mm` or `concessions[frame-overlap].reason`; items of a list that
        have no name are numbered from 1. None stands for a value that is not there.
    """
    if isinstance(before, dict) and isinstance(after, dict):
        for key in [*before, *(key for key in after if key not in before)]:
            where = f"{path}.{key}" if path else str(key)
            yield from values_that_differ(before.get(key, _ABSENT), after.get(key, _ABSENT), where)
    elif isinstance(before, list) and isinstance(after, list):
        old, new = _named(before, after)
        for name in [*old, *(name for name in new if name not in old)]:
            yield from values_that_differ(old.get(name, _ABSENT), new.get(name, _ABSENT), f"{path}[{name}]")
    elif not _same(before, after):
        yield path, _told(before), _told(after)


def said(value: Any) -> str:
    """Say a value in one line."""
    return value if isinstance(value, str) else json.dumps(value, ensure_ascii=False, default=str)


def _told(value: Any) -> str | None:
    return None if value is _ABSENT else said(value)


def _same(before: Any, after: Any) -> bool:
    """Whether two values are one; `true` and `1` are not, `1` and `1.0` are."""
    return isinstance(before, bool) == isinstance(after, bool) and bool(before == after)


def _named(before: list[Any], after: list[Any]) -> tuple[dict[str, Any], dict[str, Any]]:
    """Give the items of two lists by a name that tells them apart in both, or by their number."""
    for key in _NAMES:
        old, new = _by(key, before), _by(key, after)
        if len(old) == len(before) and len(new) == len(after) and old.keys() & new.keys():
            return old, new
    return _numbered(before), _numbered(after)


def _by(key: str, items: list[Any]) -> dict[str, Any]:
    return {str(item[key]): item for item in items if isinstance(item, dict) and key in item}


def _numbered(items: list[Any]) -> dict[str, Any]:
    return {str(number): item for number, item in enumerate(items, 1)}
