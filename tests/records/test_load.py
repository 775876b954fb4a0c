from pathlib import Path

import pytest
from tests.builders import CONFORMING
from tests.records.folders import SITE, folder_of, record

from revealbook.records.load import Folder, load_records, load_site, look_into
from revealbook.records.record import Record, SiteFile
from revealbook.source.problem import Problem


def opened(path: Path) -> tuple[Folder, SiteFile]:
    folder = look_into(path)
    assert isinstance(folder, Folder), folder
    site = load_site(folder)
    assert isinstance(site, SiteFile), site
    return folder, site


def loaded(path: Path) -> list[Record | tuple[Problem, ...]]:
    folder, site = opened(path)
    return list(load_records(folder, site.site))


def codes(found: Record | tuple[Problem, ...]) -> list[str]:
    assert isinstance(found, tuple), found
    return [f"{problem.place} {problem.code}" for problem in found]


def test_the_conforming_site_loads_whole() -> None:
    (found,) = loaded(CONFORMING)
    assert isinstance(found, Record)
    assert found.opening.mark == "W-1.01"
    assert found.sheet.raw == (CONFORMING / "openings/W-1.01.yaml").read_bytes()
    place = found.sheet.place(("survey", "moisture_pct"))
    assert place.file == "openings/W-1.01.yaml"
    assert found.sheet.raw.decode().splitlines()[place.line - 1].startswith("  moisture_pct:")


def test_a_folder_without_a_site_file_is_told_from_one_that_is_not_there(tmp_path: Path) -> None:
    inside, nowhere = look_into(tmp_path), look_into(tmp_path / "none")
    assert isinstance(inside, Problem)
    assert isinstance(nowhere, Problem)
    assert (inside.code, nowhere.code) == ("no_site_file", "no_such_folder")
    assert inside.facts == {"file": "site.yaml"}
    assert inside.place.file == str(tmp_path)


def test_a_site_without_openings_or_photographs_has_none(tmp_path: Path) -> None:
    folder, site = opened(folder_of(tmp_path, {}))
    assert (folder.records, folder.overlays, folder.photos) == ((), (), frozenset())
    assert list(load_records(folder, site.site)) == []


def test_records_come_in_order_of_name_wherever_they_lie_and_however_they_end(tmp_path: Path) -> None:
    names = ["B-1.yml", "A-2.yaml", "house c/C-1.YAML", "A-1.yaml"]
    files = {f"openings/{name}": record(Path(name).stem) for name in names}
    files |= {"openings/.B-1.yaml.swp": "x", "openings/._B-1.yaml": "x", "openings/.old/D.yaml": "x"}
    files |= {"openings/notes.txt": "x", "openings/A-3.yaml/readme": "a folder named like a record"}
    found = loaded(folder_of(tmp_path, files))
    assert [one.opening.mark for one in found if isinstance(one, Record)] == ["A-1", "A-2", "B-1", "C-1"]
    assert len(found) == 4


def test_overlays_are_found_by_name(tmp_path: Path) -> None:
    folder, _ = opened(folder_of(tmp_path, {"rules/b.yaml": "x", "rules/a.yml": "x", "rules/c.md": "x"}))
    assert [folder.shown(file) for file in folder.overlays] == ["rules/a.yml", "rules/b.yaml"]


def test_photographs_are_known_by_their_path_below_photos(tmp_path: Path) -> None:
    folder, _ = opened(folder_of(tmp_path, {"photos/a.jpg": "", "photos/2026/b.jpg": ""}))
    assert folder.photos == frozenset({"a.jpg", "2026/b.jpg"})


def test_all_faults_of_all_records_are_found_in_one_run(tmp_path: Path) -> None:
    files = {
        "openings/A.yaml": record("A", "survey: {sund: true, clean: 1}"),
        "openings/B.yaml": "opening: {mark: B, mark: B}",
        "openings/C.yaml": record("C"),
        "openings/D.yaml": record("D", "frame: {by: eve}\nsurvey: {by: bob}"),
        "openings/E.yaml": "",
    }
    a, b, c, d, e = loaded(folder_of(tmp_path, files))
    assert codes(a) == ["openings/A.yaml:2:10 unknown_key", "openings/A.yaml:2:22 not_yes_or_no"]
    assert codes(b) == ["openings/B.yaml:1:20 duplicate_key"]
    assert isinstance(c, Record)
    assert codes(d) == ["openings/D.yaml:2:9 unknown_name", "openings/D.yaml:3:10 unknown_name"]
    assert codes(e) == ["openings/E.yaml empty_file"]


def test_a_mark_that_stands_twice_names_the_first_file(tmp_path: Path) -> None:
    files = {"openings/A.yaml": record("A"), "openings/old/A.yaml": record("A")}
    first, second = loaded(folder_of(tmp_path, files))
    assert isinstance(first, Record)
    assert codes(second) == ["openings/old/A.yaml:1:11 repeated_mark"]
    assert isinstance(second, tuple)
    assert second[0].facts == {"name": "A", "first": "openings/A.yaml"}


@pytest.mark.parametrize(
    ("extra", "place"),
    [
        ("people: [{id: a, name: A, roles: []}, {id: a, name: C, roles: []}]", "4:40"),
        (
            "instruments:" + "\n- {id: t, measures: flow, uncertainty: 1}" * 2,
            "6:4",
        ),
        ("products: {tapes: [{id: t}, {id: t}]}", "4:30"),
        ("products: {foams: [{id: f}, {id: f}]}", "4:30"),
        ("products: {adhesives: [{id: f}, {id: f}]}", "4:34"),
        ("products: {fixings: [{id: f}, {id: f}]}", "4:32"),
        ("products: {profiles: [{id: f}, {id: f}]}", "4:33"),
    ],
)
def test_an_id_stands_once(tmp_path: Path, extra: str, place: str) -> None:
    site = "id: s\nname: S\nrules: {set: common-practice, edition: 2026-12}\n" + extra
    folder = look_into(folder_of(tmp_path, {}, site))
    assert isinstance(folder, Folder)
    found = load_site(folder)
    assert isinstance(found, tuple)
    assert [f"{one.place} {one.code}" for one in found] == [f"site.yaml:{place} repeated_id"]


def test_the_same_id_may_name_a_tape_and_a_foam(tmp_path: Path) -> None:
    opened(folder_of(tmp_path, {}, SITE.replace("inner-tape", "joint-foam")))


@pytest.mark.parametrize(
    ("site", "code"),
    [
        ("id: s", "missing_key"),
        ("", "empty_file"),
        (SITE + "words: en", "unknown_key"),
        ("- 1", "not_a_section"),
    ],
)
def test_a_wrong_site_file_is_told_by_its_faults(tmp_path: Path, site: str, code: str) -> None:
    folder = look_into(folder_of(tmp_path, {}, site))
    assert isinstance(folder, Folder)
    found = load_site(folder)
    assert isinstance(found, tuple)
    assert {one.code for one in found} == {code}


def test_the_edition_of_the_rules_keeps_its_writing(tmp_path: Path) -> None:
    _, site = opened(folder_of(tmp_path, {}, SITE.replace("2026-12", "2026.10")))
    assert site.site.rules.edition == "2026.10"


def test_a_photograph_that_is_no_picture_is_told_wherever_it_is_named(tmp_path: Path) -> None:
    """At once and with its line, and not only when the pack is made."""
    named = "survey: {photos: [{file: IMG_0001.HEIC}]}"
    files = {f"openings/{mark}.yaml": record(mark, named) for mark in ("A", "B")}
    found = loaded(folder_of(tmp_path, {**files, "photos/IMG_0001.HEIC": "a note, not a picture"}))
    assert [codes(one) for one in found] == [
        ["openings/A.yaml:2:20 photo_not_a_picture"], ["openings/B.yaml:2:20 photo_not_a_picture"],
    ]  # fmt: skip
