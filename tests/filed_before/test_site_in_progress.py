"""A site begun with an earlier version goes on by the edition of the rules that it names."""

import json
from pathlib import Path

import pytest
from tests.cli.terminal import run
from tests.filed_before.kept import KEPT, copied
from tests.made import judged
from tests.site_folders import own_templates

from revealbook.archive.again import Again, judge_again
from revealbook.present.agreement import compare_findings
from revealbook.present.evidence import findings_json

FINDINGS = KEPT / "archive/store/larch-court/v1/content/findings/larch-court.json"


@pytest.fixture
def site(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path / "cache"))
    return copied("larch-court", tmp_path)


def test_check_finds_what_it_found_then() -> None:
    assert compare_findings(FINDINGS.read_bytes(), findings_json(judged(KEPT / "larch-court"))) == ()
    told = run("check", KEPT / "larch-court")
    assert (told.status, told.err) == (1, "")


def test_it_is_set_out_by_its_own_edition(site: Path) -> None:
    told = run("set-out", site, "--format", "json")
    assert (told.status, told.err) == (0, "")
    plan = json.loads(told.out)
    assert plan["rule_set"]["edition"] == "2026-11"
    assert [one["mark"] for one in plan["openings"]] == ["A-0.02", "B-0.03", "B-1.02"]


def test_its_pack_is_made_and_agrees_with_itself(site: Path, tmp_path: Path) -> None:
    own_templates(site)
    told = run("pack", site, "--to", tmp_path / "pack.pdf")
    assert told.status == 0, told.err
    found = judge_again(tmp_path / "pack.pdf")
    assert isinstance(found, Again), found
    assert (found.findings, found.uncalled, found.other_version) == ((), (), None)
    assert found.judged.rule_set.edition == "2026-11"


def test_a_sample_is_drawn_from_it(site: Path) -> None:
    told = run("sample", site, "--seed", "7", "--format", "json")
    assert told.status == 0
    assert json.loads(told.out)["plan"]["lot_size"] == 3


def test_a_remeasurement_of_then_is_compared(site: Path) -> None:
    """It reads the bonding as one mapping, as records had it then."""
    told = run("compare", site, KEPT / "remeasured/B-1.02.yaml", "--format", "json")
    assert (told.status, told.err) == (1, "")
    (opening,) = json.loads(told.out)["openings"]
    read = {(one["path"][-1], one["recorded"], one["again"], one["agreement"]) for one in opening["readings"]}
    assert ("overlap_right_mm", 82.0, 76.0, "differs") in read
    assert ("out_of_plumb_mm", 1.0, 3.0, "differs") in read
    assert {(key, again) for key, _, again, _ in read} >= {("used_ml", 590.0), ("air_c", 8.4)}


def test_its_rules_and_questions_are_answered(site: Path) -> None:
    told = run("rules", "--site", site)
    assert (told.status, told.err) == (0, "")
    assert "2026-11" in told.out
    assert run("question", site).status == 0
