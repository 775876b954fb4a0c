import itertools
from pathlib import Path

from tests.site_folders import change, conforming

from revealbook.records.load import Folder, look_into
from revealbook.setting_out.materials import Allowances
from revealbook.setting_out.plan import OpeningPlan
from revealbook.setting_out.site import SetOutSite, read_and_set_out
from revealbook.source.problem import Problem


def folder(path: Path) -> Folder:
    found = look_into(path)
    assert isinstance(found, Folder), found
    return found


def second(site: Path, mark: str, height_mm: int) -> None:
    text = f"opening: {{mark: {mark}, width_mm: 1230, height_mm: {height_mm}}}\n"
    (site / "openings" / f"{mark}.yaml").write_text(text, encoding="utf-8")


def out(path: Path, *marks: str) -> SetOutSite:
    found = read_and_set_out(folder(path), marks)
    assert isinstance(found, SetOutSite), found
    return found


def problems(path: Path, *marks: str) -> tuple[Problem, ...]:
    found = read_and_set_out(folder(path), marks)
    assert isinstance(found, tuple), found
    return found


def test_every_opening_of_a_folder_is_set_out(tmp_path: Path) -> None:
    site = conforming(tmp_path / "site")
    second(site, "W-1.02", 1480)
    found = out(site)
    assert [one.mark for one in found.openings] == ["W-1.01", "W-1.02"]
    assert all(isinstance(one.plan, OpeningPlan) for one in found.openings)


def test_what_cannot_be_set_out_stands_among_the_others_and_takes_no_material(tmp_path: Path) -> None:
    site = conforming(tmp_path / "site")
    whole = out(site).materials
    second(site, "W-1.02", 150)
    found = out(site)
    assert not isinstance(found.openings[1].plan, OpeningPlan)
    assert found.materials == whole


def test_materials_of_the_site_are_those_of_its_openings_together(tmp_path: Path) -> None:
    site = conforming(tmp_path / "site")
    second(site, "W-1.02", 1480)
    found = out(site)
    frame_fixings = next(one for one in found.materials if one.what == "frame fixings")
    plans = [one.plan for one in found.openings if isinstance(one.plan, OpeningPlan)]
    assert frame_fixings.net == sum(len(piece.holes_mm) for plan in plans for piece in plan.pieces)


def test_photographs_that_are_missing_keep_nobody_from_setting_out(tmp_path: Path) -> None:
    site = conforming(tmp_path / "site")
    for photo in (site / "photos").iterdir():
        photo.unlink()
    assert len(out(site).openings) == 1


def test_a_record_at_fault_is_a_problem_unless_another_opening_was_asked_for(tmp_path: Path) -> None:
    site = conforming(tmp_path / "site")
    second(site, "W-1.02", 1480)
    change(site / "openings" / "W-1.02.yaml", "width_mm: 1230", "width_mm: wide")
    assert [problem.place.file for problem in problems(site)] == ["openings/W-1.02.yaml"]
    assert [one.mark for one in out(site, "W-1.01").openings] == ["W-1.01"]


def test_an_opening_that_is_not_there_is_a_problem_with_the_nearest_mark(tmp_path: Path) -> None:
    (problem,) = problems(conforming(tmp_path / "site"), "W-1.1")
    assert (problem.code, problem.facts["nearest"]) == ("unknown_name", "W-1.01")


def test_a_site_file_or_rules_at_fault_are_problems(tmp_path: Path) -> None:
    site = conforming(tmp_path / "site")
    change(site / "site.yaml", "edition: 2026-12}", "edition: 1999-01}")
    assert [problem.code for problem in problems(site)] == ["unknown_edition"]
    (site / "site.yaml").write_text("id: [\n", encoding="utf-8")
    assert problems(site)[0].place.file == "site.yaml"


def test_the_sites_overlay_is_kept(tmp_path: Path) -> None:
    site = conforming(tmp_path / "site")
    (site / "rules").mkdir(exist_ok=True)
    (site / "rules" / "site.yaml").write_text(
        "overlay: o\nchange:\n  - {id: fixing-centres, at_most: 400, reason: r,"
        " basis: {kind: supplier, document: letter}}\n",
        encoding="utf-8",
    )
    (one,) = out(site).openings
    assert isinstance(one.plan, OpeningPlan)
    holes = one.plan.piece("left").holes_mm
    assert max(right - left for left, right in itertools.pairwise(holes)) <= 400


def test_allowances_reach_the_materials(tmp_path: Path) -> None:
    site = conforming(tmp_path / "site")
    found = read_and_set_out(folder(site), (), Allowances().with_waste(100))
    assert isinstance(found, SetOutSite)
    adhesive = next(one for one in found.materials if one.what == "adhesive")
    assert adhesive.gross == 2 * adhesive.net
