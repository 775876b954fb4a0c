from collections.abc import Callable
from pathlib import Path

import pytest
from tests.archive.archives import FIRST, add
from tests.cli.terminal import run
from tests.made import bare, judged
from tests.rules.changes import common_practice, shipped
from tests.site_folders import CONFORMING, change, conforming

from revealbook.archive.store import Archive
from revealbook.present.evidence import evidence

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


@pytest.mark.parametrize("name", ["common-practice", "published-limits"])
def test_all_rules_are_listed_and_no_id_is_cut(name: str) -> None:
    told = run("rules", "--set", name)
    assert (told.status, told.err) == (0, "")
    listed = [line.split()[0] for line in told.out.splitlines() if " critical " in line or " major " in line
              or " minor " in line]  # fmt: skip
    assert listed == [held.id for held in shipped(name).rules]
    assert max(map(len, told.out.splitlines())) <= 80


def test_the_rules_of_a_stage(golden: Callable[[str, str], None]) -> None:
    golden("rules-supports.txt", run("rules", "--stage", "supports").out)


def test_a_site_s_own_limit_is_listed_beside_that_of_the_rule_set(site: Path) -> None:
    told = run("rules", "--site", site).out
    assert "at least 100 mm (rule set: at least 80 mm)" in " ".join(told.replace("\u00a0", " ").split())
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
    assert "--set: No rule set is called “magic”" in told.err
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


# --- editions --------------------------------------------------------------------------------------------


def test_rules_of_an_earlier_edition_are_listed_and_explained() -> None:
    told = run("rules", "--set", "published-limits", "--edition", "2026-11")
    assert (told.status, told.err) == (0, "")
    assert "published-limits, edition 2026-11" in told.out
    assert "DIN 18202 2013-04" in " ".join(
        run("explain", "opening-width", "--edition", "2026-11").out.split()
    )


def test_an_unknown_edition_lists_those_that_are_known() -> None:
    told = run("rules", "--edition", "2026-10")
    assert told.status == 2
    assert told.err.startswith("--edition: There is no edition 2026-10 of common-practice; this version of")
    assert "has: 2026-11, 2026-12" in " ".join(told.err.split())


def test_two_editions_are_compared_limit_by_limit() -> None:
    told = run("rules", "--between", "2026-11", "2026-12", "--set", "published-limits")
    assert (told.status, told.err) == (0, "")
    lines = told.out.splitlines()
    assert lines[0] == "published-limits: 2026-11 → 2026-12"
    at = lines.index("opening-width")
    assert lines[at + 1].startswith("  basis: published: DIN 18202 2013-04, table 1")
    assert "  computations: 1 → 2" in lines[lines.index("Method") :]
    assert max(map(len, lines)) <= 80


def test_an_edition_against_itself_differs_in_nothing() -> None:
    assert run("rules", "--between", "2026-11", "2026-11").out.endswith("\nNothing differs.\n")
    assert run("rules", "--between", "2026-11", "2026-10").status == 2


def test_the_difference_can_be_kept_to_a_stage() -> None:
    told = run("rules", "--between", "2026-11", "2026-12", "--stage", "survey").out
    assert "opening-width" in told
    assert "Method" not in told


def test_a_rule_is_explained_as_a_filed_pack_carries_it(site: Path, tmp_path: Path) -> None:
    change(site / "site.yaml", "edition: 2026-12", "edition: 2026-11")
    pack = bare(evidence(judged(site)), tmp_path / "p.pdf")
    told = " ".join(run("explain", "frame-overlap", "--pack", pack).out.replace("\u00a0", " ").split())
    assert "limit at least 100 mm (base rule set: at least 80 mm; wider profile)" in told
    listed = run("rules", "--pack", pack).out
    assert "edition 2026-11" in listed
    assert "Changed by the site: 1 of 104 rules tightened, 1 of 104 rules retired" in listed
    assert run("explain", "frame-overlap", "--pack", site / "site.yaml").status == 2


def test_options_that_answer_the_same_question_are_not_mixed(site: Path) -> None:
    told = run("rules", "--site", site, "--pack", "x.pdf")
    assert told.status == 2
    assert "--site and --pack cannot go together" in told.err


def test_keys_that_no_rule_reads_are_listed_with_the_reason() -> None:
    told = run("rules", "--set", "published-limits", "--unread")
    assert (told.status, told.err) == (0, "")
    text = " ".join(told.out.split())
    assert "opening.drawing identity, on every page and in the look-up" in text
    assert "no rule of this set reads it" not in text
    assert "no rule of this set reads it" in " ".join(run("rules", "--unread").out.split())
    assert "survey.sound" not in text
    assert max(map(len, told.out.splitlines())) <= 80


def test_a_rule_is_explained_as_an_archive_holds_it(site: Path, tmp_path: Path) -> None:
    archive = Archive.create(tmp_path / "archive")
    add(archive, {"packs/p.pdf": bare(evidence(judged(site)), tmp_path / "p.pdf").read_bytes()}, "alder-yard")
    add(archive, FIRST, "no-pack-that-opens")
    told = run("explain", "frame-overlap", "--pack", "alder-yard", "--archive", str(archive.path))
    assert "base rule set: at least 80 mm; wider profile" in " ".join(told.out.replace("\u00a0", " ").split())
    for wrong in ("no-pack-that-opens", "nowhere"):
        told = run("explain", "frame-overlap", "--pack", wrong, "--archive", str(archive.path))
        assert (told.status, told.out) == (2, "")
        assert told.err


def test_check_says_by_which_rules_and_how_much_the_site_changed(site: Path) -> None:
    change(site / "site.yaml", "set: common-practice", "set: published-limits")
    change(site / "site.yaml", "{name: A, ", "{name: A, rules: common-practice, ")
    told = " ".join(run("check", str(site)).out.split())
    assert "Judged by published-limits, edition 2026-12; building A by common-practice alone." in told
    total = len(shipped("published-limits").rules)
    assert f"Changed by the site: 1 of {total} rules tightened, 1 of {total} rules retired." in told
