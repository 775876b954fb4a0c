from dataclasses import replace
from pathlib import Path

import pytest
from tests.rules.sets import in_force, stated
from tests.site_folders import RECORD, change, conforming, opening

from revealbook.records.load import Folder, load_site, look_into
from revealbook.records.record import SiteFile
from revealbook.rules.finding import Outcome
from revealbook.rules.judge_site import Checked, judge_site, rules_of
from revealbook.rules.rule_set import RuleSet
from revealbook.source.place import Place
from revealbook.source.problem import Problem


@pytest.fixture
def site(tmp_path: Path) -> Path:
    folder = conforming(tmp_path / "s")
    (folder / "rules").mkdir()
    return folder


def looked_into(site: Path) -> Folder:
    folder = look_into(site)
    assert isinstance(folder, Folder)
    return folder


def codes(problems: tuple[Problem, ...]) -> list[tuple[str, str]]:
    return [(problem.place.file, problem.code) for problem in problems]


def two_rules(_folder: Folder, _site: SiteFile) -> RuleSet:
    return in_force(stated(at_least=85), stated(id="wall-plumb", measure="wall_plumb", at_most=5))


def test_openings_are_judged_by_the_rules_that_are_handed_in() -> None:
    folder = looked_into(Path(__file__).parents[1] / "conforming")
    checked = judge_site(folder, two_rules)
    assert checked.judged is not None
    (only,) = checked.judged.openings
    assert {one.rule_id: one.outcome for one in only.judgements} == {
        "frame-overlap": Outcome.DOES_NOT_CONFORM,
        "wall-plumb": Outcome.CONFORMS,
    }
    shipped = judge_site(folder)
    assert shipped.judged is not None
    assert shipped.judged.outcome is Outcome.CONFORMS


def test_rules_that_cannot_be_had_leave_nothing_judged_but_records_are_looked_at(site: Path) -> None:
    change(site / RECORD, "  moisture_pct: 3.1\n", "  moisture_pct: wet\n")
    wrong = Problem(Place("rules/own.yaml"), "empty_file")
    checked = judge_site(looked_into(site), lambda _folder, _site: (wrong,))
    assert checked.judged is None
    assert codes(checked.problems) == [
        ("rules/own.yaml", "empty_file"),
        ("openings/W-1.01.yaml", "not_a_number"),
    ]


def test_a_site_file_that_cannot_be_used_leaves_records_and_overlays_looked_at_by_themselves(
    site: Path,
) -> None:
    (site / "site.yaml").write_text("", encoding="utf-8")
    (site / "rules" / "own.yaml").write_text("", encoding="utf-8")
    (site / RECORD).write_text("opening: {mark: W-1.01, colour: red}\n", encoding="utf-8")
    checked = judge_site(looked_into(site))
    assert checked == Checked(None, checked.problems)
    assert codes(checked.problems) == [
        ("site.yaml", "empty_file"),
        ("rules/own.yaml", "empty_file"),
        ("openings/W-1.01.yaml", "unknown_key"),
    ]


def test_an_overlay_that_cannot_be_opened_hides_no_other_fault(site: Path) -> None:
    (site / "rules" / "gone.yaml").mkdir()
    (site / "rules" / "own.yaml").write_text("overlay: x\nchange: 3\n", encoding="utf-8")
    folder = looked_into(site)
    loaded = load_site(folder)
    assert isinstance(loaded, SiteFile)
    gone = site / "rules" / "gone.yaml"
    found = rules_of(replace(folder, overlays=(gone, *folder.overlays)), loaded)
    assert isinstance(found, tuple)
    assert codes(found) == [("rules/gone.yaml", "unreadable"), ("rules/own.yaml", "not_a_list")]
    alone = rules_of(replace(folder, overlays=(gone,)), loaded)
    assert isinstance(alone, tuple)
    assert codes(alone) == [("rules/gone.yaml", "unreadable")]


def test_times_and_sizes_that_cannot_be_meant_are_problems_at_their_line_and_not_judged(site: Path) -> None:
    change(site / RECORD, "set_at: 2026-11-20", "set_at: 2025-11-20")
    change(site / RECORD, "length_mm: 2565", "length_mm: 256.5")
    checked = judge_site(looked_into(site))
    assert checked.judged is not None
    assert checked.judged.openings == ()
    assert codes(checked.problems) == [
        ("openings/W-1.01.yaml", "size_off"),
        ("openings/W-1.01.yaml", "time_before"),
    ]
    lines = (site / RECORD).read_text(encoding="utf-8").splitlines()
    assert "set_at: 2025" in lines[checked.problems[1].place.line - 1]


def test_a_first_edition_judges_times_and_sizes_as_they_stand(site: Path) -> None:
    change(site / RECORD, "set_at: 2026-11-20", "set_at: 2025-11-20")
    change(site / "site.yaml", "edition: 2026-12", "edition: 2026-11")
    checked = judge_site(looked_into(site))
    assert checked.problems == ()
    assert checked.judged is not None
    (only,) = checked.judged.openings
    assert only.outcome is Outcome.DOES_NOT_CONFORM


def test_filed_records_are_judged_as_they_stand(site: Path) -> None:
    change(site / RECORD, "set_at: 2026-11-20", "set_at: 2025-11-20")
    checked = judge_site(looked_into(site), filed=True)
    assert checked.problems == ()
    assert checked.judged is not None
    assert len(checked.judged.openings) == 1


def test_progress_names_each_opening_once_it_is_judged(site: Path) -> None:
    opening(site, "W-1.02")
    told: list[tuple[int, int, str]] = []
    judge_site(looked_into(site), two_rules, lambda *done: told.append(done))
    assert told == [(1, 2, "W-1.01"), (2, 2, "W-1.02")]
