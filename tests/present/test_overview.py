"""The site at a glance: matrix of stages, nonconformities by rule and by week."""

from dataclasses import replace
from datetime import datetime
from itertools import pairwise

import pytest
from tests.present.judging import ENGLISH, Changes, evening, opening, site
from tests.rules.changes import common_practice

from revealbook.present import labels
from revealbook.present.overview import Overview, moment_of, overview
from revealbook.rules.finding import Outcome, worst
from revealbook.rules.rule import STAGES

SHORT_OVERLAP: Changes = {
    "frame.pieces.bottom.overlap_left_mm": 62,
    "frame.pieces.bottom.overlap_right_mm": 102,
}
LATE_YEAR: Changes = {
    "frame.pieces.bottom.overlap_left_mm": 62,
    "frame.pieces.bottom.overlap_right_mm": 102,
    "frame.at": "2027-01-01T10:00+01:00",
}
UNDATED: Changes = {
    "frame.pieces.bottom.overlap_left_mm": 62,
    "frame.pieces.bottom.overlap_right_mm": 102,
    "frame.at": None,
}


def of(**by_mark: Changes) -> Overview:
    return overview(site(by_mark), ENGLISH)


def test_every_cell_is_the_worst_outcome_of_a_stage_and_how_many_rules_gave_it() -> None:
    judged = site({"A": SHORT_OVERLAP, "B": {"survey.sound": None}, "C": {}})
    found = overview(judged, ENGLISH)
    assert [mark for mark, _ in found.rows] == ["A", "B", "C"]
    present = [stage for stage in STAGES if any(held.rule.stage == stage for held in judged.rule_set.rules)]
    assert found.stages == tuple(labels.STAGES[stage] for stage in present)
    for one, (_, cells) in zip(judged.openings, found.rows, strict=True):
        for stage, cell in zip(present, cells, strict=True):
            outcomes = [
                judgement.outcome for judgement in one.judgements if judgement.held.rule.stage == stage
            ]
            assert cell.outcome is worst(set(outcomes))
            assert cell.number == outcomes.count(cell.outcome)
            assert cell.word == str(cell.outcome)
    by_stage = dict(zip(present, found.rows[0][1], strict=True))
    assert (by_stage["frame"].outcome, by_stage["frame"].number) == (Outcome.DOES_NOT_CONFORM, 1)
    assert dict(zip(present, found.rows[1][1], strict=True))["survey"].outcome is Outcome.NOT_SHOWN


def test_a_stage_without_rules_has_no_column() -> None:
    judged = site({"A": {}})
    kept = tuple(held for held in judged.rule_set.rules if held.rule.stage in {"frame", "seals"})
    found = overview(replace(judged, rule_set=replace(judged.rule_set, rules=kept)), ENGLISH)
    assert found.stages == ("Mounting frame", "Seals")
    assert len(found.rows[0][1]) == 2


def test_the_most_frequent_nonconformity_comes_first() -> None:
    early_trim: Changes = {"seals.events[2].at": "2026-11-20T12:00+01:00"}
    found = of(A=SHORT_OVERLAP, B=early_trim, C=early_trim, D={**early_trim, "survey.sound": False})
    numbers = [share.number for share in found.by_rule]
    assert numbers == sorted(numbers, reverse=True)
    first = found.by_rule[0]
    assert (first.name, first.number, first.share) == ("foam-set-before-trim", 3, 1)
    shares = {share.name: share for share in found.by_rule}
    assert shares["frame-overlap"].share == pytest.approx(1 / 3)
    requirement = {held.id: held.rule.requirement for held in common_practice().rules}
    assert all(share.said == requirement[share.name] for share in found.by_rule)


def test_weeks_are_those_of_iso_8601_in_their_order() -> None:
    """1 January 2027 is a Friday and lies in week 53 of 2026 (ISO 8601, from memory)."""
    found = of(A=LATE_YEAR, B=SHORT_OVERLAP, C=SHORT_OVERLAP, D=UNDATED)
    assert [(share.name, share.number, share.share) for share in found.by_week] == [
        ("2026, week 47", 2, 1), ("2026, week 53", 1, 0.5), ("undated", 1, 0.5),
    ]  # fmt: skip
    assert sum(share.number for share in found.by_week) == sum(share.number for share in found.by_rule)


def test_a_site_that_conforms_and_one_without_openings_have_no_bars() -> None:
    assert (of(A={}).by_rule, of(A={}).by_week) == ((), ())
    assert of().rows == ()


def test_a_nonconformity_is_dated_by_the_nearest_moment_above_it() -> None:
    judged = opening(LATE_YEAR)

    def moment(*path: str | int) -> str:
        found = moment_of(judged, path)
        assert found is not None
        return found.isoformat(timespec="minutes")

    assert moment("frame", "pieces", "bottom", "overlap_left_mm") == "2027-01-01T10:00+01:00"
    assert moment("frame", "bonding", 0, "surface_c") == "2026-11-19T09:20+01:00"
    assert moment("seals", "events", 1, "surface_c") == "2026-11-20T11:00+01:00"
    assert moment("plinth", "length_mm") == "2026-11-20T07:50+01:00"
    assert moment("tests", "air_leakage", "readings") == "2026-11-21T10:00+01:00"
    assert moment_of(judged, ("opening", "width_mm")) is None
    assert moment_of(judged, ()) is None


def test_dates_come_from_the_records_whatever_the_order_of_openings() -> None:
    found = of(A=UNDATED, B=LATE_YEAR, C=SHORT_OVERLAP)
    assert [share.name for share in found.by_week][-1] == "undated"
    assert all(one.name < other.name for one, other in pairwise(found.by_week))
    assert datetime.fromisoformat("2027-01-01").isocalendar()[:2] == (2026, 53)


def test_a_stage_that_is_not_closed_says_that_it_is_not_yet_due() -> None:
    found = overview(site({"A": evening()}), ENGLISH)
    words = dict(zip(found.stages, (cell.word for cell in found.rows[0][1]), strict=True))
    assert (words["Seals"], words["Window"]) == ("not yet due", "conforms")
