"""What an opening leaves out decides which rules apply, and only if somebody entitled states it."""

from typing import Any

import pytest
from tests.rules.changes import RECORD, common_practice, judged, plain

from revealbook.measures.left_out import CONDITIONS
from revealbook.rules.finding import Judgement, Outcome
from revealbook.rules.read import read_rules
from revealbook.rules.rule_set import RuleSet

BAD = {Outcome.DOES_NOT_CONFORM, Outcome.NOT_SHOWN}
STATED: dict[str, Any] = {
    "reason": "the shutter box stands there",
    "basis": "drawing",
    "document": "A-301 rev B",
    "by": "cleo",
    "at": "2026-11-18T10:00+01:00",
}
GONE: dict[str, dict[str, Any]] = {
    "bottom piece": {"frame.pieces.bottom": None},
    "left piece": {"frame.pieces.left": None},
    "right piece": {"frame.pieces.right": None},
    "top piece": {"frame.pieces.top": None},
    "mounting frame": {"frame": {}},
    "bonding": {"frame.bonding": None},
    "opening function": {"window.opening_function_tried": None},
}
"""Each word with the record as it stands where the thing is not there."""
OF_ALL_PIECES = {
    "ends-cut-square", "hole-diameter", "first-hole", "fixing-centres", "joint-fixings", "joint-bonded",
    "joint-screwed", "joint-sealed", "corner-gap", "corners-sealed", "ends-sealed", "one-end-first",
    "checked-before-fixing", "frame-level", "frame-line", "holes-filled", "frame-protected",
    "pieces-in-order",
    "end-held", "holes-in-piece",
}  # fmt: skip
OF_BONDING = {
    "survey-before-frame", "two-beads", "beads-continuous", "corner-beads", "full-contact", "open-time",
    "bond-set-before-load", "adhesive-enough", "substrate-moisture", "substrate-primed", "support-beads",
    "support-beads-continuous",
    "adhesive-from-cartridges", "opened-in-time", "substrate-brushed-as-asked",
}  # fmt: skip
OF_BOTTOM = {"frame-overlap", "bottom-length", "overlaps-add-up"}
OF_TOP = {"top-reach", "top-edge-sealed"}
OF_SIDES = {"side-length", "frame-plumb"}
RULED_OUT = {
    "bottom piece": OF_BOTTOM,
    "left piece": set(),
    "right piece": set(),
    "top piece": OF_TOP,
    "mounting frame": OF_BOTTOM | OF_TOP | OF_SIDES | OF_BONDING | OF_ALL_PIECES,
    "bonding": OF_BONDING,
    "opening function": {"window-tried"},
}


def stated(*whats: str, **changes: Any) -> dict[str, Any]:
    return {"left_out": [{"what": what} | STATED | changes for what in whats]}


def outcomes(changes: dict[str, Any]) -> dict[str, Outcome]:
    return {rule: found.outcome for rule, found in judged(changes).items()}


def ruled_out(found: dict[str, Judgement]) -> set[str]:
    return {rule for rule, one in found.items() if one.ruled_out_by in CONDITIONS}


@pytest.mark.parametrize("what", GONE)
def test_exactly_the_rules_about_what_is_left_out_do_not_apply(what: str) -> None:
    found = judged(GONE[what] | stated(what))
    here = {held.id for held in common_practice().rules}
    assert ruled_out(found) == RULED_OUT[what] & here
    assert {one.outcome for rule, one in found.items() if rule in RULED_OUT[what]} <= {Outcome.DOES_NOT_APPLY}
    assert found["left-out-entitled"].outcome is Outcome.CONFORMS


@pytest.mark.parametrize("what", ["top piece", "bonding", "opening function"])
def test_an_opening_without_it_can_conform(what: str) -> None:
    changed = outcomes(GONE[what] | stated(what))
    assert {rule for rule, outcome in changed.items() if outcome in BAD} == set()


def test_brackets_only_leaves_nothing_of_the_frame_to_show() -> None:
    kept = {"photos": plain(RECORD)["frame"]["photos"]}
    changed = outcomes({"frame": kept} | stated("mounting frame"))
    assert {rule for rule, outcome in changed.items() if outcome in BAD} == {"support-within-piece"}
    with_none = outcomes({"frame": kept, "supports.called_for": False} | stated("mounting frame"))
    assert {rule for rule, outcome in with_none.items() if outcome in BAD} == set()


@pytest.mark.parametrize("what", GONE)
@pytest.mark.parametrize(
    "change",
    [{"by": "ada"}, {"by": None}, {"reason": None}, {"document": None}, {"at": None}, {"basis": None}],
)
def test_a_statement_that_is_not_complete_or_not_entitled_changes_no_other_rule(
    what: str, change: dict[str, Any]
) -> None:
    without, beside = outcomes(GONE[what]), outcomes(GONE[what] | stated(what, **change))
    assert {rule for rule in without if without[rule] != beside[rule]} == {"left-out-entitled"}
    assert beside["left-out-entitled"] in BAD


@pytest.mark.parametrize("what", GONE)
def test_what_is_recorded_is_judged_whatever_is_stated(what: str) -> None:
    without, beside = outcomes({}), outcomes(stated(what))
    assert beside.pop("left-out-entitled") is Outcome.DOES_NOT_CONFORM
    assert {rule for rule in beside if beside[rule] != without[rule]} == set()


@pytest.mark.parametrize("what", GONE)
def test_taking_the_statement_away_never_helps(what: str) -> None:
    without, beside = outcomes(GONE[what]), outcomes(GONE[what] | stated(what))
    better = {rule for rule in beside if beside[rule] in BAD and without[rule] not in BAD}
    assert better == set()


def test_four_pieces_left_out_one_by_one_are_no_frame_either() -> None:
    every = ("bottom piece", "left piece", "right piece", "top piece")
    changes = {key: value for what in every for key, value in GONE[what].items()}
    found = ruled_out(judged(changes | stated(*every)))
    assert found == (OF_BOTTOM | OF_TOP | OF_SIDES | OF_ALL_PIECES) & {
        held.id for held in common_practice().rules
    }


def test_the_first_edition_knows_no_such_statement() -> None:
    first = read_rules("common-practice", "2026-11")
    assert isinstance(first, RuleSet)
    assert not {name for held in first.rules for name, _ in held.rule.conditions} & set(CONDITIONS)
