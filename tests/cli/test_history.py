"""`revealbook history`: sites, versions, heads."""

from datetime import datetime
from pathlib import Path

import pytest
from tests.archive.archives import FIRST, SECOND
from tests.cli.terminal import run

from revealbook.archive.store import Archive
from revealbook.present.evidence import short


@pytest.fixture
def archive(tmp_path: Path) -> Archive:
    """An archive with a site of two versions and a site of one."""
    archive = Archive.create(tmp_path / "archive")
    for day, files in enumerate((FIRST, SECOND), 1):
        created = datetime.fromisoformat(f"2026-12-0{day}T09:30:00+01:00")
        archive.add("larch-court", files, user="Ada", message=f"handed\nover {day}", created=created)
    archive.add("alder", FIRST, user="Ben", message="filed", created=created)
    return archive


def test_all_sites_are_listed_with_their_latest_version(archive: Archive) -> None:
    larch, alder = archive.versions("larch-court")[-1].head, archive.versions("alder")[-1].head
    assert run("history", "--archive", archive.path) == (
        0,
        (
            f"alder        version   1  2026-12-02 09:30+01:00  head {short(alder)}\n"
            f"larch-court  version   2  2026-12-02 09:30+01:00  head {short(larch)}\n"
            "2 sites\n"
        ),
        "",
    )


def test_an_empty_archive_has_no_sites(tmp_path: Path) -> None:
    Archive.create(tmp_path / "archive")
    assert run("history", "--archive", tmp_path / "archive") == (0, "0 sites\n", "")


def test_a_sites_versions_are_listed_with_who_why_and_the_whole_head(archive: Archive) -> None:
    first, second = archive.versions("larch-court")
    assert run("history", "larch-court", "--archive", archive.path) == (
        0,
        (
            "version 1  2026-12-01 09:30+01:00  Ada  handed over 1\n"
            f"  head {first.head}\n"
            "version 2  2026-12-02 09:30+01:00  Ada  handed over 2\n"
            f"  head {second.head}\n"
        ),
        "",
    )


def test_an_unknown_site_or_archive_leaves_with_2(archive: Archive, tmp_path: Path) -> None:
    found = run("history", "larch", "--archive", archive.path)
    assert found == (2, "", "The archive holds no site 'larch'.\n")
    found = run("history", "--archive", tmp_path / "nowhere")
    assert found == (2, "", f"There is no archive at {tmp_path / 'nowhere'}.\n")
