"""The tables of the index are those that its columns name, in both databases."""

import pytest

from revealbook.lookup.database import Database
from revealbook.lookup.schema import COLUMNS, OPENING


@pytest.mark.parametrize("table", COLUMNS)
def test_every_table_has_the_columns_that_rows_are_added_to(database: Database, table: str) -> None:
    with database.building():
        pass
    assert database.rows(f"SELECT {', '.join(COLUMNS[table])} FROM {table}") == []  # noqa: S608 - names of ours


def test_an_opening_leads_to_its_terms() -> None:
    assert OPENING[0] == "id"
    assert "terms" in OPENING
