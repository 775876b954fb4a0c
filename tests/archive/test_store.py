"""The store: versions are only added to, and each stays as it was."""

from dataclasses import replace
from datetime import datetime
from pathlib import Path

import pytest
from tests.archive.archives import FIRST, SECOND, WHEN, add, content_of, outside_says_valid

from revealbook.archive import exchange
from revealbook.archive.chain import BEFORE_THE_FIRST, head
from revealbook.archive.disk import Digested
from revealbook.archive.refusal import Busy, Damaged, NotAnArchive, Refused
from revealbook.archive.site_object import Source
from revealbook.archive.store import Archive, Version


@pytest.fixture
def archive(tmp_path: Path) -> Archive:
    return Archive.create(tmp_path / "archive")


# --- the archive itself ----------------------------------------------------------------------------------


def test_a_new_archive_holds_a_page_for_people_and_a_valid_empty_store(archive: Archive) -> None:
    assert archive.sites() == ()
    assert sorted(one.name for one in archive.path.iterdir()) == ["READ-ME.txt", "store", "work"]
    assert sorted(one.name for one in (archive.path / "store").iterdir()) == [
        "0=ocfl_1.1", "ocfl_layout.json",
    ]  # fmt: skip
    assert "inventory.json" in (archive.path / "READ-ME.txt").read_text(encoding="utf-8")
    assert outside_says_valid(archive.path)


def test_creating_an_archive_that_is_there_opens_it_as_it_is(archive: Archive) -> None:
    add(archive, FIRST)
    assert Archive.create(archive.path).sites() == ("s",)


def test_an_archive_is_not_made_over_something_else(tmp_path: Path) -> None:
    (tmp_path / "letter.txt").write_text("Dear sirs")
    with pytest.raises(NotAnArchive, match="no archive and not empty"):
        Archive.create(tmp_path)
    assert [one.name for one in tmp_path.iterdir()] == ["letter.txt"]


def test_an_archive_half_made_is_completed(tmp_path: Path) -> None:
    (tmp_path / "work" / "staging" / "_archive" / "abc" / "new").mkdir(parents=True)
    (tmp_path / "READ-ME.txt").write_text("AN ARCH")
    archive = Archive.create(tmp_path)
    assert outside_says_valid(archive.path)
    assert "HOW TO READ" in (tmp_path / "READ-ME.txt").read_text(encoding="utf-8")


@pytest.mark.parametrize("there", [None, "empty", "file"])
def test_what_is_no_archive_is_not_opened(tmp_path: Path, there: str | None) -> None:
    path = tmp_path / "archive"
    if there == "empty":
        path.mkdir()
    if there == "file":
        path.write_text("")
    with pytest.raises(NotAnArchive, match="archive"):
        Archive.open(path)


# --- versions --------------------------------------------------------------------------------------------


def test_a_version_holds_what_was_given_with_user_message_and_time(archive: Archive) -> None:
    filed = archive.add("s", FIRST, user="Ada", message="handed over", created=WHEN)
    (version,) = archive.versions("s")
    assert (filed.new, filed.before, filed.version) == (True, None, version)
    assert (version.number, version.user, version.message) == (1, "Ada", "handed over")
    assert version.created == WHEN
    assert content_of(archive, "s", 1) == FIRST


def test_a_site_that_is_not_filed_has_no_versions(archive: Archive) -> None:
    assert archive.versions_if_any("s") == ()
    add(archive, FIRST)
    assert archive.versions_if_any("s") == archive.versions("s") != ()


def test_an_old_version_stays_readable_beside_the_new_one(archive: Archive) -> None:
    first, second = add(archive, FIRST), add(archive, SECOND)
    assert second.before == first.version
    assert content_of(archive, "s", 1) == FIRST
    assert content_of(archive, "s", 2) == SECOND
    assert outside_says_valid(archive.path)


def test_the_head_is_that_of_the_chain(archive: Archive) -> None:
    add(archive, FIRST)
    add(archive, SECOND)
    one, two = archive.versions("s")
    assert one.head == head(BEFORE_THE_FIRST, "s", 1, one.state)
    assert two.head == head(one.head, "s", 2, two.state)


def test_the_same_again_adds_no_version(archive: Archive) -> None:
    first = add(archive, FIRST)
    again = add(archive, FIRST)
    assert (again.new, again.version, again.before) == (False, first.version, None)
    assert len(archive.versions("s")) == 1


def test_an_older_content_again_is_a_new_version_of_the_same_files(archive: Archive) -> None:
    for files in (FIRST, SECOND, FIRST):
        add(archive, files)
    assert content_of(archive, "s", 3) == FIRST
    assert not (archive.folder("s") / "v3" / "content").exists()
    assert outside_says_valid(archive.path)


def test_paths_set_aside_make_nothing_new(archive: Archive) -> None:
    add(archive, {**FIRST, "filing.json": b"1"})
    again = archive.add(
        "s", {**FIRST, "filing.json": b"2"}, user="a", message="m", created=WHEN, same=["filing.json"]
    )
    assert (again.new, again.version.number) == (False, 1)
    changed = archive.add(
        "s", {**SECOND, "filing.json": b"2"}, user="a", message="m", created=WHEN, same=["filing.json"]
    )
    assert changed.new
    assert content_of(archive, "s", 2)["filing.json"] == b"2"


def test_what_is_kept_is_carried_forward_and_the_rest_is_not(archive: Archive) -> None:
    add(archive, {**FIRST, "afterwards/c-1.yaml": b"claim", "photos/a.jpg": b"jpeg"})
    add(archive, SECOND, keep=("afterwards/",))
    assert content_of(archive, "s", 2) == {**SECOND, "afterwards/c-1.yaml": b"claim"}


def test_everything_is_carried_forward_by_an_empty_beginning(archive: Archive) -> None:
    add(archive, FIRST)
    add(archive, {"afterwards/c-1.yaml": b"claim"}, keep=("",))
    assert content_of(archive, "s", 2) == {**FIRST, "afterwards/c-1.yaml": b"claim"}


def test_further_files_are_asked_for_with_the_version_before(archive: Archive) -> None:
    seen: list[Version | None] = []

    def also(before: Version | None) -> dict[str, Source]:
        seen.append(before)
        return {"filing.json": (before.head if before else "none").encode()}

    for files in (FIRST, SECOND):
        archive.add("s", files, user="a", message="m", created=WHEN, also=also)
    first, _ = archive.versions("s")
    assert seen == [None, first]
    assert content_of(archive, "s", 2)["filing.json"] == first.head.encode()


def test_a_refusal_on_the_way_leaves_everything_as_it_was(archive: Archive) -> None:
    def refuse(_before: Version | None) -> dict[str, Source]:
        raise Refused("no")

    add(archive, FIRST)
    with pytest.raises(Refused, match="no"):
        archive.add("s", SECOND, user="a", message="m", created=WHEN, also=refuse)
    with pytest.raises(Refused, match="no"):
        archive.add("other", SECOND, user="a", message="m", created=WHEN, also=refuse)
    assert (archive.sites(), len(archive.versions("s"))) == (("s",), 1)
    assert list((archive.path / "work" / "staging").iterdir()) == []


@pytest.mark.parametrize("path", ["../outside", "/outside", "a/../../outside", "site.yaml/inside"])
def test_a_path_that_leads_elsewhere_is_not_stored(archive: Archive, path: str) -> None:
    with pytest.raises(Refused, match="in the archive"):
        add(archive, {**FIRST, path: b"x"})
    assert archive.sites() == ()
    assert list(archive.path.rglob("outside")) == []


def test_content_is_stored_once_however_many_names_it_has(archive: Archive) -> None:
    add(archive, {"a": b"same", "b": b"same"})
    add(archive, {"c": b"same"})
    assert [file.name for file in archive.folder("s").rglob("content/*")] == ["a"]
    assert content_of(archive, "s", 1) == {"a": b"same", "b": b"same"}
    assert content_of(archive, "s", 2) == {"c": b"same"}
    assert outside_says_valid(archive.path)


def test_files_are_stored_from_where_they_lie_and_may_change_there_later(
    archive: Archive, tmp_path: Path
) -> None:
    photo = tmp_path / "photo.jpg"
    photo.write_bytes(b"jpeg")
    add(archive, {"photos/photo.jpg": photo})
    photo.write_bytes(b"other")
    assert content_of(archive, "s", 1) == {"photos/photo.jpg": b"jpeg"}


def test_a_file_that_changed_since_it_was_looked_at_is_refused(archive: Archive, tmp_path: Path) -> None:
    pack = tmp_path / "s.pdf"
    pack.write_bytes(b"%PDF")
    with pytest.raises(Refused, match=r"s\.pdf was changed while it was being filed"):
        add(archive, {"packs/s.pdf": Digested(pack, "0" * 128)})
    assert archive.sites() == ()


def test_a_time_without_a_zone_is_no_time_for_a_version(archive: Archive) -> None:
    with pytest.raises(ValueError, match="zone"):
        archive.add("s", FIRST, user="a", message="m", created=datetime(2026, 12, 1))  # noqa: DTZ001


def test_where_folders_cannot_be_exchanged_two_renames_do_the_same(archive: Archive) -> None:
    slow = replace(archive, swap=exchange.never)
    for files in (FIRST, SECOND):
        add(slow, files)
    assert content_of(archive, "s", 1) == FIRST
    assert content_of(archive, "s", 2) == SECOND
    assert outside_says_valid(archive.path)


# --- reading ---------------------------------------------------------------------------------------------


def test_what_is_not_there_is_said_in_a_sentence(archive: Archive) -> None:
    add(archive, FIRST)
    with pytest.raises(Refused, match="holds no site 'larch'"):
        archive.versions("larch")
    with pytest.raises(Refused, match="s has no version 2; it has 1"):
        archive.content("s", 2, "site.yaml")
    with pytest.raises(Refused, match=r"Version 1 of s holds no site\.yml"):
        archive.content("s", 1, "site.yml")


@pytest.mark.parametrize("site", ["../s", "s/..", "", ".."])
def test_an_id_that_leads_elsewhere_reads_nothing(archive: Archive, site: str) -> None:
    with pytest.raises(Refused, match="cannot be a folder"):
        archive.versions(site)


def test_a_changed_inventory_is_damage_for_readers_and_filers(archive: Archive) -> None:
    add(archive, FIRST)
    file = archive.folder("s") / "inventory.json"
    file.write_bytes(file.read_bytes().replace(b'"filed"', b'"field"'))
    with pytest.raises(Damaged, match="its digest is another"):
        archive.versions("s")
    with pytest.raises(Damaged, match="its digest is another"):
        add(archive, SECOND)


def test_a_lost_inventory_is_damage_and_no_new_site(archive: Archive) -> None:
    add(archive, FIRST)
    (archive.folder("s") / "inventory.json").unlink()
    with pytest.raises(Damaged, match="The inventory of s is not there"):
        archive.versions("s")


def test_another_site_that_differs_by_capitals_only_is_refused(archive: Archive) -> None:
    add(archive, FIRST, "Larch")
    with pytest.raises(Refused, match="holds Larch"):
        add(archive, FIRST, "larch")


def test_one_files_place_is_its_place_among_all(archive: Archive) -> None:
    add(archive, FIRST)
    add(archive, SECOND)
    places = archive.contents("s", 2)
    assert places.keys() == SECOND.keys()
    assert all(archive.content("s", 2, path) == place for path, place in places.items())


# --- two at a time ---------------------------------------------------------------------------------------


def test_who_does_not_wait_is_told_who_is_filing(archive: Archive) -> None:
    with archive.renewing("s"), pytest.raises(Busy, match=r"s is being filed just now by .*process \d+"):
        add(replace(archive, patience_s=0), FIRST)
    assert add(archive, FIRST).new


def test_another_site_is_filed_meanwhile(archive: Archive) -> None:
    with archive.renewing("s"):
        assert add(archive, FIRST, "other").new


def test_a_building_site_of_a_living_filer_is_left_alone_and_a_dead_ones_is_cleared(archive: Archive) -> None:
    dead = archive.path / "work" / "staging" / "dead" / "abc"
    dead.mkdir(parents=True)
    with archive.renewing("s") as (living, _):
        add(archive, FIRST, "other")
        assert living.is_dir()
        assert not dead.exists()
