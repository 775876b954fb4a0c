"""The verdict in one sentence, for none, one and many."""

from dataclasses import replace

import pytest
from tests.present.judging import ENGLISH, Changes, evening, opening, site
from tests.rules.changes import common_practice

from revealbook.present import verdict
from revealbook.rules.finding import Outcome
from revealbook.rules.judged import JudgedOpening

BREACH = {"frame.pieces.bottom.overlap_left_mm": 62, "frame.pieces.bottom.overlap_right_mm": 102}
TWO = {**BREACH, "survey.sound": False}
OPEN = {"survey.sound": None}
UNDECIDED = {"frame.pieces.bottom.overlap_left_mm": 80.5}
CONCEDED = {**BREACH, "concessions[0]": {"rule": "frame-overlap", "accepted_by": "cleo"}}
CONCEDED_TWICE = {**CONCEDED, "survey.sound": False, "concessions[1]": {"rule": "substrate-sound"}}


def test_openings_to_which_no_rule_applies_were_not_judged() -> None:
    none = replace(common_practice(), rules=())
    told = verdict.of_site(site({"A-1": {}, "A-2": {}}, rules=none), ENGLISH)
    assert told.sentence == "Nothing was judged: no rule in force applies to any opening."


def said(*openings: Changes) -> tuple[str, str]:
    told = verdict.of_site(site({f"A-{number}": one for number, one in enumerate(openings)}), ENGLISH)
    return told.sentence, told.detail


@pytest.mark.parametrize(
    ("openings", "sentence", "detail"),
    [
        ((), "No opening was recorded.", ""),
        (({},), "The only opening conforms.", ""),
        (({}, {}), "All 2 openings conform.", ""),
        ((BREACH,), "The only opening does not conform, in one point.", ""),
        ((TWO,), "The only opening does not conform, in 2 points.", ""),
        (
            (BREACH, {}),
            "1 of 2 openings does not conform, in one point.",
            "1 opening conforms in full; 0 more lack evidence or are undecided.",
        ),
        (
            (BREACH, OPEN, UNDECIDED),
            "1 of 3 openings does not conform, in one point.",
            "0 openings conform in full; 2 more lack evidence or are undecided.",
        ),
        (
            (BREACH, TWO, {}, OPEN),
            "2 of 4 openings do not conform, in 3 points.",
            "1 opening conforms in full; 1 more lacks evidence or is undecided.",
        ),
        ((BREACH, TWO), "2 of 2 openings do not conform, in 3 points.", ""),
        (
            (CONCEDED,),
            "The only opening does not conform, in one point.",
            "1 of these points stands accepted by concession.",
        ),
        (
            (CONCEDED_TWICE, {}, {}),
            "1 of 3 openings does not conform, in 2 points.",
            (
                "2 of these points stand accepted by concession. "
                "2 openings conform in full; 0 more lack evidence or are undecided."
            ),
        ),
        ((OPEN,), "No nonconformity was found, but the only opening is not fully shown or decided.", ""),
        ((OPEN, {}), "No nonconformity was found, but 1 of 2 openings is not fully shown or decided.", ""),
        (
            (OPEN, UNDECIDED, {}),
            "No nonconformity was found, but 2 of 3 openings are not fully shown or decided.",
            "",
        ),
    ],
)
def test_a_site_is_summed_up_in_one_sentence(
    openings: tuple[Changes, ...], sentence: str, detail: str
) -> None:
    assert said(*openings) == (sentence, detail)


def test_the_site_takes_the_worst_outcome_and_without_openings_shows_nothing() -> None:
    assert verdict.of_site(site({"A": {}, "B": BREACH}), ENGLISH).outcome is Outcome.DOES_NOT_CONFORM
    assert verdict.of_site(site({"A": {}, "B": OPEN}), ENGLISH).outcome is Outcome.NOT_SHOWN
    assert verdict.of_site(site({}), ENGLISH).outcome is Outcome.NOT_SHOWN


@pytest.mark.parametrize(
    ("changes", "sentence"),
    [
        ({}, "Conforms: all {number} rules that apply are met."),
        (BREACH, "Does not conform in one point."),
        (TWO, "Does not conform in 2 points."),
        (OPEN, "Not fully shown: one rule lacks evidence."),
        ({**OPEN, "survey.clean": None}, "Not fully shown: 2 rules lack evidence."),
        (UNDECIDED, "Undecided in one point: the limit lies inside the measurement uncertainty."),
    ],
)
def test_an_opening_is_summed_up_in_one_sentence(changes: Changes, sentence: str) -> None:
    judged = opening(changes)
    told = verdict.of_opening(judged, ENGLISH)
    assert told.outcome is judged.outcome
    assert told.sentence == sentence.format(number=judged.counts[Outcome.CONFORMS])


def test_the_other_outcomes_of_an_opening_follow_worst_first() -> None:
    judged = opening({**TWO, "survey.clean": None})
    conforming = judged.counts[Outcome.CONFORMS]
    away = judged.counts[Outcome.DOES_NOT_APPLY]
    detail = f"1 not shown, {conforming} conforms" + (f", {away} does not apply" if away else "")
    assert verdict.of_opening(judged, ENGLISH).detail == detail


def test_an_opening_to_which_one_rule_or_none_applies() -> None:
    judged = opening()
    met = next(one for one in judged.judgements if one.outcome is Outcome.CONFORMS)
    assert verdict.of_opening(JudgedOpening(judged.record, (met,)), ENGLISH).sentence == (
        "Conforms: the one rule that applies is met."
    )
    assert verdict.of_opening(JudgedOpening(judged.record, ()), ENGLISH).sentence == "No rule applies."


def test_the_five_outcomes_are_always_counted_in_the_same_order() -> None:
    told = verdict.counts(opening(TWO).counts, ENGLISH)
    assert [count.word for count in told] == [
        "conforms", "does not conform", "undecided", "not shown", "does not apply",
    ]  # fmt: skip
    assert [count.number for count in told][1:4] == [2, 0, 0]


def test_work_in_progress_is_told_apart_from_what_lacks_evidence() -> None:
    working = opening(evening())
    coming = len(working.not_yet_due)
    assert verdict.of_opening(working, ENGLISH).sentence == f"In progress: {coming} rules are not yet due."
    missing = verdict.of_opening(opening({**evening(), "survey.sound": None}), ENGLISH)
    assert missing.sentence == "Not fully shown: one rule lacks evidence."
    assert missing.detail.endswith(f"{coming} not yet due")
    wrong = verdict.of_opening(opening({**evening(), "survey.sound": False}), ENGLISH)
    assert wrong.detail.endswith(f"{coming} not yet due")
    assert "not shown" not in wrong.detail


def test_a_site_at_work_says_how_many_openings_are_in_progress() -> None:
    assert verdict.of_site(site({"A": {}, "B": evening()}), ENGLISH).sentence == (
        "No nonconformity was found; 1 of 2 openings is in progress."
    )
    lacking = verdict.of_site(site({"A": {"survey.sound": None}, "B": evening()}), ENGLISH)
    assert (
        lacking.sentence == "No nonconformity was found, but 1 of 2 openings is not fully shown or decided."
    )
    wrong = verdict.of_site(site({"A": {"survey.sound": False}, "B": evening(), "C": {}}), ENGLISH)
    assert (
        wrong.detail == "1 opening conforms in full; 0 more lack evidence or are undecided; 1 is in progress."
    )
