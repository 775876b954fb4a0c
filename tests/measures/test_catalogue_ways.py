from typing import get_args

from tests.rules.changes import common_practice

from revealbook.measures.catalogue_ways import WAYS
from revealbook.measures.facade import INSULATION
from revealbook.records.facade import InsulationKind


def test_choices_are_those_of_the_record() -> None:
    assert {measure.name: measure.choices for measure in WAYS if measure.choices} == {
        "fire_barrier_material": get_args(InsulationKind)
    }
    assert get_args(InsulationKind) == INSULATION


def test_every_one_is_judged_or_decides_when_a_rule_applies() -> None:
    assert {measure.name for measure in WAYS} <= set(common_practice().measures)
