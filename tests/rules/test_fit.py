from typing import Any

import pytest
from tests.rules.sets import rule

from revealbook.rules.fit import faults

YES_NO = {"measure": "joint_bonded", "unit": "yes/no"}
CHOICE = {"measure": "seating", "unit": "choice"}


def found(**changes: Any) -> list[tuple[str, str]]:
    return [(key, code) for key, code, _ in faults(rule(**changes), 2)]


def facts(**changes: Any) -> dict[str, object]:
    (fault,) = faults(rule(**changes), 2)
    return dict(fault[2])


@pytest.mark.parametrize(
    "changes",
    [
        {},
        {**YES_NO, "equal_to": True},
        {**CHOICE, "one_of": ["pressed"]},
        {"at_most_by": "nominal_width", "steps": [{"up_to": 1, "limit": 1}]},
        {"applies_when": ["plinth_used"], "applies_unless": ["insulation_follows"]},
        {"measure": "side_length_difference", "between": [-3, -1]},
    ],
)
def test_a_rule_that_its_measure_can_serve_has_no_fault(changes: dict[str, Any]) -> None:
    assert found(**changes) == []


def test_an_unknown_measure_is_named_with_the_nearest_known_one() -> None:
    assert found(measure="hole_centers") == [("measure", "unknown_measure")]
    assert facts(measure="hole_centers") == {"name": "hole_centers", "nearest": "hole_centres"}


def test_an_unknown_size_is_pointed_at_where_it_stands() -> None:
    steps = [{"up_to": 1, "limit": 1}]
    assert found(at_most_by="nominal_widht", steps=steps) == [("at_most_by", "unknown_measure")]
    assert found(at_least_by="nominal_widht", steps=steps) == [("at_least_by", "unknown_measure")]


def test_another_unit_than_the_measure_has_is_refused() -> None:
    assert found(unit="m") == [("unit", "unit_differs")]
    assert facts(unit="m") == {"measure": "frame_overlap", "unit": "mm", "stated": "m"}


@pytest.mark.parametrize(
    ("changes", "kind"),
    [
        ({**YES_NO, "at_least": 1}, "at_least"),
        ({**YES_NO, "one_of": ["pressed"]}, "one_of"),
        ({**CHOICE, "equal_to": True}, "equal_to"),
        ({"equal_to": True}, "equal_to"),
        ({"one_of": ["pressed"]}, "one_of"),
    ],
)
def test_a_limit_of_another_kind_than_the_measure_is_refused(changes: dict[str, Any], kind: str) -> None:
    assert found(**changes) == [(kind, "limit_kind_differs")]


def test_a_word_that_the_measure_never_gives_is_refused() -> None:
    assert found(**CHOICE, one_of=["pressed", "hammered"]) == [("one_of", "limit_word_unknown")]
    assert facts(**CHOICE, one_of=["pressed", "hammered"])["word"] == "hammered"


def test_a_limit_below_zero_is_refused_where_nothing_lies_below_zero() -> None:
    assert found(at_most=-1) == [("at_most", "limit_below_zero")]
    assert found(measure="moisture_margin", unit="%", at_most=-1) == []


def test_a_condition_is_a_known_measure_that_says_yes_or_no() -> None:
    assert found(applies_when=["plinth"]) == [("applies_when", "unknown_measure")]
    assert found(applies_unless=["hole_centres"]) == [("applies_unless", "condition_not_yes_or_no")]


def test_all_faults_are_told_at_once() -> None:
    codes = [code for _, code in found(unit="m", applies_when=["plinth", "hole_centres"])]
    assert codes == ["unit_differs", "unknown_measure", "condition_not_yes_or_no"]


PUBLISHED = {"kind": "published", "standard": "DIN 18202", "edition": "2019-07"}


@pytest.mark.parametrize(
    "clause", ["table 1", "clause 7.2", "annex C", "4.3.7", "Tabelle 3, Zeile 6", "table C.1"]
)
def test_a_published_basis_names_the_number_of_its_clause(clause: str) -> None:
    assert found(basis={**PUBLISHED, "clause": clause}) == []


@pytest.mark.parametrize("clause", ["temperature factor fRsi", "density of glass, 2500 kg/m3", "tables"])
def test_a_clause_in_words_only_was_not_seen(clause: str) -> None:
    basis = {**PUBLISHED, "clause": clause}
    assert found(basis=basis) == [("basis", "clause_without_number")]
    assert list(faults(rule(basis=basis), 1)) == []
    assert found(basis={**basis, "kind": "from memory"}) == []


def test_a_condition_cannot_be_asked_for_and_ruled_out() -> None:
    both: dict[str, Any] = {
        "applies_when": ["plinth_used"],
        "applies_unless": ["insulation_follows", "plinth_used"],
    }
    assert found(**both) == [("applies_unless", "condition_contradicts_itself")]
    assert list(faults(rule(**both), 1)) == []
