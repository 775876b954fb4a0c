import json
from pathlib import Path

import pytest

from revealbook.records.begin import begin, blank_record, schema_text
from revealbook.records.load import Folder, load_records, load_site, look_into
from revealbook.records.record import Record, SiteFile
from revealbook.records.schema import WRITTEN


def test_a_new_site_folder_loads_as_it_stands(tmp_path: Path) -> None:
    begin(tmp_path / "new", "larch-court", "W-2.07")
    folder = look_into(tmp_path / "new")
    assert isinstance(folder, Folder)
    site = load_site(folder)
    assert isinstance(site, SiteFile), site
    assert site.site.id == "larch-court"
    (record,) = load_records(folder, site.site)
    assert isinstance(record, Record), record
    assert record.opening.mark == "W-2.07"


def test_a_blank_record_shows_nothing(tmp_path: Path) -> None:
    begin(tmp_path, "s", "A")
    folder = look_into(tmp_path)
    assert isinstance(folder, Folder)
    site = load_site(folder)
    assert isinstance(site, SiteFile)
    (record,) = load_records(folder, site.site)
    assert isinstance(record, Record)
    frame = record.opening.frame
    assert frame is not None
    assert frame.pieces is not None
    assert frame.pieces.left is not None
    assert frame.pieces.left.length_mm is None
    assert frame.bonding is not None
    assert frame.bonding[0].air_c is None


def test_what_was_made_is_told_and_is_there(tmp_path: Path) -> None:
    made = begin(tmp_path, "s", "A")
    assert {file.relative_to(tmp_path).as_posix() for file in made} == {
        "site.yaml", "openings/A.yaml", ".schema/site.schema.json", ".schema/record.schema.json",
    }  # fmt: skip
    assert all(file.is_file() for file in made)
    assert (tmp_path / "photos").is_dir()


def test_a_site_that_is_there_is_not_touched(tmp_path: Path) -> None:
    (tmp_path / "site.yaml").write_text("id: mine", encoding="utf-8")
    with pytest.raises(FileExistsError):
        begin(tmp_path, "s", "A")
    assert (tmp_path / "site.yaml").read_text(encoding="utf-8") == "id: mine"
    assert not (tmp_path / "openings").exists()


def test_files_point_their_editor_to_the_schema_beside_them(tmp_path: Path) -> None:
    begin(tmp_path, "s", "A")
    for file in (tmp_path / "site.yaml", tmp_path / "openings" / "A.yaml"):
        first = file.read_text(encoding="utf-8").split("\n", 1)[0]
        assert first.startswith("# yaml-language-server: $schema=")
        assert (file.parent / first.partition("=")[2]).resolve().is_file()


@pytest.mark.parametrize("name", WRITTEN)
def test_a_schema_is_written_as_json(name: str) -> None:
    assert json.loads(schema_text(name))["$id"].endswith(name)


def test_a_blank_record_keeps_what_is_known_already() -> None:
    assert "width_mm: 1230" in blank_record({"opening": {"mark": "A", "width_mm": 1230}})
