"""From a site folder to a pack, without the terminal."""

import shutil
import subprocess
from dataclasses import replace
from datetime import datetime
from pathlib import Path

import pytest
from PIL import Image
from tests.site_folders import (
    CONFORMING,
    EARLY_TRIM,
    NOT_SOUND,
    RECORD,
    SHORT_OVERLAP,
    change,
    conforming,
    opening,
)

from revealbook import api
from revealbook.making.pack import Packed, photographs
from revealbook.present.evidence import path_of
from revealbook.records.load import PHOTOS
from revealbook.rules.finding import Outcome
from revealbook.rules.judged import JudgedSite

MADE = datetime.fromisoformat("2026-12-01T09:00:00+01:00")


def judged(site: Path) -> JudgedSite:
    checked = api.check(site)
    assert checked.problems == ()
    assert checked.judged is not None
    return checked.judged


def codes(site: Path) -> list[tuple[str, str]]:
    return [(problem.place.file, problem.code) for problem in api.check(site).problems]


@pytest.fixture
def site(tmp_path: Path) -> Path:
    return conforming(tmp_path / "site")


def test_the_conforming_site_conforms() -> None:
    found = judged(CONFORMING)
    (only,) = found.openings
    assert found.outcome is Outcome.CONFORMS
    assert {str(outcome) for outcome in only.counts} <= {"conforms", "does not apply"}


def test_openings_are_judged_in_order_of_their_files(site: Path) -> None:
    opening(site, "A-9", SHORT_OVERLAP)
    opening(site, "X-1", NOT_SOUND)
    assert [(one.mark, str(one.outcome)) for one in judged(site).openings] == [
        ("A-9", "does not conform"), ("W-1.01", "conforms"), ("X-1", "not shown"),
    ]  # fmt: skip


def test_progress_is_told_after_each_opening(site: Path) -> None:
    opening(site, "A-9")
    opening(site, "B-1", ("mark: B-1\n", "marc: B-1\n"))
    told: list[tuple[int, int, str]] = []
    api.check(site, lambda done, total, name: told.append((done, total, name)))
    assert told == [(1, 3, "A-9"), (2, 3, "B-1"), (3, 3, "W-1.01")]


def test_all_problems_of_all_records_are_told_in_one_run_and_hide_no_good_record(site: Path) -> None:
    bad = opening(site, "A-1", ("  moisture_pct: 3.1\n", "  moisture_pct: wet\n  moist: 3\n"))
    change(bad, "  out_of_plumb_mm: 4\n", "  out_of_plumb_mm: -4\n")
    opening(site, "B-1", ("- rule: wall-plumb", "- rule: wall-plum"))
    (site / "openings" / "C-1.yaml").write_text("opening: {mark: C-1\n", encoding="utf-8")
    checked = api.check(site)
    assert [(problem.place.file, problem.code) for problem in checked.problems] == [
        ("openings/A-1.yaml", "too_small"),
        ("openings/A-1.yaml", "not_a_number"),
        ("openings/A-1.yaml", "unknown_key"),
        ("openings/B-1.yaml", "unknown_name"),
        ("openings/C-1.yaml", "yaml_syntax"),
    ]
    assert checked.judged is not None
    assert [one.mark for one in checked.judged.openings] == ["W-1.01"]
    assert checked.judged.openings[0].outcome is Outcome.CONFORMS


def test_a_broken_site_file_does_not_hide_what_is_wrong_with_records_and_overlays(site: Path) -> None:
    change(site / "site.yaml", "\nname:", "\nnam:")
    change(site / RECORD, "  moisture_pct: 3.1\n", "  moisture_pct: wet\n")
    (site / "rules").mkdir()
    (site / "rules" / "own.yaml").write_text("overlay: x\nchange: [{id: frame-overlap}]\n", encoding="utf-8")
    checked = api.check(site)
    assert checked.judged is None
    found = {(problem.place.file, problem.code) for problem in checked.problems}
    assert ("site.yaml", "unknown_key") in found
    assert ("rules/own.yaml", "missing_key") in found
    assert ("openings/W-1.01.yaml", "not_a_number") in found


def test_rules_that_cannot_be_used_do_not_hide_what_is_wrong_with_records(site: Path) -> None:
    change(site / "site.yaml", "edition: 2026-12", "edition: 1999-01")
    change(site / RECORD, "  moisture_pct: 3.1\n", "  moisture_pct: wet\n")
    assert codes(site) == [("site.yaml", "unknown_edition"), ("openings/W-1.01.yaml", "not_a_number")]
    assert api.check(site).judged is None


def test_an_overlay_that_cannot_be_read_is_a_problem(site: Path) -> None:
    (site / "rules").mkdir()
    (site / "rules" / "own.yaml").write_bytes(b"overlay: \xff")
    (site / "rules" / "more.yaml").write_text("overlay: x\nchange: 3\n", encoding="utf-8")
    assert codes(site) == [("rules/more.yaml", "not_a_list"), ("rules/own.yaml", "not_utf8")]


def test_an_overlay_changes_what_is_asked_for(site: Path) -> None:
    (site / "rules").mkdir()
    (site / "rules" / "own.yaml").write_text(
        "overlay: the supplier's\nchange:\n  - id: frame-overlap\n    at_least: 100\n"
        "    basis: {kind: supplier, document: sheet 4}\n    reason: wider profile\n",
        encoding="utf-8",
    )
    assert judged(site).outcome is Outcome.DOES_NOT_CONFORM


@pytest.mark.parametrize(("name", "code"), [("nowhere", "no_such_folder"), ("empty", "no_site_file")])
def test_what_is_no_site_folder_is_a_problem(tmp_path: Path, name: str, code: str) -> None:
    (tmp_path / "empty" / "site.yaml").mkdir(parents=True)
    assert codes(tmp_path / name) == [(str(tmp_path / name), code)]


def test_a_language_without_a_catalogue_is_a_problem_at_its_line(
    site: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    change(site / "site.yaml", "\nname:", "\nlanguage: de\nname:")
    monkeypatch.setattr(api, "languages", lambda: {"en": None})
    checked = api.check(site)
    (problem,) = checked.problems
    assert checked.judged is None
    assert (problem.code, problem.place.file) == ("language_unknown", "site.yaml")
    assert problem.place.line > 1


def test_a_site_without_openings_has_shown_nothing(site: Path) -> None:
    (site / RECORD).unlink()
    found = judged(site)
    assert found.openings == ()
    assert found.outcome is Outcome.NOT_SHOWN


def packed(site: Path, cache: Path, made: datetime | None = MADE, *, whole: bool = False) -> Packed:
    """Make a pack; unless the whole of it is wanted, by three rules only, which is faster."""
    found = api.pack(judged(site) if whole else few(judged(site)), site, cache, made)
    assert isinstance(found, Packed), found
    return found


def few(found: JudgedSite) -> JudgedSite:
    openings = tuple(replace(one, judgements=one.judgements[:3]) for one in found.openings)
    return replace(found, rule_set=replace(found.rule_set, rules=found.rule_set.rules[:3]), openings=openings)


@pytest.fixture(scope="module")
def pack(tmp_path_factory: pytest.TempPathFactory) -> tuple[Packed, Path]:
    folder = tmp_path_factory.mktemp("pack")
    site = conforming(folder / "site")
    opening(site, "A__9", SHORT_OVERLAP, EARLY_TRIM)
    made = packed(site, folder / "cache", whole=True)
    (folder / "pack.pdf").write_bytes(made.pdf)
    return made, folder


def text_of(file: Path) -> str:
    run = subprocess.run(["pdftotext", "-layout", str(file), "-"], capture_output=True, text=True, check=True)
    assert run.stderr == ""
    return run.stdout


def test_the_pack_says_what_was_found(pack: tuple[Packed, Path]) -> None:
    made, folder = pack
    flat = " ".join(text_of(folder / "pack.pdf").split())
    for said in (
        "W-1.01",
        "1 of 2 openings does not conform, in 2 points.",
        made.pack.short_fingerprint,
        "A__9/1",
        "62 mm",
        "The work could have gone on from 2026-11-20 15:06.",
        "Indicative only",
        *(one.rule_id for one in made.pack.nonconformities),
    ):
        assert said in flat, said


def test_the_pack_has_as_many_pages_as_it_says(pack: tuple[Packed, Path]) -> None:
    made, folder = pack
    told = subprocess.run(["pdfinfo", str(folder / "pack.pdf")], capture_output=True, text=True, check=True)
    assert told.stderr == ""
    assert f"\nPages:           {made.pages}\n" in told.stdout
    assert made.warnings == ()


def test_the_pack_carries_every_file_it_was_judged_from_byte_for_byte(pack: tuple[Packed, Path]) -> None:
    made, folder = pack
    (folder / "inside").mkdir(exist_ok=True)
    subprocess.run(
        ["pdfdetach", "-saveall", "-o", str(folder / "inside"), str(folder / "pack.pdf")],
        check=True, capture_output=True,
    )  # fmt: skip
    inside = {path_of(file.name): file.read_bytes() for file in (folder / "inside").iterdir()}
    assert inside == {file.path: file.content for file in made.pack.carried}
    for name in ("site.yaml", "openings/W-1.01.yaml", "openings/A__9.yaml"):
        assert inside[name] == (folder / "site" / name).read_bytes()


def test_two_runs_make_equal_bytes_whatever_is_in_the_cache(site: Path, tmp_path: Path) -> None:
    first = packed(site, tmp_path / "one")
    assert packed(site, tmp_path / "one").pdf == first.pdf
    assert packed(site, tmp_path / "two").pdf == first.pdf


def test_a_pack_is_dated_by_its_maker_or_by_the_last_thing_that_happened(site: Path, tmp_path: Path) -> None:
    def dated(made: datetime | None) -> float:
        (tmp_path / "p.pdf").write_bytes(packed(site, tmp_path / "cache", made).pdf)
        told = subprocess.run(
            ["pdfinfo", "-isodates", str(tmp_path / "p.pdf")], capture_output=True, text=True, check=True
        )
        (line,) = [line for line in told.stdout.splitlines() if line.startswith("CreationDate")]
        return datetime.fromisoformat(line.split()[1]).timestamp()

    assert dated(MADE) == MADE.timestamp()
    assert dated(None) == datetime.fromisoformat("2026-11-23T08:10+01:00").timestamp()


def test_a_template_of_the_site_takes_the_place_of_the_shipped_one(site: Path, tmp_path: Path) -> None:
    (site / "report_templates").mkdir()
    (site / "report_templates" / "cover.html").write_text(
        '<section class="cover"><h1>Our own cover of {{ pack.site.name }}</h1></section>', encoding="utf-8"
    )
    (tmp_path / "p.pdf").write_bytes(packed(site, tmp_path / "cache").pdf)
    flat = " ".join(text_of(tmp_path / "p.pdf").split())
    assert f"Our own cover of {judged(site).site.site.name}" in flat
    assert "Handover pack · proof of hidden work" not in flat
    assert "Register of openings" in flat


def test_photographs_that_cannot_be_used_are_problems_at_their_lines(site: Path) -> None:
    (site / PHOTOS / "W-1.01-wall.jpg").write_bytes(b"no picture")
    (site / PHOTOS / "W-1.01-seals.jpg").write_bytes((site / PHOTOS / "W-1.01-seals.jpg").read_bytes()[:-40])
    found = api.check(site).problems
    assert [(problem.code, problem.facts["file"]) for problem in found] == [
        ("photo_not_a_picture", "W-1.01-wall.jpg"), ("photo_cut_short", "W-1.01-seals.jpg"),
    ]  # fmt: skip
    lines = (site / RECORD).read_text(encoding="utf-8").splitlines()
    assert all(str(problem.facts["file"]) in lines[problem.place.line - 1] for problem in found)


def test_the_photograph_of_a_phone_is_checked_and_packed(site: Path, tmp_path: Path) -> None:
    shutil.copy(Path(__file__).parent / "source" / "phone.heic", site / PHOTOS / "W-1.01-wall.jpg")
    assert codes(site) == []
    photo = photographs(judged(site), site, tmp_path / "cache")
    assert isinstance(photo, dict)
    assert (photo["W-1.01-wall.jpg"].width_px, str(photo["W-1.01-wall.jpg"].taken)) == (
        320, "2026-11-20 09:31:07+01:00",
    )  # fmt: skip


def test_a_photograph_that_is_not_there_keeps_its_record_from_being_judged(site: Path) -> None:
    (site / PHOTOS / "W-1.01-wall.jpg").unlink()
    assert codes(site) == [("openings/W-1.01.yaml", "photo_missing")]


def test_a_photograph_named_twice_is_scaled_once(site: Path, tmp_path: Path) -> None:
    Image.new("RGB", (80, 60), "gray").save(site / PHOTOS / "W-1.01-wall.jpg")
    opening(site, "A-9")
    packed(site, tmp_path / "cache")
    contents = {file.read_bytes() for file in (site / PHOTOS).iterdir()}
    assert len(list((tmp_path / "cache").glob("*.jpg"))) == len(contents)


def test_a_site_without_any_date_has_a_pack_that_says_so(site: Path, tmp_path: Path) -> None:
    (site / RECORD).write_text("opening: {mark: W-1.01}\n", encoding="utf-8")
    (tmp_path / "p.pdf").write_bytes(packed(site, tmp_path / "cache", None).pdf)
    assert "no dated entry" in text_of(tmp_path / "p.pdf")
