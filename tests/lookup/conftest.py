"""Both databases that an index may lie in: what is asked of one is asked of the other."""

from collections.abc import Iterator
from pathlib import Path

import psycopg
import pytest
from tests.lookup.postgres_server import server

from revealbook.lookup.database import Database
from revealbook.lookup.postgres import SCHEMA, PostgresDatabase
from revealbook.lookup.sqlite import SqliteDatabase


@pytest.fixture(scope="session")
def postgres_address() -> Iterator[str | None]:
    """The address of a server, one for each process that tests."""
    with server() as address:
        yield address


@pytest.fixture(params=["sqlite", "postgres"])
def address(request: pytest.FixtureRequest, tmp_path: Path) -> str:
    """Where an empty index may lie: a file or a database."""
    if request.param == "sqlite":
        return str(tmp_path / "index.sqlite")
    found = request.getfixturevalue("postgres_address")
    if found is None:
        pytest.skip("no PostgreSQL server on this machine")
    with psycopg.connect(found, autocommit=True) as connection:
        connection.execute(f"DROP SCHEMA IF EXISTS {SCHEMA} CASCADE")
    return str(found)


@pytest.fixture
def database(address: str) -> Iterator[Database]:
    """An empty index."""
    made = PostgresDatabase(address) if address.startswith("postgres") else SqliteDatabase(Path(address))
    yield made
    made.close()
