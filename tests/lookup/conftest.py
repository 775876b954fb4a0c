"""Both databases that an index may lie in: what is asked of one is asked of the other."""

from collections.abc import Iterator
from pathlib import Path

import psycopg
import pytest
from tests.lookup import archive_of_two
from tests.lookup.postgres_server import server

from revealbook.archive.store import Archive
from revealbook.lookup.database import Database
from revealbook.lookup.index import refresh
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


@pytest.fixture(scope="session")
def archive(tmp_path_factory: pytest.TempPathFactory) -> Archive:
    """The archive of two sites, which no test changes."""
    return archive_of_two.make(tmp_path_factory.mktemp("two"))


@pytest.fixture
def index(archive: Archive, database: Database) -> Database:
    """Its index."""
    refresh(archive, database)
    return database
