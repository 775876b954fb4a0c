"""The index follows the archive, and is nothing but a copy of it."""

from pathlib import Path

import pytest
from tests.lookup.filings import SHORT, file_site, join_claim, new_archive

from revealbook.archive.store import Archive
from revealbook.lookup.database import Database, NoIndex
from revealbook.lookup.index import build, changed, open_database, refresh, usual_file
from revealbook.lookup.schema import COLUMNS

SHOWN = (
    "SELECT site, mark, serial_key, building_key, floor_key, outcome, since, until, latest, pack, later"
    " FROM opening ORDER BY site, mark, since"
)


@pytest.fixture
def archive(tmp_path: Path) -> Archive:
    made = new_archive(tmp_path)
    file_site(made, "elm", {"W-1": {}, "W-2": SHORT})
    file_site(made, "oak", {"W-1": {"opening.building": "Haus B", "opening.floor": "2. OG"}})
    return made


def shown(database: Database) -> list[tuple[object, ...]]:
    return database.rows(SHOWN)


def held(database: Database) -> set[tuple[object, ...]]:
    """Everything that openings are found by, without the numbers that say nothing."""
    return set(
        database.rows(
            "SELECT o.site, o.mark, o.since, t.kind, t.name, t.key FROM opening o"
            " JOIN held h ON h.opening = o.id JOIN term t ON t.id = h.term"
        )
    )


def test_the_first_look_builds_the_index(archive: Archive, database: Database) -> None:
    assert not database.is_made()
    done = refresh(archive, database)
    assert (done.sites, done.openings, done.unread) == (("elm", "oak"), 3, ())
    assert [row[:5] for row in shown(database)] == [
        ("elm", "W-1", "260911_04", "a", "1"),
        ("elm", "W-2", "260911_04", "a", "1"),
        ("oak", "W-1", "260911_04", "b", "2"),
    ]
    assert changed(archive, database) == ()


def test_nothing_is_read_again_if_nothing_was_filed(archive: Archive, database: Database) -> None:
    refresh(archive, database)
    assert refresh(archive, database).sites == ()


def test_only_the_site_that_changed_is_read(archive: Archive, database: Database) -> None:
    refresh(archive, database)
    file_site(archive, "oak", {"W-1": {}, "W-9": {}})
    assert changed(archive, database) == ("oak",)
    done = refresh(archive, database)
    assert (done.sites, done.openings) == (("oak",), 3)


def test_following_the_archive_gives_the_same_as_building_anew(archive: Archive, database: Database) -> None:
    refresh(archive, database)
    file_site(archive, "oak", {"W-1": SHORT, "W-9": {"frame.bonding[0].batches[0].number": "7714"}})
    file_site(archive, "elm", {"W-1": {}})
    join_claim(archive, "elm", "W-1")
    refresh(archive, database)
    followed = shown(database), held(database), database.rows("SELECT * FROM site ORDER BY site")
    build(archive, database)
    assert followed == (
        shown(database), held(database), database.rows("SELECT * FROM site ORDER BY site"),
    )  # fmt: skip


def test_each_state_of_an_opening_is_kept_with_its_versions(archive: Archive, database: Database) -> None:
    file_site(archive, "elm", {"W-1": {}, "W-2": {}})
    file_site(archive, "elm", {"W-1": {}, "W-2": {}}, pack=b"%PDF other")
    refresh(archive, database)
    versions = database.rows(
        "SELECT mark, outcome, since, until, latest FROM opening WHERE site = 'elm' ORDER BY mark, since"
    )
    assert versions == [
        ("W-1", "conforms", 1, 3, 1),
        ("W-2", "does not conform", 1, 1, 0),
        ("W-2", "conforms", 2, 3, 1),
    ]


def test_an_opening_that_a_later_version_leaves_out_is_still_there(
    archive: Archive, database: Database
) -> None:
    file_site(archive, "elm", {"W-1": {}})
    refresh(archive, database)
    assert database.rows("SELECT until, latest FROM opening WHERE mark = 'W-2'") == [(1, 1)]


def test_terms_that_nothing_holds_any_more_are_gone(archive: Archive, database: Database) -> None:
    file_site(archive, "oak", {"W-1": {"frame.bonding[0].batches[0].number": "7714"}})
    refresh(archive, database)
    latest = "SELECT count(*) FROM term WHERE name LIKE ?"
    assert database.rows(latest, ("%7714",)) == [(1,)]
    # a site that is no longer in the archive: somebody divided it, and this index follows
    (archive.path / "store" / "oak").rename(archive.path / "oak")
    assert refresh(archive, database).sites == ("oak",)
    assert database.rows(latest, ("%7714",)) == [(0,)]
    assert {row[0] for row in shown(database)} == {"elm"}


def test_a_damaged_site_is_named_and_the_others_are_found(archive: Archive, database: Database) -> None:
    (archive.path / "store" / "elm" / "inventory.json").write_text("{}")
    [unread] = refresh(archive, database).unread
    assert unread.site == "elm"
    assert {row[0] for row in shown(database)} == {"oak"}


def test_what_was_known_of_a_site_stays_if_it_can_no_longer_be_read(
    archive: Archive, database: Database
) -> None:
    refresh(archive, database)
    before = shown(database)
    for name in ("inventory.json", "inventory.json.sha512"):
        (archive.path / "store" / "elm" / name).write_text("{}")
    assert [one.site for one in refresh(archive, database).unread] == ["elm"]
    assert shown(database) == before


def test_an_index_of_another_archive_is_refused(archive: Archive, database: Database, tmp_path: Path) -> None:
    refresh(archive, database)
    other = Archive.create(tmp_path / "other")
    file_site(other, "ash", {"W-1": {}})
    with pytest.raises(NoIndex, match="another archive"):
        refresh(other, database)
    build(other, database)
    assert refresh(other, database).sites == ()


def test_an_archive_that_was_moved_keeps_its_index(archive: Archive, database: Database) -> None:
    refresh(archive, database)
    moved = Archive.open(archive.path.rename(archive.path.with_name("moved")))
    assert refresh(moved, database).sites == ()


def test_an_index_of_another_format_is_built_anew(archive: Archive, database: Database) -> None:
    refresh(archive, database)
    database.run("UPDATE meta SET value = '0' WHERE name = 'format'")
    assert refresh(archive, database).sites == ("elm", "oak")


def test_a_build_that_is_stopped_leaves_what_was_there(archive: Archive, database: Database) -> None:
    refresh(archive, database)
    before = shown(database)

    def stop(done: int, total: int, site: str) -> None:
        raise KeyboardInterrupt

    with pytest.raises(KeyboardInterrupt):
        build(archive, database, stop)
    assert shown(database) == before
    assert refresh(archive, database).sites == ()


def test_progress_tells_every_site(archive: Archive, database: Database) -> None:
    told: list[tuple[int, int, str]] = []
    build(archive, database, lambda *step: told.append(step))
    assert told == [(1, 2, "elm"), (2, 2, "oak")]


def test_the_room_it_takes_is_told(archive: Archive, database: Database) -> None:
    build(archive, database)
    assert database.size_bytes() > 4096 * len(COLUMNS)


def test_an_index_lies_in_the_users_cache_by_the_archives_real_path(archive: Archive, tmp_path: Path) -> None:
    link = tmp_path / "link"
    link.symlink_to(archive.path)
    assert usual_file(link) == usual_file(archive.path)
    assert usual_file(archive.path) != usual_file(tmp_path)
    assert usual_file(archive.path).suffix == ".sqlite"


def test_a_file_is_named_or_a_database(tmp_path: Path) -> None:
    named = open_database(tmp_path, str(tmp_path / "new" / "i.sqlite"))
    assert named.where.endswith("i.sqlite")
    with pytest.raises(NoIndex, match="cannot be reached"):
        open_database(tmp_path, f"postgresql://nobody@/none?host={tmp_path}")
