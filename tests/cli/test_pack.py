import re
import subprocess
from pathlib import Path

import pytest
from tests.cli.terminal import run
from tests.site_folders import RECORD, SHORT_OVERLAP, change, conforming

SMALL = "opening: {mark: W-1.01, room: loft}\nsurvey: {sound: false, photos: [{file: W-1.01-wall.jpg}]}\n"
"""A record that makes a short pack; its substrate is not sound."""


@pytest.fixture
def site(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path / "cache"))
    monkeypatch.setenv("SOURCE_DATE_EPOCH", "1796083200")
    folder = conforming(tmp_path / "s")
    (folder / RECORD).write_text(SMALL, encoding="utf-8")
    return folder


def info(file: Path) -> dict[str, str]:
    told = subprocess.run(["pdfinfo", "-isodates", str(file)], capture_output=True, text=True, check=True)
    assert told.stderr == ""
    return {
        name: value.strip() for name, _, value in (line.partition(":") for line in told.stdout.splitlines())
    }


def test_a_pack_is_written_with_status_0_also_if_something_does_not_conform(site: Path) -> None:
    told = run("pack", site)
    file = site / "pack" / "alder-yard.pdf"
    assert told.status == 0
    first, verdict = told.out.splitlines()
    assert first.startswith(f"{file}: {info(file)['Pages']} pages, fingerprint ")
    assert verdict == "The only opening does not conform, in one point."
    assert told.err == "rendering 1 opening ...\n"
    assert run("check", site).status == 1


def test_a_pack_can_go_anywhere_and_carries_the_date_asked_for(site: Path, tmp_path: Path) -> None:
    target = tmp_path / "new" / "p.pdf"
    assert run("pack", site, "--to", target).status == 0
    assert info(target)["CreationDate"] == "2026-12-01T00:00:00Z"
    assert not (site / "pack").exists()


@pytest.mark.parametrize("epoch", ["yesterday", "9" * 30, "1.5"])
def test_a_date_that_is_none_is_told(site: Path, monkeypatch: pytest.MonkeyPatch, epoch: str) -> None:
    monkeypatch.setenv("SOURCE_DATE_EPOCH", epoch)
    told = run("pack", site)
    assert (told.status, told.out) == (2, "")
    assert told.err == "SOURCE_DATE_EPOCH is no number of seconds since 1970; unset it or correct it.\n"


def test_no_pack_is_made_of_half_the_records(site: Path) -> None:
    (site / "openings" / "X.yaml").write_text("opening: {mark: X, colour: red}\n", encoding="utf-8")
    told = run("pack", site)
    assert (told.status, told.out) == (2, "")
    lines = told.err.splitlines()
    assert lines[0].startswith("openings/X.yaml:1:20: “colour” is not known here.")
    assert lines[-1] == "No pack was made: a pack of half the records would hide the rest."
    assert not (site / "pack").exists()


def test_a_photograph_that_cannot_be_used_is_told_with_its_line(site: Path) -> None:
    (site / "photos" / "W-1.01-wall.jpg").write_bytes(b"no picture")
    told = run("pack", site)
    assert (told.status, told.out) == (2, "")
    assert re.search(
        r"openings/W-1\.01\.yaml:\d+:\d+: W-1\.01-wall\.jpg in photos/ is not a picture", told.err
    )
    assert "Export it as JPEG" in told.err
    checked = run("check", site)
    assert (checked.status, checked.err.splitlines()[0]) == (2, told.err.splitlines()[0])
    assert not (site / "pack").exists()


def test_a_template_of_the_site_that_is_wrong_is_told(site: Path) -> None:
    (site / "report_templates").mkdir()
    (site / "report_templates" / "cover.html").write_text("{{ nothing_of_the_kind }}", encoding="utf-8")
    told = run("pack", site)
    assert told.status == 2
    assert "cover.html" in told.err
    assert "nothing_of_the_kind" in told.err


def test_a_place_that_cannot_be_written_is_told(site: Path, tmp_path: Path) -> None:
    (tmp_path / "taken").mkdir()
    told = run("pack", site, "--to", tmp_path / "taken")
    assert told.status == 2
    assert told.err.splitlines()[-1] == f"{tmp_path / 'taken'}: Is a directory"


def test_what_is_no_site_folder_makes_no_pack(tmp_path: Path) -> None:
    told = run("pack", tmp_path)
    assert told.status == 2
    assert "There is no site.yaml in this folder" in told.err


def test_a_whole_record_changed_in_one_place_is_packed_too(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path / "cache"))
    folder = conforming(tmp_path / "s")
    change(folder / RECORD, *SHORT_OVERLAP)
    assert run("pack", folder, "--to", tmp_path / "p.pdf").status == 0
    assert int(info(tmp_path / "p.pdf")["Pages"]) > 10
