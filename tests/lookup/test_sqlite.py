"""The index in a file: readers do not wait, and what is no index is refused."""

from pathlib import Path

import pytest

from revealbook.lookup.database import NoIndex
from revealbook.lookup.sqlite import SqliteDatabase


def test_a_reader_sees_the_old_index_while_a_new_one_is_built(tmp_path: Path) -> None:
    writer, reader = (SqliteDatabase(tmp_path / "i.sqlite") for _ in range(2))
    with writer.building():
        writer.add("word", [("old", "old")])
    with writer.building():
        writer.add("word", [("new", "new")])
        assert reader.rows("SELECT word FROM word") == [("old",)]
    assert reader.rows("SELECT word FROM word") == [("new",)]
    writer.close()
    reader.close()


def test_a_file_that_is_no_database_is_refused_and_left_as_it_is(tmp_path: Path) -> None:
    file = tmp_path / "notes.txt"
    file.write_text("nothing of the kind " * 100)
    with pytest.raises(NoIndex, match=r"notes\.txt"):
        SqliteDatabase(file).is_made()
    assert file.read_text().startswith("nothing")


def test_a_folder_that_cannot_be_made_is_refused(tmp_path: Path) -> None:
    (tmp_path / "file").write_text("")
    with pytest.raises(NoIndex, match="cannot be opened"):
        SqliteDatabase(tmp_path / "file" / "i.sqlite")


def test_tables_of_somebody_else_in_the_file_stay(tmp_path: Path) -> None:
    index = SqliteDatabase(tmp_path / "i.sqlite")
    index.run("CREATE TABLE theirs (one TEXT)")
    with index.building():
        pass
    assert index.rows("SELECT * FROM theirs") == []
    index.close()


def test_what_a_writer_writes_goes_to_a_log_beside_the_file_so_that_readers_go_on(tmp_path: Path) -> None:
    index = SqliteDatabase(tmp_path / "i.sqlite")
    with index.building():
        pass
    assert index.rows("PRAGMA journal_mode") == [("wal",)]
    index.close()
