from typing import Any

import pytest
from tests.rules import changes
from tests.rules.sets import rule

from revealbook.measures.reading import Missing, Reading
from revealbook.measures.reading import Outcome as Taken
from revealbook.rules.finding import Judgement, Outcome
from revealbook.rules.judge import judge
from revealbook.rules.rule_set import RuleInForce, RuleSet

Taking = tuple[Taken, ...]
LEFT, RIGHT, WHOLE = ("left",), ("right",), ()
BY_WIDTH = {
    "at_most_by": "nominal_width",
    "steps": [{"up_to": 1000, "limit": 10}, {"up_to": 3000, "limit": 12}],
}


def reading(value: Any, subject: tuple[str, ...] = WHOLE, uncertainty: float | None = None) -> Reading:
    return Reading(subject, value, ("frame",), uncertainty)


def judged(readings: dict[str, Taking], **changes: Any) -> Judgement:
    rules = RuleSet("trial", "1", "trial", (RuleInForce(rule(**changes)),))
    (found,) = judge(rules, readings)
    return found


def test_every_reading_gives_a_finding_and_the_worst_is_the_rules_outcome() -> None:
    found = judged({"frame_overlap": (reading(85, LEFT), reading(79, RIGHT))})
    assert [(finding.subject, finding.outcome, finding.margin) for finding in found.findings] == [
        (LEFT, Outcome.CONFORMS, 5),
        (RIGHT, Outcome.DOES_NOT_CONFORM, -1),
    ]
    assert found.outcome == Outcome.DOES_NOT_CONFORM


def test_a_reading_that_is_missing_is_not_shown_even_beside_others_that_conform() -> None:
    found = judged({"frame_overlap": (reading(85, LEFT), Missing(RIGHT, "overlap_right_mm", ("frame",)))})
    assert found.outcome == Outcome.NOT_SHOWN
    assert found.findings[1].margin is None


def test_where_there_is_nothing_to_read_the_rule_does_not_apply() -> None:
    found = judged({"frame_overlap": ()})
    assert (found.outcome, found.findings, found.ruled_out_by) == (Outcome.DOES_NOT_APPLY, (), None)


def test_a_stated_uncertainty_near_the_limit_leaves_the_outcome_undecided() -> None:
    found = judged({"frame_overlap": (reading(80.5, uncertainty=1.0),)})
    assert found.outcome == Outcome.UNDECIDED
    assert found.findings[0].probability == pytest.approx(0.841345, abs=1e-6)


@pytest.mark.parametrize(
    ("value", "asked", "outcome"),
    [
        (True, True, Outcome.CONFORMS),
        (False, True, Outcome.DOES_NOT_CONFORM),
        (False, False, Outcome.CONFORMS),
        (True, False, Outcome.DOES_NOT_CONFORM),
    ],
)
def test_yes_and_no_are_held_against_what_is_asked(value: bool, asked: bool, outcome: Outcome) -> None:
    found = judged({"joint_bonded": (reading(value),)}, measure="joint_bonded", unit="yes/no", equal_to=asked)
    assert found.outcome == outcome
    assert found.findings[0].margin is None


@pytest.mark.parametrize(
    ("word", "outcome"), [("pressed", Outcome.CONFORMS), ("glued", Outcome.DOES_NOT_CONFORM)]
)
def test_a_word_is_one_of_those_allowed(word: str, outcome: Outcome) -> None:
    found = judged(
        {"seating": (reading(word),)}, measure="seating", unit="choice", one_of=["pressed", "other"]
    )
    assert found.outcome == outcome


@pytest.mark.parametrize(
    ("changes", "answer", "outcome"),
    [
        ({"applies_when": ["plinth_used"]}, True, Outcome.CONFORMS),
        ({"applies_when": ["plinth_used"]}, False, Outcome.DOES_NOT_APPLY),
        ({"applies_unless": ["plinth_used"]}, True, Outcome.DOES_NOT_APPLY),
        ({"applies_unless": ["plinth_used"]}, False, Outcome.CONFORMS),
    ],
)
def test_a_condition_decides_whether_a_rule_applies(
    changes: dict[str, Any], answer: bool, outcome: Outcome
) -> None:
    found = judged({"frame_overlap": (reading(85),), "plinth_used": (reading(answer),)}, **changes)
    assert found.outcome == outcome
    assert found.ruled_out_by == ("plinth_used" if outcome == Outcome.DOES_NOT_APPLY else None)


def test_an_unknown_condition_is_not_shown_and_leaves_the_reading_unjudged() -> None:
    unknown = Missing(WHOLE, "used", ("plinth", "used"))
    found = judged({"frame_overlap": (reading(10),), "plinth_used": (unknown,)}, applies_when=["plinth_used"])
    assert found.outcome == Outcome.NOT_SHOWN
    assert [finding.reading for finding in found.findings] == [unknown]


def test_one_condition_that_rules_out_is_enough_though_another_is_unknown() -> None:
    readings: dict[str, Taking] = {
        "frame_overlap": (reading(85),),
        "height_made_up": (Missing(WHOLE, "height_needed_mm", ("plinth",)),),
        "plinth_used": (reading(False),),
    }
    found = judged(readings, applies_when=["height_made_up", "plinth_used"])
    assert (found.outcome, found.ruled_out_by) == (Outcome.DOES_NOT_APPLY, "plinth_used")


@pytest.mark.parametrize(("width", "outcome"), [(1000, Outcome.DOES_NOT_CONFORM), (1001, Outcome.CONFORMS)])
def test_the_limit_goes_by_the_openings_size(width: float, outcome: Outcome) -> None:
    found = judged({"frame_overlap": (reading(11),), "nominal_width": (reading(width),)}, **BY_WIDTH)
    assert found.outcome == outcome


def test_a_reading_goes_by_the_size_of_its_own_part() -> None:
    sizes = (reading(900, LEFT), reading(2000, RIGHT))
    found = judged(
        {"frame_overlap": (reading(11, LEFT), reading(11, RIGHT)), "nominal_width": sizes}, **BY_WIDTH
    )
    assert [finding.outcome for finding in found.findings] == [Outcome.DOES_NOT_CONFORM, Outcome.CONFORMS]


def test_among_several_sizes_of_other_parts_none_is_taken() -> None:
    sizes = (reading(900, LEFT), reading(2000, RIGHT))
    found = judged({"frame_overlap": (reading(1, ("top",)),), "nominal_width": sizes}, **BY_WIDTH)
    assert found.outcome == Outcome.NOT_SHOWN


def test_a_missing_size_is_not_shown_with_its_own_place() -> None:
    missing = Missing(WHOLE, "width_mm", ("opening", "width_mm"))
    found = judged({"frame_overlap": (reading(1),), "nominal_width": (missing,)}, **BY_WIDTH)
    assert found.outcome == Outcome.NOT_SHOWN
    assert found.findings[0].reading == missing


def test_beyond_the_last_step_it_is_not_shown_and_says_so() -> None:
    found = judged({"frame_overlap": (reading(1),), "nominal_width": (reading(3001),)}, **BY_WIDTH)
    assert found.outcome == Outcome.NOT_SHOWN
    assert isinstance(found.findings[0].reading, Missing)
    assert found.findings[0].reading.what == "beyond_last_step"


def test_a_reading_that_is_missing_is_told_before_its_size_is_asked_for() -> None:
    missing = Missing(WHOLE, "overlap_left_mm", ("frame",))
    found = judged({"frame_overlap": (missing,), "nominal_width": ()}, **BY_WIDTH)
    assert found.findings[0].reading == missing


OPEN_STAGE = (reading(value=False, subject=("frame",)), reading(value=True, subject=("survey",)))


def test_what_lacks_evidence_in_an_open_stage_is_not_yet_due() -> None:
    lacking: dict[str, Taking] = {"frame_overlap": (Missing(LEFT, "overlap_left_mm", ("frame",)),)}
    found = judged({**lacking, "stage_closed": OPEN_STAGE})
    assert (found.outcome, found.due, found.not_yet_due) == (Outcome.NOT_SHOWN, False, True)
    shut = judged({**lacking, "stage_closed": OPEN_STAGE}, stage="survey")
    assert (shut.outcome, shut.not_yet_due) == (Outcome.NOT_SHOWN, False)
    assert not judged(lacking).not_yet_due


def test_what_is_wrong_in_an_open_stage_is_wrong_already() -> None:
    found = judged({"frame_overlap": (reading(62),), "stage_closed": OPEN_STAGE}, may_still_come=False)
    assert (found.outcome, found.not_yet_due) == (Outcome.DOES_NOT_CONFORM, False)


def test_what_can_still_come_is_open_until_its_stage_is_closed() -> None:
    short: dict[str, Taking] = {"frame_overlap": (reading(62),)}
    found = judged({**short, "stage_closed": OPEN_STAGE}, may_still_come=True)
    assert (found.outcome, found.not_yet_due) == (Outcome.NOT_SHOWN, True)
    assert (found.findings[0].margin, found.findings[0].outcome) == (-18, Outcome.NOT_SHOWN)
    assert judged(short, may_still_come=True).outcome is Outcome.DOES_NOT_CONFORM
    enough = judged({"frame_overlap": (reading(82),), "stage_closed": OPEN_STAGE}, may_still_come=True)
    assert enough.outcome is Outcome.CONFORMS


def test_a_deviation_read_without_its_sign_may_lie_on_either_side() -> None:
    """0 mm of at most 1 mm, U = 1 mm (k = 2): the normal distribution within two of its u, not below two."""
    (found,) = changes.judged({})["plinth-height"].findings
    assert (found.reading.value, found.reading.uncertainty) == (0, 1)  # type: ignore[union-attr]
    assert found.probability == pytest.approx(0.9545, abs=5e-5)
