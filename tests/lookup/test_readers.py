"""Readers go on while somebody writes to the index, and see only whole states of a site."""

from contextlib import closing
from pathlib import Path
from threading import Event, Thread

from tests.lookup.filings import SHORT, file_site, new_archive
from tests.present.judging import Changes

from revealbook.archive.store import Archive
from revealbook.lookup.database import Database
from revealbook.lookup.find import find
from revealbook.lookup.index import build, open_database, refresh
from revealbook.lookup.loading import forget
from revealbook.lookup.question import Question

ONE: dict[str, Changes] = {"W-1": {}}
THREE: dict[str, Changes] = {"W-1": SHORT, "W-2": {}, "W-3": {}}


def filed(folder: Path) -> Archive:
    made = new_archive(folder)
    file_site(made, "elm", ONE)
    return made


def marks(database: Database) -> list[str]:
    return [one.mark for one in find(database, Question(site="elm")).found]


def test_a_reader_does_not_wait_for_a_writer_and_sees_what_was_there(tmp_path: Path, address: str) -> None:
    archive = filed(tmp_path)
    with (
        closing(open_database(tmp_path, address)) as writer,
        closing(open_database(tmp_path, address)) as reader,
    ):
        refresh(archive, writer)
        with writer.writing():
            forget(writer, "elm")
            assert marks(reader) == ["W-1"]
        assert marks(reader) == []


def test_a_reader_does_not_wait_while_the_index_is_built_anew(tmp_path: Path, address: str) -> None:
    archive, seen = filed(tmp_path), list[list[str]]()
    with (
        closing(open_database(tmp_path, address)) as writer,
        closing(open_database(tmp_path, address)) as reader,
    ):
        refresh(archive, writer)
        file_site(archive, "elm", THREE)
        build(archive, writer, lambda *_: seen.append(marks(reader)))
        assert seen == [["W-1"]]
        assert marks(reader) == ["W-1", "W-2", "W-3"]


def test_readers_meet_only_whole_sites_while_a_writer_follows_the_archive(
    tmp_path: Path, address: str
) -> None:
    archive, stop = filed(tmp_path), Event()
    met = [set[tuple[str, ...]]() for _ in range(2)]
    with closing(open_database(tmp_path, address)) as writer:
        refresh(archive, writer)

        def read(seen: set[tuple[str, ...]]) -> None:
            with closing(open_database(tmp_path, address)) as reader:
                while not stop.is_set():
                    seen.add(tuple(marks(reader)))

        readers = [Thread(target=read, args=(seen,)) for seen in met]
        for one in readers:
            one.start()
        try:
            for at in range(6):
                file_site(archive, "elm", ONE if at % 2 else THREE, pack=b"%d" % at)
                refresh(archive, writer)
        finally:
            stop.set()
            for one in readers:
                one.join()
    whole = {("W-1",), ("W-1", "W-2", "W-3")}
    assert all(seen and seen <= whole for seen in met), met


def test_two_writers_take_turns(tmp_path: Path, address: str) -> None:
    archive = filed(tmp_path)
    with closing(open_database(tmp_path, address)) as first:
        refresh(archive, first)
    for at in range(4):
        file_site(archive, f"site-{at}", ONE)
    failed: list[BaseException] = []

    def follow() -> None:
        try:
            with closing(open_database(tmp_path, address)) as writer:
                refresh(archive, writer)
        except BaseException as error:  # noqa: BLE001 - told below
            failed.append(error)

    writers = [Thread(target=follow) for _ in range(3)]
    for one in writers:
        one.start()
    for one in writers:
        one.join()
    assert failed == []
    with closing(open_database(tmp_path, address)) as reader:
        assert [one.site for one in find(reader, Question(mark="W-1")).found] == [
            "elm", "site-0", "site-1", "site-2", "site-3",
        ]  # fmt: skip
