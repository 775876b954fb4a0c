from itertools import combinations

from tests.rules.sets import rule

from revealbook.measures.reading import Detail, Missing, Reading
from revealbook.rules.finding import WORST_FIRST, Finding, Judgement, Outcome, worst
from revealbook.rules.rule_set import RuleInForce


def test_of_several_outcomes_the_worst_is_told() -> None:
    for worse, better in combinations(WORST_FIRST, 2):
        assert worst({better, worse}) == worse
    assert set(WORST_FIRST) == set(Outcome)


def test_what_is_not_shown_is_never_hidden_behind_what_conforms() -> None:
    assert worst({Outcome.CONFORMS, Outcome.UNDECIDED, Outcome.NOT_SHOWN}) == Outcome.NOT_SHOWN


def test_without_any_outcome_a_rule_does_not_apply() -> None:
    assert worst(set()) == Outcome.DOES_NOT_APPLY


def test_an_outcome_is_written_in_the_words_of_the_report() -> None:
    assert [str(outcome) for outcome in WORST_FIRST] == [
        "does not conform",
        "not shown",
        "undecided",
        "conforms",
        "does not apply",
    ]


def test_a_finding_gives_what_its_reading_was_computed_from() -> None:
    detail = Detail("air_c", 8.5, "degC")
    read = Finding(Outcome.CONFORMS, ("foam",), Reading(("foam",), 3.5, ("seals",), None, (detail,)))
    missing = Finding(Outcome.NOT_SHOWN, ("foam",), Missing(("foam",), "air_c", ("seals",), (detail,)))
    assert read.details == missing.details == (detail,)


def test_a_judgement_names_its_rule() -> None:
    assert Judgement(RuleInForce(rule()), Outcome.CONFORMS).rule_id == "frame-overlap"
