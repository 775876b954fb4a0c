"""Every edition ever shipped stays as it was, and can be asked for by name and edition."""

import shutil
from pathlib import Path

import pytest
from tests.rules.pin_editions import digest, pinned, shipped
from tests.site_folders import change, conforming

from revealbook import api
from revealbook.rules.read import read_rules, shipped_sets
from revealbook.rules.rule_set import RuleSet


@pytest.mark.parametrize("name", sorted(pinned()))
def test_an_edition_that_was_shipped_is_still_there_unchanged(name: str) -> None:
    assert digest(shipped()[name]) == pinned()[name], "a new limit needs a new edition"


def test_only_the_newest_edition_may_still_be_in_the_making() -> None:
    newest = {f"{name}/{max(editions)}" for name, editions in shipped_sets().items()}
    assert set(shipped()) - set(pinned()) <= newest


def test_a_limit_changed_in_silence_is_noticed(tmp_path: Path) -> None:
    folder = Path(
        shutil.copytree(shipped()["common-practice/2026-11"], tmp_path / "common-practice" / "2026-11")
    )
    assert digest(folder) == pinned()["common-practice/2026-11"]
    text = (folder / "frame.yaml").read_text(encoding="utf-8")
    (folder / "frame.yaml").write_text(text.replace("at_least: 80\n", "at_least: 79\n"), encoding="utf-8")
    assert digest(folder) != pinned()["common-practice/2026-11"]


@pytest.mark.parametrize("name", sorted(shipped()))
def test_every_edition_reads_with_the_sets_that_it_extends(name: str) -> None:
    set_name, edition = name.split("/")
    rules = read_rules(set_name, edition)
    assert isinstance(rules, RuleSet), rules
    assert (rules.id, rules.edition) == (set_name, edition)
    assert rules.format == (1 if edition == "2026-11" else 2)


def test_an_unknown_edition_lists_those_that_are_known() -> None:
    found = read_rules("published-limits", "2026-10")
    assert not isinstance(found, RuleSet)
    (problem,) = found
    assert (problem.code, problem.facts["asked"]) == ("unknown_edition", "2026-10")
    assert problem.facts["known"] == tuple(shipped_sets()["published-limits"])


def test_a_site_in_progress_is_judged_by_the_edition_it_names(tmp_path: Path) -> None:
    site = conforming(tmp_path / "s")
    change(site / "site.yaml", "edition: 2026-12", "edition: 2026-11")
    judged = api.check(site).judged
    assert judged is not None
    assert judged.rule_set.edition == "2026-11"
    assert judged.rule_set.method.computations == 1
