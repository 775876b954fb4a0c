import json
from math import inf
from typing import Any

from tests.present.judging import ENGLISH, evening, site, taken

from revealbook.measures.reading import Reading
from revealbook.present.export import _numbers, findings
from revealbook.rules.limit import Limit

BREACH = {
    "frame.pieces.bottom.overlap_left_mm": 62,
    "frame.pieces.bottom.overlap_right_mm": 102,
    "concessions[0]": {"rule": "frame-overlap", "accepted_by": "cleo"},
}


def exported(changes: dict[str, Any]) -> dict[str, Any]:
    said: dict[str, Any] = json.loads(json.dumps(findings(site({"A-1": changes}), ENGLISH)))
    return said


def judgement(changes: dict[str, Any], rule: str) -> dict[str, Any]:
    (opening,) = exported(changes)["openings"]
    (found,) = [one for one in opening["judgements"] if one["rule"] == rule]
    assert isinstance(found, dict)
    return found


def test_the_export_names_its_format_site_rule_set_and_outcome() -> None:
    said = exported({})
    assert said["format"] == "revealbook-findings-1"
    assert said["site"] == site({}).site.site.id
    assert said["rule_set"] == {"id": "common-practice", "edition": "2026-12"}
    assert said["outcome"] == "conforms"
    (opening,) = said["openings"]
    assert (opening["mark"], opening["file"]) == ("A-1", "openings/A-1.yaml")
    assert opening["counts"]["conforms"] == len(
        [j for j in opening["judgements"] if j["outcome"] == "conforms"]
    )


def test_a_finding_gives_its_numbers_unrounded_with_line_and_words() -> None:
    found = judgement(BREACH, "frame-overlap")
    first = found["findings"][0]
    assert (found["outcome"], found["grade"], found["conceded_by"]) == (
        "does not conform",
        "critical",
        ["cleo"],
    )
    assert first["subject"] == ["bottom", "left"]
    assert (first["value"], first["limit"], first["margin"]) == (62, {"low": 80}, -18)
    assert first["uncertainty_k2"] == 1
    assert 0 <= first["probability"] < 0.001
    assert first["found"].replace("\u00a0", " ") == "62 mm, U = 1 mm"
    assert first["required"].replace("\u00a0", " ") == "at least 80 mm"
    assert first["line"] > 1


def test_what_is_missing_is_named_by_its_key_and_carries_no_number() -> None:
    (only,) = judgement({"survey.sound": None}, "substrate-sound")["findings"]
    assert (only["outcome"], only["missing"]) == ("not shown", "sound")
    assert not {"value", "margin", "limit"} & set(only)


def test_a_rule_that_is_ruled_out_names_its_condition() -> None:
    found = judgement({"supports.called_for": False}, "support-length")
    assert (found["outcome"], found["findings"]) == ("does not apply", [])
    assert found["ruled_out_by"]


def test_truth_values_and_words_are_exported_as_such() -> None:
    (sound,) = judgement({}, "substrate-sound")["findings"]
    assert (sound["value"], sound["limit"]) == (True, {"equals": True})
    seating = judgement({}, "full-contact")["findings"][0]
    assert (seating["value"], seating["limit"]) == (
        "pressed and shifted",
        {"choices": ["pressed and shifted"]},
    )


def test_an_endless_reading_is_null() -> None:
    finding = taken(inf, Limit(high=700), margin=-inf)
    assert isinstance(finding.reading, Reading)
    assert _numbers(finding.reading, finding) == {"value": None, "limit": {"high": 700}, "margin": None}


def test_only_what_is_not_yet_due_says_so_and_only_an_opening_at_work_names_its_stage() -> None:
    (working,) = exported(evening())["openings"]
    assert working["stage"] == "seals"
    coming = {one["rule"] for one in working["judgements"] if one.get("due", True) is False}
    assert "foam-closed-both-sides" in coming
    assert {one["outcome"] for one in working["judgements"] if "due" in one} == {"not shown"}
    (done,) = exported({"survey.sound": None})["openings"]
    assert "stage" not in done
    assert not any("due" in one for one in done["judgements"])
