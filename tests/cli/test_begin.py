import json
from pathlib import Path

import pytest
from tests.cli.terminal import run


def test_a_new_site_is_made_and_the_next_step_named(tmp_path: Path) -> None:
    told = run("begin", "larch court", cwd=tmp_path)
    assert (told.status, told.err) == (0, "")
    assert told.out.splitlines() == [
        "made larch court/.schema/site.schema.json",
        "made larch court/.schema/record.schema.json",
        "made larch court/site.yaml",
        "made larch court/openings/W-1.01.yaml",
        "",
        "What stays empty counts as not shown. Fill in:",
        "  larch court/site.yaml",
        "  larch court/openings/W-1.01.yaml",
        "then: revealbook check 'larch court'",
    ]


def test_a_new_site_checks_as_it_stands_and_conforms_in_nothing(tmp_path: Path) -> None:
    run("begin", "s", "--first", "A-1", cwd=tmp_path)
    told = run("check", "s", "--format", "json", cwd=tmp_path)
    assert (told.status, told.err) == (0, "")
    (opening,) = json.loads(told.out)["openings"]
    assert opening["mark"] == "A-1"
    assert set(opening["counts"]) <= {"not shown", "does not apply"}
    assert opening["counts"]["not shown"] > 90
    assert run("check", "s", "--strict", cwd=tmp_path).status == 1


@pytest.mark.parametrize(
    ("folder", "site_id"),
    [("Larch Court", "larch-court"), ("Grün & Söhne", "grun-sohne"), ("現場", "site"), ("x" * 90, "x" * 60)],
)
def test_the_site_s_id_is_made_of_the_folder_s_name(tmp_path: Path, folder: str, site_id: str) -> None:
    run("begin", folder, cwd=tmp_path)
    assert f"\nid: {site_id} " in (tmp_path / folder / "site.yaml").read_text(encoding="utf-8")
    assert run("check", folder, cwd=tmp_path).status == 0


def test_the_folder_one_stands_in_can_become_a_site(tmp_path: Path) -> None:
    (tmp_path / "yard").mkdir()
    assert run("begin", ".", cwd=tmp_path / "yard").status == 0
    assert "\nid: yard " in (tmp_path / "yard" / "site.yaml").read_text(encoding="utf-8")


def test_a_site_that_is_there_is_left_alone(tmp_path: Path) -> None:
    run("begin", "s", cwd=tmp_path)
    before = (tmp_path / "s" / "site.yaml").read_bytes()
    told = run("begin", "s", "--first", "B-1", cwd=tmp_path)
    assert told == (2, "", "s/site.yaml is there already; nothing was changed.\n")
    assert (tmp_path / "s" / "site.yaml").read_bytes() == before
    assert not (tmp_path / "s" / "openings" / "B-1.yaml").exists()


def test_a_record_that_is_there_is_kept(tmp_path: Path) -> None:
    record = tmp_path / "s" / "openings" / "W-1.01.yaml"
    record.parent.mkdir(parents=True)
    record.write_text("opening: {mark: W-1.01, room: loft}\n", encoding="utf-8")
    told = run("begin", "s", cwd=tmp_path)
    assert told.status == 0
    assert "made s/openings/W-1.01.yaml" not in told.out
    assert "room: loft" in record.read_text(encoding="utf-8")


@pytest.mark.parametrize("mark", ["../../y", "a/b", "", "-x", "a\nb", "x" * 61])
def test_a_mark_that_cannot_name_a_file_is_refused_before_anything_is_made(tmp_path: Path, mark: str) -> None:
    told = run("begin", "s", f"--first={mark}", cwd=tmp_path)
    assert (told.status, told.out) == (2, "")
    assert "cannot be the mark of an opening" in told.err
    assert list(tmp_path.iterdir()) == []


def test_a_file_in_the_way_is_told(tmp_path: Path) -> None:
    (tmp_path / "s").write_text("", encoding="utf-8")
    assert run("begin", "s", cwd=tmp_path) == (2, "", "s is there already; nothing was changed.\n")
    assert run("begin", "s/below", cwd=tmp_path).status == 2
