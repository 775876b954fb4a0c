from tests.present.judging import opening, site

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
