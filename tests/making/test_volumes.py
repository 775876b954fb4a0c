"""A site in volumes: what is rendered again and what is not, and that the bytes are always the same."""

import shutil
import subprocess
import sys
from collections.abc import Callable
from datetime import datetime
from hashlib import sha256
from pathlib import Path

import pytest
from PIL import Image
from tests.made import judged
from tests.site_folders import change, own_templates, small_site

from revealbook.archive.again import Again, judge_again
from revealbook.making.volumes import MadeSite, file_name, make_volumes
from revealbook.present.volumes import read_lines
from revealbook.render.failure import RenderFailed

PLACES = {"A-1": ("A", "1"), "A-2": ("A", "2"), "A-3": ("A", "2"), "B-1": ("B", "1")}
STOREYS = ["building-A-floor-1", "building-A-floor-2", "building-B-floor-1"]
MADE = datetime.fromisoformat("2026-12-01T09:00+01:00")


def make(
    site: Path, cache: Path, *, jobs: int = 1, made: datetime | None = MADE, **other: object
) -> MadeSite:
    found = make_volumes(
        judged(site), site, cache, by="storey", made=made, jobs=jobs, seen=lambda *_: None
    )  # fmt: skip
    assert isinstance(found, MadeSite), found
    return found


def bytes_of(found: MadeSite) -> dict[str, bytes]:
    return {volume.name: volume.file.read_bytes() for volume in found.volumes} | {"index": found.index.pdf}


def fresh(found: MadeSite) -> list[str]:
    return [volume.name for volume in found.volumes if volume.fresh]


@pytest.fixture
def site(tmp_path: Path) -> Path:
    """Four openings on three storeys, with templates of their own that are quickly typeset."""
    return own_templates(small_site(tmp_path / "site", PLACES))


@pytest.fixture
def cache(tmp_path: Path) -> Path:
    return tmp_path / "cache"


def test_volumes_hold_every_opening_once_and_are_told_in_order(site: Path, cache: Path) -> None:
    told: list[tuple[int, int, str]] = []
    found = make_volumes(
        judged(site), site, cache, by="storey", made=MADE, jobs=1, seen=lambda *one: told.append(one)
    )
    assert isinstance(found, MadeSite)
    assert [(one.name, one.openings) for one in found.volumes] == list(zip(STOREYS, [1, 2, 1], strict=True))
    assert told == [
        (1, 3, "building A, floor 1"), (2, 3, "building A, floor 2"), (3, 3, "building B, floor 1"),
    ]  # fmt: skip
    assert all(one.pages >= 1 and one.fresh and one.warnings == () for one in found.volumes)


def test_from_the_cache_nothing_is_rendered_again_and_the_bytes_are_the_same(site: Path, cache: Path) -> None:
    first = make(site, cache)
    second = make(site, cache)
    assert (fresh(first), fresh(second)) == (STOREYS, [])
    assert bytes_of(second) == bytes_of(first)
    assert [(one.pages, one.fingerprint, one.sha256) for one in second.volumes] == [
        (one.pages, one.fingerprint, one.sha256) for one in first.volumes
    ]


def test_from_an_empty_cache_elsewhere_the_bytes_are_the_same(site: Path, tmp_path: Path) -> None:
    first = make(site, tmp_path / "one")
    moved = Path(shutil.copytree(site, tmp_path / "moved" / "site"))
    second = make(moved, tmp_path / "two")
    assert fresh(second) == STOREYS
    assert bytes_of(second) == bytes_of(first)


def change_record(site: Path) -> None:
    change(site / "openings" / "A-2.yaml", "overlap_left_mm: 82", "overlap_left_mm: 62")


def change_photo(site: Path) -> None:
    Image.new("RGB", (120, 90), "white").save(site / "photos" / "A-3.jpg")


@pytest.mark.parametrize("changed", [change_record, change_photo])
def test_what_was_changed_makes_its_own_volume_fresh_and_no_other(
    site: Path, tmp_path: Path, changed: Callable[[Path], None]
) -> None:
    before = bytes_of(make(site, tmp_path / "one"))
    changed(site)
    again = make(site, tmp_path / "one")
    assert fresh(again) == ["building-A-floor-2"]
    after = bytes_of(again)
    assert after["building-A-floor-1"] == before["building-A-floor-1"]
    assert after["building-A-floor-2"] != before["building-A-floor-2"]
    assert after == bytes_of(make(site, tmp_path / "two")), "as a full run gives them"
    assert after["index"] != before["index"]


def change_template(site: Path) -> None:
    change(site / "report_templates" / "pack.html", "<h1>", "<h1>Volume ")


def add_template(site: Path) -> None:
    (site / "report_templates" / "cover.html").write_text("<p>not even used</p>", encoding="utf-8")


def change_site_file(site: Path) -> None:
    change(site / "site.yaml", "place: Nowhere-under-Hill", "place: Nowhere-over-Hill")


def change_rules(site: Path) -> None:
    change(site / "rules" / "few.yaml", "overlay: few rules", "overlay: a few rules")


@pytest.mark.parametrize("changed", [change_template, add_template, change_site_file, change_rules])
def test_what_all_volumes_share_makes_all_fresh(
    site: Path, cache: Path, changed: Callable[[Path], None]
) -> None:
    make(site, cache)
    changed(site)
    assert fresh(make(site, cache)) == STOREYS


def test_another_date_makes_all_fresh_and_the_same_one_none(site: Path, cache: Path) -> None:
    make(site, cache)
    assert fresh(make(site, cache, made=datetime.fromisoformat("2026-12-02T09:00+01:00"))) == STOREYS
    assert fresh(make(site, cache)) == []
    assert fresh(make(site, cache, made=None)) == STOREYS


@pytest.mark.parametrize("damage", [b"", b"%PDF-1.7 torn"])
def test_a_damaged_volume_in_the_cache_is_made_again(site: Path, cache: Path, damage: bytes) -> None:
    first = make(site, cache)
    before = bytes_of(first)
    first.volumes[1].file.write_bytes(damage)
    (first.volumes[2].file.parent / "made.json").write_bytes(damage)
    again = make(site, cache)
    assert fresh(again) == STOREYS[1:]
    assert bytes_of(again) == before


@pytest.mark.slow
def test_two_processes_make_the_same_bytes_as_one(site: Path, tmp_path: Path) -> None:
    one = make(site, tmp_path / "one")
    two = make(site, tmp_path / "two", jobs=2)
    assert fresh(two) == STOREYS
    assert bytes_of(two) == bytes_of(one)


ALL = """
import sys
from pathlib import Path
from revealbook import api
from revealbook.making.volumes import make_volumes
if __name__ == "__main__":
    site = Path(sys.argv[1])
    found = api.check(site).judged
    made = make_volumes(found, site, site / "cache", by="storey", made=None, jobs=2, seen=lambda *_: None)
    print(*(volume.name for volume in made.volumes if volume.fresh))
"""


@pytest.mark.slow
def test_more_volumes_than_two_processes_render_before_they_are_renewed_do_not_wait_for_ever(
    tmp_path: Path,
) -> None:
    """In a process of its own, which can be ended where the pool would hold up this one."""
    names = [str(number) for number in range(1, 11)]
    site = own_templates(small_site(tmp_path / "site", {f"A-{name}": ("A", name) for name in names}))
    (tmp_path / "all.py").write_text(ALL, encoding="utf-8")
    done = subprocess.run(
        [sys.executable, tmp_path / "all.py", site], timeout=180, capture_output=True, text=True, check=True
    )
    assert done.stdout.split() == [f"building-A-floor-{name}" for name in names]


@pytest.mark.slow
@pytest.mark.parametrize("jobs", [1, 2])
def test_a_template_that_is_wrong_is_told_by_every_way_of_making(site: Path, cache: Path, jobs: int) -> None:
    change(site / "report_templates" / "pack.html", "{{ sheet.mark }}", "{{ sheet.marc }}")
    with pytest.raises(RenderFailed, match=r"pack\.html, line 4"):
        make(site, cache, jobs=jobs)
    assert not list((cache / "volumes").rglob("*.pdf")) if (cache / "volumes").is_dir() else True


@pytest.mark.parametrize("jobs", [1])
def test_photographs_that_cannot_be_used_are_problems(site: Path, cache: Path, jobs: int) -> None:
    checked = judged(site)
    (site / "photos" / "A-2.jpg").write_bytes(b"no picture")
    (site / "photos" / "B-1.jpg").write_bytes(b"no picture")
    found = make_volumes(checked, site, cache, by="building", made=MADE, jobs=jobs, seen=lambda *_: None)
    assert isinstance(found, tuple)
    assert [(one.code, one.place.file) for one in found] == [
        ("photo_unusable", "openings/A-2.yaml"), ("photo_unusable", "openings/B-1.yaml"),
    ]  # fmt: skip


def test_what_no_font_shows_is_told_for_its_volume_from_the_cache_as_well(site: Path, cache: Path) -> None:
    change(site / "openings" / "A-3.yaml", "shows: wall", "shows: wall \U0001f9f1")
    for found in (make(site, cache), make(site, cache)):
        told = {one.name: one.warnings for one in found.volumes}
        assert [name for name, warnings in told.items() if warnings] == ["building-A-floor-2"]
        assert "U+1F9F1" in told["building-A-floor-2"][0]


@pytest.fixture(scope="module")
def whole(tmp_path_factory: pytest.TempPathFactory) -> tuple[MadeSite, Path]:
    """Volumes and index as shipped templates give them, written beside one another."""
    folder = tmp_path_factory.mktemp("volumes")
    site = small_site(folder / "site", {"A-1": ("A", "1"), "B-1": ("B", "1")})
    change(site / "openings" / "B-1.yaml", "overlap_left_mm: 82", "overlap_left_mm: 62")
    found = make(site, folder / "cache")
    for volume in found.volumes:
        shutil.copyfile(volume.file, folder / file_name("alder-yard", volume.name))
    (folder / "alder-yard-index.pdf").write_bytes(found.index.pdf)
    return found, folder


@pytest.mark.slow
def test_the_index_names_every_volume_with_the_digest_of_its_file(whole: tuple[MadeSite, Path]) -> None:
    found, folder = whole
    (listed,) = [one for one in found.index.pack.carried if one.path == "volumes.json"]
    lines = read_lines(listed.content)
    assert lines == found.index.pack.volumes
    assert [line.file for line in lines] == [
        "alder-yard-building-A-floor-1.pdf", "alder-yard-building-B-floor-1.pdf",
    ]  # fmt: skip
    for line, volume in zip(lines, found.volumes, strict=True):
        assert line.sha256 == sha256((folder / line.file).read_bytes()).hexdigest()
        assert (line.pages, line.fingerprint) == (volume.pages, volume.fingerprint)


@pytest.mark.slow
def test_index_and_volumes_judge_again_cleanly(whole: tuple[MadeSite, Path]) -> None:
    _, folder = whole
    marks = {}
    for file in sorted(folder.glob("*.pdf")):
        again = judge_again(file)
        assert isinstance(again, Again)
        assert (again.findings, again.pages, again.uncalled) == ((), (), ()), file.name
        marks[file.stem.removeprefix("alder-yard-")] = [one.mark for one in again.judged.openings]
    assert marks == {
        "building-A-floor-1": ["A-1"], "building-B-floor-1": ["B-1"], "index": ["A-1", "B-1"],
    }  # fmt: skip
