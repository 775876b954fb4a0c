import json
import subprocess
from pathlib import Path

import pytest
from tests.cli.terminal import run
from tests.site_folders import conforming, opening

GOOD = """\
site: alder-yard
mark: {mark}
by: cleo
at: 2026-11-24T10:00+01:00
instruments:
  - {{id: tape-c, measures: length, uncertainty: 1}}
readings:
  frame:
    pieces: {{bottom: {{overlap_left_mm: {overlap}}}}}
"""


@pytest.fixture
def site(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.setenv("SOURCE_DATE_EPOCH", "1795500000")
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path / "cache"))
    made = conforming(tmp_path / "s")
    for number in range(2, 5):
        opening(made, f"W-1.0{number}")
    return made


def remeasured(folder: Path, mark: str, overlap: float = 82) -> Path:
    file = folder / f"{mark}.yaml"
    file.write_text(GOOD.format(mark=mark, overlap=overlap), encoding="utf-8")
    return file


def drawn(site: Path, *more: str) -> tuple[Path, dict[str, object]]:
    told = run("sample", site, "--seed", "7", "--aql", "6.5", "--format", "json", *more)
    assert told.status == 0, told.err
    file = site.parent / "sample.json"
    file.write_text(told.out, encoding="utf-8")
    return file, json.loads(told.out)


def text_of(pdf: Path) -> str:
    told = subprocess.run(["pdftotext", "-layout", str(pdf), "-"], capture_output=True, text=True, check=True)
    return told.stdout.replace("\u00a0", " ")


def test_a_sample_is_drawn_and_its_sheets_written_beside_the_packs(site: Path, tmp_path: Path) -> None:
    told = run("sample", site, "--aql", "6.5", "--seed", "7", "--records", tmp_path / "again")
    file = site / "pack" / "alder-yard-inspection.pdf"
    assert (told.status, told.err) == (0, "")
    assert told.out.splitlines()[0].startswith(f"{file}: ")
    assert "Seed: 7" in told.out
    assert "2 of 4 openings are measured again." in told.out
    assert json.loads(file.with_suffix(".json").read_text())["seed"] == 7
    assert len(list((tmp_path / "again").iterdir())) == 2
    said = text_of(file)
    assert "Inspected on every opening, never by sample" in said
    assert "Drawn on 2026-11-24 with seed 7" in said


def test_the_same_seed_draws_the_same_and_a_fresh_one_is_told(site: Path) -> None:
    assert drawn(site)[1] == drawn(site)[1]
    told = run("sample", site, "--format", "json")
    assert f"Seed: {json.loads(told.out)['seed']}" in told.err
    assert not (site / "pack").exists()


def test_a_blank_record_that_is_there_stays(site: Path, tmp_path: Path) -> None:
    again = tmp_path / "again"
    drawn(site, "--records", str(again))
    first = next(again.iterdir())
    first.write_text("filled in", encoding="utf-8")
    drawn(site, "--records", str(again))
    assert first.read_text(encoding="utf-8") == "filled in"


def test_an_empty_lot_is_told(site: Path) -> None:
    told = run("sample", site, "--building", "Z")
    assert (told.status, told.out) == (2, "")
    assert "No opening belongs to this lot" in told.err


def test_a_lot_is_divided_only_by_what_is_known(site: Path) -> None:
    assert run("sample", site, "--by", "colour").status == 2
    assert drawn(site, "--by", "fitter")[1]["by"] == ["fitter"]


@pytest.mark.parametrize("command", [("sample",), ("compare", "x.yaml"), ("question",)])
def test_a_site_that_cannot_be_read_is_told(tmp_path: Path, command: tuple[str, ...]) -> None:
    told = run(command[0], tmp_path / "nowhere", *command[1:])
    assert (told.status, told.out) == (2, "")
    assert "There is no such folder." in told.err


@pytest.mark.parametrize("command", [("sample",), ("compare", "x.yaml")])
def test_a_date_that_is_none_is_told(
    site: Path, monkeypatch: pytest.MonkeyPatch, command: tuple[str, ...]
) -> None:
    monkeypatch.setenv("SOURCE_DATE_EPOCH", "yesterday")
    told = run(command[0], site, *command[1:])
    assert told.status == 2
    assert "SOURCE_DATE_EPOCH" in told.err


def test_readings_that_agree_accept_the_lot(site: Path, tmp_path: Path) -> None:
    sample, data = drawn(site)
    files = [remeasured(tmp_path, str(mark)) for mark in data["drawn"]]  # type: ignore[attr-defined]
    told = run("compare", site, *files, "--sample", sample, "--to", tmp_path / "c.pdf")
    assert told.status == 0, told.err
    assert "The lot is accepted: 0 of 2 openings nonconforming, 0 allowed." in told.out
    assert max(map(len, told.out.splitlines())) <= 80
    assert "Measured again" in text_of(tmp_path / "c.pdf")


def test_a_reading_that_differs_is_told_and_rejects_the_lot(site: Path, tmp_path: Path) -> None:
    sample, data = drawn(site)
    mark = str(data["drawn"][0])  # type: ignore[index]
    told = run("compare", site, remeasured(tmp_path, mark, 62), "--sample", sample)
    assert told.status == 1
    assert f"{mark}  Nonconforming in the sample: " in told.out
    assert "■ frame-overlap: bottom, left: 62 mm" in told.out
    assert "The lot is rejected: 1 of 2" in told.out


def test_a_comparison_for_machines(site: Path, tmp_path: Path) -> None:
    told = run("compare", site, remeasured(tmp_path, "W-1.02", 62), "--format", "json")
    data = json.loads(told.out)
    assert told.status == 1
    assert data["openings"][0]["readings"][0]["agreement"] == "differs"
    assert "lot" not in data


def test_re_measurements_that_do_not_fit_the_site_are_told(site: Path, tmp_path: Path) -> None:
    other = remeasured(tmp_path, "W-1.02")
    other.write_text(other.read_text().replace("alder-yard", "larch-court"), encoding="utf-8")
    told = run("compare", site, other, remeasured(tmp_path, "W-9.01"))
    assert (told.status, told.out) == (2, "")
    assert f"{other} is of the site larch-court, not of this one." in told.err
    assert "no opening is called W-9.01." in told.err
    twice = remeasured(tmp_path, "W-1.03")
    assert "more than once" in run("compare", site, twice, twice).err


def test_a_re_measurement_that_cannot_be_read_is_told_with_its_line(site: Path, tmp_path: Path) -> None:
    file = remeasured(tmp_path, "W-1.02")
    file.write_text(file.read_text().replace("overlap_left_mm", "overlap_mm"), encoding="utf-8")
    told = run("compare", site, file)
    assert told.status == 2
    assert f"{file}:9:" in told.err


@pytest.mark.parametrize(
    ("old", "new", "said"),
    [
        ('"seed": 7', '"seed": 8', "changed after the draw"),
        ('"format"', '"kind"', "no sample"),
        ("{", "", "it is no JSON"),
        ('"site": "alder-yard"', '"site": "larch-court"', "of the site larch-court"),
    ],
)  # fmt: skip
def test_a_sample_that_is_not_this_ones_is_told(
    site: Path, tmp_path: Path, old: str, new: str, said: str
) -> None:
    sample, _ = drawn(site)
    sample.write_text(sample.read_text().replace(old, new, 1), encoding="utf-8")
    told = run("compare", site, remeasured(tmp_path, "W-1.02"), "--sample", sample)
    assert (told.status, told.out) == (2, "")
    assert said in told.err


def test_a_sample_of_openings_that_are_gone_is_told(site: Path, tmp_path: Path) -> None:
    sample, _ = drawn(site)
    (site / "openings" / "W-1.04.yaml").unlink()
    told = run("compare", site, remeasured(tmp_path, "W-1.02"), "--sample", sample)
    assert told.status == 2
    assert "The site no longer has W-1.04 of the sample's lot." in told.err


def test_a_template_of_the_sites_own_that_is_wrong_is_told(site: Path, tmp_path: Path) -> None:
    (site / "report_templates").mkdir()
    for name in ("inspection", "compared"):
        (site / "report_templates" / f"{name}.html").write_text("{{ nothing }}", encoding="utf-8")
    assert "inspection.html" in run("sample", site).err
    told = run("compare", site, remeasured(tmp_path, "W-1.02"), "--to", tmp_path / "c.pdf")
    assert told.status == 2
    assert "compared.html" in told.err


def test_copied_records_and_photographs_are_asked_about_and_the_status_stays_well(site: Path) -> None:
    told = run("question", site)
    assert told.status == 0
    assert "Could one of these records have been filled in from another?" in told.out
    assert told.out.count("filled in from another?") == 1
    assert "one and the same picture" in told.out
    assert "A question is no finding" in told.out
    data = json.loads(run("question", site, "--format", "json").out)
    assert data["format"] == "revealbook-questions-1"
    assert {"repeated", "photo twice"} <= {one["kind"] for one in data["questions"]}


def test_the_example_gives_rise_to_no_question(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path / "cache"))
    told = run("question", Path(__file__).parents[2] / "examples" / "larch-court")
    assert (told.status, told.err) == (0, "")
    assert told.out.startswith("Nothing in these records gives rise to a question.")
