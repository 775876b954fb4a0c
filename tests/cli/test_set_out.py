import json
import subprocess
from pathlib import Path

import pytest
from tests.cli.terminal import run
from tests.site_folders import conforming

from revealbook.records.opening import Opening
from revealbook.source.read import Document, read
from revealbook.source.validate import validate


@pytest.fixture
def site(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.setenv("SOURCE_DATE_EPOCH", "1796112000")
    return conforming(tmp_path / "s")


def bare(site: Path, mark: str, height_mm: int) -> None:
    text = f"opening: {{mark: {mark}, width_mm: 1230, height_mm: {height_mm}}}\n"
    (site / "openings" / f"{mark}.yaml").write_text(text, encoding="utf-8")


def text_of(pdf: Path) -> str:
    told = subprocess.run(["pdftotext", "-layout", str(pdf), "-"], capture_output=True, text=True, check=True)
    return told.stdout.replace("\u00a0", " ")


def test_sheets_are_written_beside_the_packs(site: Path) -> None:
    told = run("set-out", site)
    file = site / "pack" / "alder-yard-setting-out.pdf"
    assert (told.status, told.err) == (0, "")
    assert told.out == f"{file}: 3 pages\n"
    said = text_of(file)
    assert "Setting out W-1.01" in said
    assert "Set out on 2026-12-01; a plan, no evidence" in said
    assert "Indicative only" in said


def test_what_cannot_be_set_out_is_told_and_the_rest_is_written(site: Path) -> None:
    bare(site, "W-1.02", 150)
    told = run("set-out", site)
    assert told.status == 2
    assert told.err.startswith("W-1.02 is not set out. Left piece. At 150")
    assert "Not set out" in text_of(site / "pack" / "alder-yard-setting-out.pdf")
    assert run("set-out", site, "--opening", "W-1.01").status == 0


def test_json_is_all_that_is_printed_and_no_pdf_is_written_unless_asked_for(
    site: Path, tmp_path: Path
) -> None:
    told = run("set-out", site, "--format", "json")
    assert told.status == 0
    assert json.loads(told.out)["format"] == "revealbook-setting-out-1"
    assert not (site / "pack").exists()
    both = run("set-out", site, "--format", "json", "--to", tmp_path / "a.pdf")
    assert json.loads(both.out) == json.loads(told.out)
    assert (tmp_path / "a.pdf").is_file()


def test_waste_can_be_told(site: Path) -> None:
    told = run("set-out", site, "--format", "json", "--waste", "0")
    assert all(one["gross"] == one["net"] for one in json.loads(told.out)["materials"])


def test_the_cutting_list_of_a_site(site: Path) -> None:
    bare(site, "W-1.02", 1480)
    told = run("cut", site, "--kerf", "5", "--offcut", "frame-profile:1400")
    file = site / "pack" / "alder-yard-cutting-list.pdf"
    assert (told.status, told.err) == (0, "")
    assert told.out.splitlines()[0] == f"{file}: 2 pages"
    assert [line.split(" from ")[0] for line in told.out.splitlines()[1:]] == [
        "frame-profile: 17 pieces",  # the sides of W-1.01 are longer than the stock
        "plinth-profile: 2 pieces",
    ]
    said = text_of(file)
    assert "W-1.02 bottom" in said
    assert "1400, from the store" in said
    assert "Set out from nominal sizes: W-1.02." in said


def test_the_cutting_list_for_machines(site: Path) -> None:
    told = run("cut", site, "--format", "json")
    data = json.loads(told.out)
    assert data["format"] == "revealbook-cutting-list-1"
    assert [one["profile"] for one in data["profiles"]] == ["frame-profile", "plinth-profile"]
    assert "frame-profile: " in told.err


def test_an_opening_missing_from_the_list_is_told(site: Path) -> None:
    bare(site, "W-1.02", 150)
    told = run("cut", site)
    assert told.status == 2
    assert "W-1.02 is not set out." in told.err


@pytest.mark.parametrize("offcut", ["1400", "frame-profile:", "frame-profile:0", "frame-profile:x", ":1400"])
def test_an_offcut_is_written_with_its_profile(site: Path, offcut: str) -> None:
    told = run("cut", site, "--offcut", offcut)
    assert told.status == 2
    assert "is no offcut" in told.err


@pytest.mark.parametrize("command", ["set-out", "cut"])
def test_a_site_that_cannot_be_read_is_told(tmp_path: Path, command: str) -> None:
    told = run(command, tmp_path / "nowhere")
    assert (told.status, told.out) == (2, "")
    assert "There is no such folder." in told.err


@pytest.mark.parametrize("command", ["set-out", "cut"])
def test_a_date_that_is_none_is_told(site: Path, monkeypatch: pytest.MonkeyPatch, command: str) -> None:
    monkeypatch.setenv("SOURCE_DATE_EPOCH", "yesterday")
    told = run(command, site)
    assert told.status == 2
    assert "SOURCE_DATE_EPOCH" in told.err


@pytest.mark.parametrize(("command", "template"), [("set-out", "setting_out.html"), ("cut", "cutting.html")])
def test_a_template_of_the_sites_own_that_is_wrong_is_told(site: Path, command: str, template: str) -> None:
    (site / "report_templates").mkdir()
    (site / "report_templates" / template).write_text("{{ nothing }}", encoding="utf-8")
    told = run(command, site)
    assert told.status == 2
    assert template in told.err


SCHEDULE = "mark;floor;room;width_mm;height_mm\nW-2.01;2;kitchen;1230;1480,5\nW-2.02;2;hall;885;150\n"


def test_a_schedule_gives_blank_records(site: Path, tmp_path: Path) -> None:
    schedule = tmp_path / "schedule.csv"
    schedule.write_text(SCHEDULE, encoding="utf-8")
    told = run("openings", site, schedule)
    assert (told.status, told.err) == (0, "")
    first, second = told.out.splitlines()
    file = site / "openings" / "W-2.01.yaml"
    assert first == f"made {file}"
    assert second.startswith(f"made {site / 'openings' / 'W-2.02.yaml'}, without planned values: Left piece.")
    document = read(file, file.name)
    assert isinstance(document, Document)
    record = validate(Opening, document)
    assert isinstance(record, Opening)
    assert (record.mark, record.opening.height_mm) == ("W-2.01", 1480.5)
    assert run("check", site).status in {0, 1}


def test_records_that_are_there_stay(site: Path, tmp_path: Path) -> None:
    schedule = tmp_path / "schedule.csv"
    schedule.write_text("mark\nW-1.01\n", encoding="utf-8")
    before = (site / "openings" / "W-1.01.yaml").read_bytes()
    told = run("openings", site, schedule)
    assert told.out == f"kept {site / 'openings' / 'W-1.01.yaml'}, which was there\n"
    assert (site / "openings" / "W-1.01.yaml").read_bytes() == before


def test_one_wrong_line_and_nothing_is_written(site: Path, tmp_path: Path) -> None:
    schedule = tmp_path / "schedule.csv"
    schedule.write_text(SCHEDULE + "W-2.03;2;attic;wide;1480\n", encoding="utf-8")
    told = run("openings", site, schedule)
    assert (told.status, told.out) == (2, "")
    assert told.err.startswith("schedule.csv:4:4: “width_mm” wants a number, not wide.")
    assert told.err.endswith("No record was made.\n")
    assert not (site / "openings" / "W-2.01.yaml").exists()


def test_a_site_at_fault_gets_no_records(tmp_path: Path) -> None:
    schedule = tmp_path / "schedule.csv"
    schedule.write_text(SCHEDULE, encoding="utf-8")
    told = run("openings", tmp_path / "nowhere", schedule)
    assert told.status == 2
    assert "There is no such folder." in told.err
