from collections.abc import Callable
from pathlib import Path

import pytest
from tests.cli.terminal import run
from tests.rules.changes import common_practice
from tests.site_folders import CONFORMING, change, conforming

OVERLAY = """\
overlay: what the supplier of the system asks for
change:
  - id: frame-overlap
    at_least: 100
    basis: {kind: supplier, document: mounting instructions 2026-03}
    reason: wider profile
  - id: window-packed
    retire: true
    basis: {kind: supplier, document: mounting instructions 2026-03}
    reason: the bracket carries the window
"""


@pytest.fixture
def site(tmp_path: Path) -> Path:
    folder = conforming(tmp_path / "s")
    (folder / "rules").mkdir()
    (folder / "rules" / "own.yaml").write_text(OVERLAY, encoding="utf-8")
    return folder


def test_all_rules_are_listed_and_no_id_is_cut() -> None:
    told = run("rules")
    assert (told.status, told.err) == (0, "")
    listed = [line.split()[0] for line in told.out.splitlines() if " critical " in line or " major " in line
              or " minor " in line]  # fmt: skip
    assert listed == [held.id for held in common_practice().rules]
    assert max(map(len, told.out.splitlines())) <= 80


def test_the_rules_of_a_stage(golden: Callable[[str, str], None]) -> None:
    golden("rules-supports.txt", run("rules", "--stage", "supports").out)


def test_a_site_s_own_limit_is_listed_beside_that_of_the_rule_set(site: Path) -> None:
    told = run("rules", "--site", site).out
    assert "at least 100 mm (rule set: at least 80 mm)" in told.replace("\u00a0", " ")
    assert "window-packed" not in told


def test_a_stage_that_is_none_is_told_with_those_there_are() -> None:
    told = run("rules", "--stage", "roof")
    assert (told.status, told.out) == (2, "")
    assert told.err.startswith(
        "No rule is of the stage roof; stages are: survey, frame, supports, plinth, window,"
    )


@pytest.mark.parametrize("command", [("rules",), ("explain", "frame-overlap")])
def test_a_rule_set_or_site_that_cannot_be_read_is_told(tmp_path: Path, command: tuple[str, ...]) -> None:
    told = run(*command, "--set", "magic")
    assert told.status == 2
    assert "site.yaml: No rule set is called “magic”" in told.err
    assert run(*command, "--site", tmp_path).status == 2
    folder = conforming(tmp_path / "s")
    change(folder / "site.yaml", "\nname:", "\nnam:")
    assert "“nam” is not known here. Did you mean “name”?" in run(*command, "--site", folder).err


def test_a_rule_is_told_in_full(golden: Callable[[str, str], None]) -> None:
    told = run("explain", "foam-set-before-trim")
    assert (told.status, told.err) == (0, "")
    golden("explain.txt", told.out)
    assert max(map(len, told.out.splitlines())) <= 80


def test_a_condition_of_a_rule_is_told() -> None:
    assert "applies     when " in run("explain", "support-length").out


def test_a_changed_and_a_retired_rule_are_told_with_the_site_s_reason(site: Path) -> None:
    changed = " ".join(run("explain", "frame-overlap", "--site", site).out.replace("\u00a0", " ").split())
    assert "limit at least 100 mm (base rule set: at least 80 mm; wider profile)" in changed
    assert "basis supplier's instructions: mounting instructions 2026-03" in changed
    retired = run("explain", "window-packed", "--site", site)
    assert retired.status == 0
    assert "retired     the bracket carries the window" in retired.out


def test_an_unknown_rule_suggests_the_nearest() -> None:
    assert run("explain", "frame-overlpa") == (
        2, "", "No rule is called frame-overlpa. Did you mean frame-overlap?\n",
    )  # fmt: skip
    assert run("explain", "magic").err == "No rule is called magic.\n"


def test_every_rule_in_force_can_be_explained() -> None:
    from revealbook.cli.rules import _explained
    from revealbook.present.sources import sources
    from revealbook.present.words import words_in

    rules, words = common_practice(), words_in("en")
    for line in sources(rules, words).rules:
        told = _explained(rules, line, words)
        assert told.startswith(line.rule_id)
        assert "\nwhat to do  " in told


def test_the_conforming_site_has_the_shipped_rules() -> None:
    shipped, in_force = run("rules").out, run("rules", "--site", CONFORMING).out
    assert in_force == shipped
