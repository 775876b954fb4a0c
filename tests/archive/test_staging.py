"""Where a site's folder is built, and what becomes of what stopped filers left."""

from pathlib import Path

import pytest

from revealbook.archive.exchange import never, swap
from revealbook.archive.locks import held
from revealbook.archive.refusal import Busy
from revealbook.archive.staging import building, clear_left_over, publish, stepped_aside


@pytest.fixture
def archive(tmp_path: Path) -> Path:
    (tmp_path / "store").mkdir()
    return tmp_path


def staged(archive: Path, site: str, name: str) -> Path:
    """Leave a folder as a filer leaves it that was stopped."""
    folder = archive / "work" / "staging" / site / "abc" / name
    folder.mkdir(parents=True)
    (folder / "file").write_text(name)
    return folder


def test_the_place_to_build_in_is_empty_and_gone_afterwards(archive: Path) -> None:
    with building(archive, "s", 0) as beside:
        assert list(beside.iterdir()) == []
        (beside / "new").mkdir()
    assert not beside.exists()


def test_it_is_gone_after_an_error_too(archive: Path) -> None:
    with pytest.raises(ZeroDivisionError), building(archive, "s", 0) as beside:
        raise ZeroDivisionError
    assert not beside.exists()


def test_nobody_else_builds_the_same_site_meanwhile(archive: Path) -> None:
    with building(archive, "s", 0), pytest.raises(Busy), building(archive, "s", 0):
        pass


@pytest.mark.parametrize("how", [swap, never])
def test_what_is_published_takes_its_place(archive: Path, how: object) -> None:
    (archive / "store" / "s").mkdir()
    with building(archive, "s", 0) as beside:
        (beside / "new").mkdir()
        (beside / "new" / "file").write_text("new")
        publish(beside / "new", archive / "store" / "s", swap if how is swap else never)
        assert stepped_aside(archive, "s") == (how is never)
    assert (archive / "store" / "s" / "file").read_text() == "new"
    assert not stepped_aside(archive, "s")


def test_what_a_stopped_filer_left_is_cleared_by_the_next_one_of_any_site(archive: Path) -> None:
    left = staged(archive, "s", "new")
    with building(archive, "t", 0):
        assert not left.exists()


def test_a_folder_that_had_stepped_aside_is_put_back(archive: Path) -> None:
    staged(archive, "s", "old")
    assert stepped_aside(archive, "s")
    clear_left_over(archive)
    assert (archive / "store" / "s" / "file").read_text() == "old"
    assert not stepped_aside(archive, "s")


def test_what_a_living_filer_builds_is_left_alone(archive: Path) -> None:
    left = staged(archive, "s", "old")
    with held(archive / "work" / "locks", "s", 0):
        clear_left_over(archive)
        assert left.exists()
    clear_left_over(archive)
    assert not left.exists()


def test_whoever_may_only_read_is_not_kept_from_reading(
    archive: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def refuse(path: Path, *_: object, **__: object) -> None:
        raise PermissionError(13, "Permission denied", str(path))

    left = staged(archive, "s", "new")
    monkeypatch.setattr(Path, "mkdir", refuse)
    clear_left_over(archive)
    assert left.exists()


def test_where_nobody_ever_filed_nothing_is_to_be_cleared(archive: Path) -> None:
    clear_left_over(archive)
    assert [one.name for one in archive.iterdir()] == ["store"]
