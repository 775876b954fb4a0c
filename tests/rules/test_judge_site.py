"""The step for a whole site, by whatever rules it is told to take."""

from collections.abc import Callable
from dataclasses import replace
from pathlib import Path

import pytest
from tests.rules.changes import common_practice
from tests.site_folders import CONFORMING, RECORD, SHORT_OVERLAP, change, conforming, opening

from revealbook.records.load import Folder, look_into
from revealbook.records.record import SiteFile
from revealbook.rules.finding import Outcome
from revealbook.rules.judge_site import Checked, judge_site, read_overlays, rules_of
from revealbook.rules.judged import JudgedSite
from revealbook.rules.rule_set import RuleSet
from revealbook.source.place import Place
from revealbook.source.problem import Problem

OVERLAY = (
    "overlay: the supplier's\nchange:\n  - id: frame-overlap\n    at_least: 100\n"
    "    basis: {kind: supplier, document: sheet 4}\n    reason: wider profile\n"
)


@pytest.fixture
def site(tmp_path: Path) -> Path:
    return conforming(tmp_path / "site")


def folder(site: Path) -> Folder:
    found = look_into(site)
    assert isinstance(found, Folder)
    return found


def judged(checked: Checked) -> JudgedSite:
    assert checked.problems == ()
    assert checked.judged is not None
    return checked.judged


def overlay(site: Path, text: str | bytes = OVERLAY, name: str = "own.yaml") -> Path:
    (site / "rules").mkdir(exist_ok=True)
    (site / "rules" / name).write_bytes(text if isinstance(text, bytes) else text.encode())
    return site / "rules" / name


def test_every_opening_is_judged_by_every_rule_that_the_site_asks_for(site: Path) -> None:
    opening(site, "A-9", SHORT_OVERLAP)
    found = judged(judge_site(folder(site)))
    assert found.rule_set == common_practice()
    assert [one.mark for one in found.openings] == ["A-9", "W-1.01"]
    rules = [held.id for held in common_practice().rules]
    assert all([one.rule_id for one in judged.judgements] == rules for judged in found.openings)
    assert [one.rule_id for one in found.openings[0].with_outcome(Outcome.DOES_NOT_CONFORM)] == [
        "frame-overlap"
    ]


def test_the_rules_may_come_from_elsewhere(site: Path) -> None:
    """As when a pack is judged again by the rules it carries."""
    asked: list[tuple[Folder, SiteFile]] = []

    def three(where: Folder, file: SiteFile) -> RuleSet:
        asked.append((where, file))
        kept = {"substrate-sound", "wall-plumb", "frame-overlap"}
        rules = common_practice()
        return replace(rules, rules=tuple(held for held in rules.rules if held.id in kept))

    found = judged(judge_site(folder(site), three))
    assert [len(one.judgements) for one in found.openings] == [3]
    assert [(where.path, file.site.id) for where, file in asked] == [(site, "alder-yard")]


def test_rules_that_cannot_be_had_are_told_beside_what_is_wrong_with_records(site: Path) -> None:
    change(site / RECORD, "  moisture_pct: 3.1\n", "  moisture_pct: wet\n")
    lacking = Problem(Place("site.yaml"), "unknown_rule_set", {"name": "x"})
    checked = judge_site(folder(site), lambda *_: (lacking,))
    assert checked.judged is None
    assert checked.problems[0] == lacking
    assert [problem.code for problem in checked.problems[1:]] == ["not_a_number"]


def test_progress_is_told_of_good_and_bad_records(site: Path) -> None:
    opening(site, "A-9", ("mark: A-9\n", "marc: A-9\n"))
    told: list[tuple[int, int, str]] = []
    checked = judge_site(folder(site), progress=lambda *one: told.append(one))
    assert told == [(1, 2, "A-9"), (2, 2, "W-1.01")]
    assert checked.judged is not None
    assert [one.mark for one in checked.judged.openings] == ["W-1.01"]
    assert {problem.place.file for problem in checked.problems} == {"openings/A-9.yaml"}


def test_a_concession_on_a_rule_not_in_force_keeps_its_record_out(site: Path) -> None:
    change(site / RECORD, "- rule: wall-plumb", "- rule: wall-plum")
    checked = judge_site(folder(site))
    assert [problem.code for problem in checked.problems] == ["unknown_name"]
    assert checked.judged is not None
    assert checked.judged.openings == ()


def test_a_site_file_that_is_wrong_hides_nothing_else_that_is(site: Path) -> None:
    change(site / "site.yaml", "\nname:", "\nnam:")
    overlay(site, "overlay: x\nchange: 3\n")
    change(site / RECORD, "  moisture_pct: 3.1\n", "  moisture_pct: wet\n")
    opening(site, "B-1").write_text("opening: {mark: B-1\n", encoding="utf-8")
    checked = judge_site(folder(site))
    assert checked.judged is None
    assert {problem.place.file for problem in checked.problems} == {
        "site.yaml", "rules/own.yaml", "openings/W-1.01.yaml", "openings/B-1.yaml",
    }  # fmt: skip


def test_overlays_are_read_with_their_path_in_the_site(site: Path) -> None:
    file = overlay(site)
    read, unreadable = read_overlays(folder(site))
    assert [(one.name, one.raw) for one in read] == [("rules/own.yaml", file.read_bytes())]
    assert unreadable == []
    in_force = rules_of(folder(site), judged(judge_site(folder(site))).site)
    assert isinstance(in_force, RuleSet)
    (changed,) = [held for held in in_force.rules if held.change]
    assert (changed.id, changed.rule.at_least, changed.change and changed.change.file) == (
        "frame-overlap", 100, "rules/own.yaml",
    )  # fmt: skip


def gone(file: Path) -> None:
    file.unlink()


def a_folder(file: Path) -> None:
    file.unlink()
    file.mkdir()


@pytest.mark.parametrize("happens", [gone, a_folder])
def test_an_overlay_that_goes_away_meanwhile_is_a_problem_and_never_left_out_in_silence(
    site: Path, happens: Callable[[Path], None]
) -> None:
    """Without its overlay the site would be judged by milder rules than it asks for."""
    file = overlay(site)
    overlay(site, "overlay: y\nchange: 3\n", "second.yaml")
    looked = folder(site)
    happens(file)
    checked = judge_site(looked)
    assert checked.judged is None
    assert [(problem.code, problem.place.file) for problem in checked.problems] == [
        ("unreadable", "rules/own.yaml"), ("not_a_list", "rules/second.yaml"),
    ]  # fmt: skip
    assert checked.problems[0].facts["reason"]


def test_the_conforming_site_gives_the_same_whichever_way_it_is_looked_into() -> None:
    looked = folder(CONFORMING)
    found = judged(judge_site(looked))
    assert judged(judge_site(replace(looked, photos=None))) == found
    assert found.outcome is Outcome.CONFORMS
