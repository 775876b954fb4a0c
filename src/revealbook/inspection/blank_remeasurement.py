"""A blank re-measurement record of an opening: every value that can be read again, in its place, empty."""

from collections.abc import Iterator, Mapping
from datetime import datetime
from typing import Any

from revealbook.inspection.values import positions
from revealbook.measures.reading import Path
from revealbook.records.opening import Opening

_HEAD = """\
# Re-measurement of {mark}, record {file}. Each value has its place there, in the same order.
# Enter what was measured, in the unit of the key; leave empty what was not. Lists of positions are read again
# as a whole: [180, 695, 1210]. Instruments need their expanded uncertainty (k = 2), reading included.
format: 2
site: {site}
mark: {mark}
by:
at:
instruments:
  - {{id: tape-c, measures: length, uncertainty: 1}}
  - {{id: level-c, measures: deviation, uncertainty: 0.5}}
readings:
"""
Tree = dict[str | int, Any]


def blank_remeasurement(opening: Opening, site: str, file: str, at: datetime) -> str:
    """Write the blank record.

    Args:
        opening: the opening's record; none of its readings is copied.
        site: id of the site.
        file: the opening's record file, as shown.
        at: the moment from which is looked: what is hidden by then is left out.
    """
    seen = (one.path for one in positions(opening) if one.hidden_at is None or one.hidden_at > at)
    tree = _tree(seen)
    for number, item in tree.get("seals", {}).get("events", {}).items():
        event = opening.seals.events[number] if opening.seals and opening.seals.events else None
        tree["seals"]["events"][number] = {"step": event.step if event else None, **item}
    lines = _lines(tree, "  ") if tree else ("  {}",)
    return _HEAD.format(mark=opening.mark, file=file, site=site) + "\n".join(lines) + "\n"


def _tree(paths: Iterator[Path]) -> Tree:
    tree: Tree = {}
    for path in paths:
        here = tree
        for part in path[:-1]:
            here = here.setdefault(part, {})
        here[path[-1]] = None
    return tree


def _lines(tree: Mapping[str | int, Any], indent: str) -> Iterator[str]:
    if any(isinstance(key, int) for key in tree):
        for number in range(max(int(key) for key in tree) + 1):
            below = list(_lines(tree.get(number, {}), indent + "  ")) or [f"{indent}  {{}}"]
            yield f"{indent}- {below[0].lstrip()}"
            yield from below[1:]
        return
    for key, value in tree.items():
        if isinstance(value, dict):
            yield f"{indent}{key}:"
            yield from _lines(value, indent + "  ")
        else:
            yield f"{indent}{key}:" + ("" if value is None else f" {value}")
