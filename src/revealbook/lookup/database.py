"""What the index asks of a database, whichever it is; and how a text is asked for."""

from collections.abc import Iterable, Sequence
from contextlib import AbstractContextManager
from typing import Any, Protocol

from revealbook.archive.refusal import Refused

Row = tuple[Any, ...]


class NoIndex(Refused):
    """There is no database where the index should be, or it is not one of this program's."""


Wanted = Sequence[Sequence[Sequence[Sequence[str]]]]
"""For each word of a question its alternatives, for each alternative the parts that must all occur, for each
part the tokens of which one must occur. Tokens are of letters, digits and `_`, as from `keys.tokens`."""


def matching(wanted: Wanted, both: str, either: str, quote: str) -> str:
    """Write what is wanted in a database's own language of search.

    Args:
        wanted: what is wanted.
        both: the sign between what must all occur.
        either: the sign between what may occur instead of each other.
        quote: the sign around a token.
    """

    def joined(sign: str, several: Iterable[str]) -> str:
        return f"({f' {sign} '.join(several)})"

    return joined(
        both,
        (
            joined(
                either,
                (
                    joined(
                        both,
                        (joined(either, (f"{quote}{token}{quote}" for token in part)) for part in parts),
                    )
                    for parts in alternatives
                ),
            )
            for alternatives in wanted
        ),
    )


class Database(Protocol):
    """A database that holds an index. Statements write values as `?` and nothing of theirs is a value."""

    where: str
    """Its file or address, without a password, for messages."""

    def rows(self, statement: str, values: Sequence[Any] = ()) -> list[Row]:
        """Give what a statement finds."""

    def run(self, statement: str, values: Sequence[Any] = ()) -> None:
        """Do what a statement says."""

    def add(self, table: str, rows: Iterable[Row], *, missing: bool = False) -> None:
        """Add rows to a table of the schema; with `missing`, only those whose key is not there yet."""

    def add_said(self, rows: Iterable[tuple[int, Iterable[str]]]) -> None:
        """Add the tokens of openings."""

    def forget_said(self, id_: int) -> None:
        """Take away the tokens of an opening."""

    def said(self, wanted: Wanted) -> tuple[str, str]:
        """Give a statement of one value that finds the ids of openings with the tokens, and that value."""

    def building(self) -> AbstractContextManager[None]:
        """Replace the whole index: empty tables inside, everything or nothing afterwards."""

    def writing(self) -> AbstractContextManager[None]:
        """Write as one: all of it or nothing; one writer at a time, readers go on."""

    def is_made(self) -> bool:
        """Whether it holds an index of this format."""

    def size_bytes(self) -> int:
        """Give the room it takes."""

    def close(self) -> None:
        """Let go of it."""


def listed(values: Sequence[Any]) -> str:
    """Give the place holders of a list: `?, ?, ?`."""
    return ", ".join("?" * len(values))


def insert(table: str, columns: Sequence[str], *, missing: bool) -> str:
    """Give the statement that adds a row to a table of the schema."""
    ending = " ON CONFLICT DO NOTHING" if missing else ""
    return f"INSERT INTO {table} ({', '.join(columns)}) VALUES ({listed(columns)}){ending}"  # noqa: S608
