import json
from pathlib import Path

from tests.archive.archives import add
from tests.archive.versions import FILES, RECORD
from tests.cli.terminal import run

from revealbook.archive.store import Archive


def archive_of_two(path: Path) -> str:
    archive = Archive.create(path / "archive")
    add(archive, FILES)
    add(archive, {**FILES, "openings/W 1.yaml": RECORD.replace(b"80", b"62"), "photos/b.jpg": b"new"})
    return str(archive.path)


def test_two_versions_are_compared_reading_by_reading(tmp_path: Path) -> None:
    told = run("history", "s", "--archive", archive_of_two(tmp_path), "--between", "1", "2")
    assert told.status == 1
    assert "W 1\n  reading frame.pieces.left.overlap_mm: 80 -> 62\n" in told.out
    assert "photo photos/b.jpg: added, sha512 " in told.out


def test_backwards_tells_the_same_the_other_way(tmp_path: Path) -> None:
    told = run("history", "s", "--archive", archive_of_two(tmp_path), "--between", "2", "1")
    assert "overlap_mm: 62 -> 80" in told.out
    assert "photo photos/b.jpg: withdrawn, was sha512 " in told.out


def test_a_version_and_itself_differ_in_nothing(tmp_path: Path) -> None:
    told = run("history", "s", "--archive", archive_of_two(tmp_path), "--between", "2", "2")
    assert told == (0, "s: nothing differs between version 2 and version 2.\n", "")


def test_differences_are_given_to_machines(tmp_path: Path) -> None:
    told = run(
        "history", "s", "--archive", archive_of_two(tmp_path), "--between", "1", "2", "--format", "json"
    )
    changes = json.loads(told.out)["changes"]
    what = "frame.pieces.left.overlap_mm"
    assert {"about": "reading", "mark": "W 1", "what": what, "before": "80", "after": "62"} in changes


def test_what_cannot_be_compared_is_refused(tmp_path: Path) -> None:
    path = archive_of_two(tmp_path)
    told = run("history", "s", "--archive", path, "--between", "1", "3")
    assert (told.status, told.err) == (2, "s has no version 3; it has 2.\n")
    assert run("history", "--archive", path, "--between", "1", "2").status == 2
    assert run("history", "s", "--archive", path, "--between", "1", "2", "--format", "xml").status == 2
