"""Published tables, kept as CSV beside the formulas, each row with its source and how sure the source is."""

import csv
from collections.abc import Mapping
from functools import cache
from importlib.resources import files
from types import MappingProxyType

CERTAINTIES = (
    "published (secondary source)",
    "from memory",
    "common practice",
    "data-sheet-type",
)
"""What a `tag` column may say: seen in a public secondary source; remembered and still to be held against the
standard; a trade rule without a source; typical of data sheets and different from product to product."""


@cache
def rows(name: str) -> tuple[Mapping[str, str], ...]:
    """Return the rows of `tables/<name>.csv`, read once, as text by column.

    Raises:
        ValueError: there is no such table.
    """
    path = files(__package__) / "tables" / f"{name}.csv"
    if not path.is_file():
        raise ValueError(f"no published table is called {name!r}")
    lines = path.read_text(encoding="utf-8").splitlines()
    return tuple(MappingProxyType(cells) for cells in csv.DictReader(lines))


def row(name: str, column: str, key: str) -> Mapping[str, str]:
    """Return the row of a table whose `column` holds `key`.

    Raises:
        ValueError: no row holds it; the sentence lists the keys there are.
    """
    for candidate in rows(name):
        if candidate[column] == key:
            return candidate
    known = ", ".join(dict.fromkeys(candidate[column] for candidate in rows(name)))
    raise ValueError(f"{name} has no {column} {key!r}; it has {known}")
