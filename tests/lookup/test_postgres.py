"""The index in a database of others: a schema of its own, and no password in messages."""

import psycopg
import pytest

from revealbook.lookup.database import NoIndex
from revealbook.lookup.postgres import SCHEMA, PostgresDatabase


@pytest.fixture
def server(postgres_address: str | None) -> str:
    if postgres_address is None:
        pytest.skip("no PostgreSQL server on this machine")
    return postgres_address


def test_everything_lies_in_a_schema_of_its_own(server: str) -> None:
    index = PostgresDatabase(server)
    with index.building():
        pass
    index.close()
    with psycopg.connect(server) as connection:
        found = connection.execute(
            "SELECT DISTINCT schemaname FROM pg_tables WHERE tablename IN ('opening', 'held', 'said', 'term')"
        ).fetchall()
    assert found == [(SCHEMA,)]


def test_a_password_is_not_told(server: str) -> None:
    index = PostgresDatabase(f"{server}&password=secret")
    assert "secret" not in index.where
    assert "tester" in index.where
    index.close()


def test_an_address_that_is_none_is_refused() -> None:
    with pytest.raises(NoIndex, match="cannot be reached"):
        PostgresDatabase("postgresql://host:port:port/")
