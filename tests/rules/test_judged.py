from tests.present.judging import evening, opening, site

from revealbook.rules.finding import Outcome

BREACH = {"frame.pieces.bottom.overlap_left_mm": 62, "frame.pieces.bottom.overlap_right_mm": 102}
OPEN = {"survey.sound": None}


def test_an_opening_bears_the_mark_of_its_record_and_the_worst_outcome_of_its_rules() -> None:
    judged = opening({**BREACH, **OPEN}, mark="B-2")
    assert judged.mark == "B-2"
    assert judged.outcome is Outcome.DOES_NOT_CONFORM
    assert opening(OPEN).outcome is Outcome.NOT_SHOWN
    assert opening().outcome is Outcome.CONFORMS


def test_every_rule_is_counted_once() -> None:
    judged = opening({**BREACH, **OPEN})
    assert judged.counts[Outcome.DOES_NOT_CONFORM] == 1
    assert judged.counts[Outcome.NOT_SHOWN] == 1
    assert judged.counts.total() == len(judged.judgements)


def test_judgements_of_one_outcome_keep_the_order_of_the_rules() -> None:
    judged = opening({**BREACH, "survey.sound": False, "seals.events[1].without_voids": False})
    assert [one.rule_id for one in judged.with_outcome(Outcome.DOES_NOT_CONFORM)] == [
        "substrate-sound", "frame-overlap", "foam-without-voids",
    ]  # fmt: skip


def test_a_site_takes_the_worst_outcome_of_its_openings() -> None:
    assert site({"A": {}, "B": OPEN}).outcome is Outcome.NOT_SHOWN
    assert site({"A": BREACH, "B": OPEN}).outcome is Outcome.DOES_NOT_CONFORM
    assert site({"A": {}}).outcome is Outcome.CONFORMS


def test_a_site_without_openings_has_shown_nothing() -> None:
    assert site({}).outcome is Outcome.NOT_SHOWN


def test_between_foam_and_outer_tape_nothing_is_wrong_or_missed() -> None:
    judged = opening(evening())
    assert judged.outcome is Outcome.NOT_SHOWN
    assert judged.in_progress
    assert judged.missed == ()
    assert judged.stage == "seals"
    coming = {one.rule_id for one in judged.not_yet_due}
    assert {"foam-closed-both-sides", "trim-before-second-tape", "covered-after-waits"} <= coming
    assert {one.held.rule.stage for one in judged.not_yet_due} == {"seals", "materials", "acceptance"}


def test_once_it_is_covered_an_open_side_of_the_foam_is_a_critical_nonconformity() -> None:
    judged = opening({**evening(), "covering": {"at": "2026-11-23T08:10+01:00"}})
    assert "foam-closed-both-sides" in {one.rule_id for one in judged.with_outcome(Outcome.DOES_NOT_CONFORM)}
    assert judged.not_yet_due == ()
    assert judged.stage is None


def test_what_an_earlier_stage_lacks_is_missed_while_the_work_goes_on() -> None:
    judged = opening({**evening(), **OPEN})
    assert [one.rule_id for one in judged.missed] == ["substrate-sound"]
    assert not judged.in_progress
    assert judged.due_counts[Outcome.NOT_SHOWN] == 1


def test_what_is_certainly_wrong_already_does_not_wait_for_its_stage() -> None:
    judged = opening({**evening(), "seals.events[1].without_voids": False})
    assert [one.rule_id for one in judged.with_outcome(Outcome.DOES_NOT_CONFORM)] == ["foam-without-voids"]
