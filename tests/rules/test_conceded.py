from typing import Any

from tests.present.judging import opening
from tests.rules.sets import in_force, stated

from revealbook.rules.conceded import unknown_concessions
from revealbook.rules.rule_set import RuleSet
from revealbook.source.problem import Problem

RETIRED = {"id": "frame-overlap", "retire": True, "basis": {"kind": "common practice"}, "reason": "no frame"}


def unknown(*concessions: dict[str, Any], rules: RuleSet | None = None) -> list[Problem]:
    record = opening({"concessions": list(concessions)}).record
    return list(unknown_concessions(record, rules or in_force(stated())))


def test_a_concession_of_a_rule_in_force_is_known() -> None:
    assert unknown({"rule": "frame-overlap"}) == []
    assert unknown() == []


def test_a_concession_of_a_retired_rule_is_known() -> None:
    rules = in_force(stated(), overlays=({"change": [RETIRED]},))
    assert unknown({"rule": "frame-overlap"}, rules=rules) == []


def test_a_concession_of_no_rule_is_a_problem_at_its_line_with_the_nearest_name() -> None:
    first, second = unknown({"rule": "frame-overlap"}, {"rule": "frame-overlpa"}, {"rule": "magic"})
    assert (first.code, first.facts["name"], first.facts["nearest"]) == (
        "unknown_name", "frame-overlpa", "frame-overlap",
    )  # fmt: skip
    assert second.facts["nearest"] is None
    assert first.place.file == "openings/W-1.01.yaml"
    assert 0 < first.place.line < second.place.line
