"""The index in a PostgreSQL database, for several people or machines; needs the extra `postgres`.

It lies in a schema of its own and touches nothing else.
"""

from collections.abc import Iterable, Iterator, Sequence
from contextlib import contextmanager
from typing import Any

import psycopg
from psycopg import conninfo

from revealbook.lookup.database import NoIndex, Row, Wanted, insert, matching
from revealbook.lookup.schema import COLUMNS, FORMAT, INDEXES, TABLES

SCHEMA, _NEXT = "revealbook_index", "revealbook_index_next"
_HELD = "CREATE TABLE held (term INTEGER NOT NULL, opening INTEGER NOT NULL)"
_SAID = "CREATE TABLE said (id INTEGER PRIMARY KEY, tokens TSVECTOR NOT NULL)"
_AFTERWARDS = (
    "ALTER TABLE held ADD PRIMARY KEY (term, opening)",
    "CREATE INDEX said_tokens ON said USING gin (tokens)",
)
_ONE_WRITER = 7_264_001
"""The number of the lock that writers of an index take; it means nothing."""


class PostgresDatabase:
    """An index in a database that exists."""

    def __init__(self, address: str) -> None:
        try:
            self.where = _without_password(address)
            self._connection = psycopg.connect(address, autocommit=True)
        except psycopg.Error as error:
            raise NoIndex(f"The database for the index cannot be reached: {error}") from error
        self._building = False
        self.run(f"SET search_path TO {SCHEMA}")

    def rows(self, statement: str, values: Sequence[Any] = ()) -> list[Row]:
        """Give what a statement finds."""
        return self._do(statement, values).fetchall()

    def run(self, statement: str, values: Sequence[Any] = ()) -> None:
        """Do what a statement says."""
        self._do(statement, values)

    def _do(self, statement: str, values: Sequence[Any]) -> psycopg.Cursor[Row]:
        try:
            return self._connection.execute(_ours(statement), values or None)
        except psycopg.Error as error:
            raise NoIndex(f"The index in {self.where} cannot be used: {error}") from error

    def add(self, table: str, rows: Iterable[Row], *, missing: bool = False) -> None:
        """Add rows to a table of the schema; with `missing`, only those whose key is not there yet."""
        with self._connection.cursor() as cursor:
            if missing:
                cursor.executemany(_ours(insert(table, COLUMNS[table], missing=True)), rows)
                return
            columns = ", ".join(COLUMNS[table])
            with cursor.copy(_ours(f"COPY {table} ({columns}) FROM STDIN")) as copy:
                for row in rows:
                    copy.write_row(row)

    def add_said(self, rows: Iterable[tuple[int, Iterable[str]]]) -> None:
        """Add the tokens of openings."""
        with self._connection.cursor() as cursor, cursor.copy("COPY said (id, tokens) FROM STDIN") as copy:
            for id_, tokens in rows:
                copy.write_row((id_, " ".join(f"'{token}'" for token in sorted(tokens))))

    def forget_said(self, id_: int) -> None:
        """Take away the tokens of an opening."""
        self.run("DELETE FROM said WHERE id = ?", (id_,))

    def said(self, wanted: Wanted) -> tuple[str, str]:
        """Give a statement of one value that finds the ids of openings with the tokens, and that value."""
        asked = matching(wanted, "&", "|", "'")
        return "SELECT id FROM said WHERE tokens @@ CAST(? AS tsquery)", asked

    @contextmanager
    def building(self) -> Iterator[None]:
        """Replace the whole index in one step; readers see the old one until then."""
        with self.writing():
            self.run(f"DROP SCHEMA IF EXISTS {_NEXT} CASCADE")
            self.run(f"CREATE SCHEMA {_NEXT}")
            self.run(f"SET LOCAL search_path TO {_NEXT}")
            for statement in (*TABLES, _HELD, _SAID):
                self.run(statement)
            yield
            for statement in (*_AFTERWARDS, *INDEXES):
                self.run(statement)
            self.run(f"DROP SCHEMA IF EXISTS {SCHEMA} CASCADE")
            self.run(f"ALTER SCHEMA {_NEXT} RENAME TO {SCHEMA}")
        for table in (*COLUMNS, "said"):
            self.run(f"ANALYZE {table}")

    @contextmanager
    def writing(self) -> Iterator[None]:
        """Write as one: all of it or nothing; one writer at a time, readers go on."""
        with self._connection.transaction():
            self.run("SELECT pg_advisory_xact_lock(?)", (_ONE_WRITER,))
            yield

    def is_made(self) -> bool:
        """Whether it holds an index of this format."""
        if self.rows("SELECT to_regclass(?)", (f"{SCHEMA}.meta",)) == [(None,)]:
            return False
        return self.rows("SELECT value FROM meta WHERE name = 'format'") == [(FORMAT,)]

    def size_bytes(self) -> int:
        """Give the room it takes."""
        [(size,)] = self.rows(
            "SELECT COALESCE(sum(pg_total_relation_size(c.oid)), 0) FROM pg_class c"
            " JOIN pg_namespace n ON n.oid = c.relnamespace WHERE c.relkind = 'r' AND n.nspname = ?",
            (SCHEMA,),
        )
        return int(size)

    def close(self) -> None:
        """Let go of it."""
        self._connection.close()


def _ours(statement: str) -> str:
    """Write a statement's place holders as psycopg does. No statement here holds a value or another `?`."""
    return statement.replace("?", "%s")


def _without_password(address: str) -> str:
    said = conninfo.conninfo_to_dict(address)
    return conninfo.make_conninfo("", **{name: value for name, value in said.items() if name != "password"})
