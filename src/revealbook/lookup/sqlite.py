"""The index in one local file (SQLite): readers never wait, texts are searched with FTS5."""

import sqlite3
from collections.abc import Iterable, Iterator, Sequence
from contextlib import contextmanager
from pathlib import Path
from typing import Any

from revealbook.lookup.database import NoIndex, Row, Wanted, insert, matching
from revealbook.lookup.schema import COLUMNS, FORMAT, INDEXES, TABLES

_HELD = """CREATE TABLE held (term INTEGER NOT NULL, opening INTEGER NOT NULL, PRIMARY KEY (term, opening))
    WITHOUT ROWID"""
_SAID = """CREATE VIRTUAL TABLE said USING fts5(
    tokens, detail=none, columnsize=0, tokenize="ascii tokenchars '_'")"""
"""Tokens come as they are compared; this tokenizer takes every sign beyond ASCII for a letter."""
_PATIENCE_S = 60
_CACHE_KIB = 65_536


class SqliteDatabase:
    """An index in a file; the file is made if there is none."""

    def __init__(self, path: Path) -> None:
        self.path, self.where = path, str(path)
        self._loading = False
        try:
            path.parent.mkdir(parents=True, exist_ok=True)
            # autocommit: transactions are begun and ended below and nowhere else
            self._connection = sqlite3.connect(path, timeout=_PATIENCE_S, isolation_level=None)
        except (sqlite3.Error, OSError) as error:
            raise NoIndex(f"The index {path} cannot be opened: {error}.") from error
        self.run(f"PRAGMA cache_size = -{_CACHE_KIB}")
        self.run("PRAGMA synchronous = NORMAL")

    def rows(self, statement: str, values: Sequence[Any] = ()) -> list[Row]:
        """Give what a statement finds."""
        try:
            return self._connection.execute(statement, values).fetchall()
        except sqlite3.DatabaseError as error:
            raise self._unusable(error) from error

    def run(self, statement: str, values: Sequence[Any] = ()) -> None:
        """Do what a statement says."""
        try:
            self._connection.execute(statement, values)
        except sqlite3.DatabaseError as error:
            raise self._unusable(error) from error

    def _unusable(self, error: sqlite3.DatabaseError) -> NoIndex:
        if getattr(error, "sqlite_errorcode", None) == sqlite3.SQLITE_BUSY:
            return NoIndex(f"Somebody else is writing to the index {self.path}; try again in a while.")
        return NoIndex(
            f"The index {self.path} cannot be used: {error}. It may be deleted: it is then built again."
        )

    def add(self, table: str, rows: Iterable[Row], *, missing: bool = False) -> None:
        """Add rows to a table of the schema; with `missing`, only those whose key is not there yet."""
        name = "temp.held_loading" if self._loading and table == "held" else table
        self._connection.executemany(insert(name, COLUMNS[table], missing=missing), rows)

    def add_said(self, rows: Iterable[tuple[int, Iterable[str]]]) -> None:
        """Add the tokens of openings."""
        said = ((id_, " ".join(sorted(tokens))) for id_, tokens in rows)
        self._connection.executemany("INSERT INTO said (rowid, tokens) VALUES (?, ?)", said)

    def forget_said(self, id_: int) -> None:
        """Take away the tokens of an opening."""
        self.run("DELETE FROM said WHERE rowid = ?", (id_,))

    def said(self, wanted: Wanted) -> tuple[str, str]:
        """Give a statement of one value that finds the ids of openings with the tokens, and that value."""
        match = matching(wanted, "AND", "OR", '"')
        return "SELECT rowid AS id FROM said WHERE said MATCH ?", match

    @contextmanager
    def building(self) -> Iterator[None]:
        """Replace the whole index in one step; readers see the old one until then."""
        # the first time without the log that lets readers go on: each page is then written once, not twice
        with self.writing():
            for (name,) in self.rows("SELECT name FROM sqlite_schema WHERE type = 'table'"):
                if name in COLUMNS or name == "said":
                    self.run(f"DROP TABLE {name}")
            for statement in (*TABLES, _HELD, _SAID):
                self.run(statement)
            self.run("CREATE TEMP TABLE held_loading (term INTEGER, opening INTEGER)")
            self._loading = True
            try:
                yield
                self.run("INSERT INTO held SELECT term, opening FROM temp.held_loading ORDER BY 1, 2")
            finally:
                self._loading = False
                self.run("DROP TABLE temp.held_loading")
            for statement in INDEXES:
                self.run(statement)
        self.run("PRAGMA journal_mode = WAL")

    @contextmanager
    def writing(self) -> Iterator[None]:
        """Write as one: all of it or nothing; one writer at a time, readers go on."""
        self.run("BEGIN IMMEDIATE")
        try:
            yield
        except BaseException:
            self.run("ROLLBACK")
            raise
        self.run("COMMIT")

    def is_made(self) -> bool:
        """Whether it holds an index of this format."""
        if not self.rows("SELECT 1 FROM sqlite_schema WHERE name = 'meta'"):
            return False
        return self.rows("SELECT value FROM meta WHERE name = 'format'") == [(FORMAT,)]

    def size_bytes(self) -> int:
        """Give the room it takes."""
        [(pages, size)] = self.rows("SELECT page_count, page_size FROM pragma_page_count, pragma_page_size")
        return int(pages) * int(size)

    def close(self) -> None:
        """Let go of it."""
        self._connection.close()
