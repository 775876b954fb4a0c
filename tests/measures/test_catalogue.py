from collections import Counter

import pytest
from tests.builders import build, taken
from tests.rules.changes import WAYS, plain, work_of

from revealbook.measures.catalogue import CATALOGUE
from revealbook.measures.left_out import CONDITIONS as LEFT_OUT
from revealbook.measures.quantity import Measure
from revealbook.measures.reading import Missing, Reading

MEASURES = list(CATALOGUE.values())
IN_EVERY_WAY = [work_of({}, way=way) for way in ("", *plain(WAYS))]
"""The conforming record as it is, and as each other way of working changes it."""


def _readings(name: str) -> list[Reading]:
    """Give a measure's readings in the first way of working in which nothing of it is missing."""
    for outcomes in (taken(work, name) for work in IN_EVERY_WAY):
        readings = [outcome for outcome in outcomes if isinstance(outcome, Reading)]
        if readings and len(readings) == len(outcomes):
            return readings
    return []


def test_no_measure_can_be_added_from_outside() -> None:
    with pytest.raises(TypeError):
        CATALOGUE["mine"] = MEASURES[0]  # type: ignore[index]


@pytest.mark.parametrize("measure", MEASURES, ids=lambda measure: measure.name)
def test_a_measure_is_known_by_its_name_and_says_what_it_means(measure: Measure) -> None:
    assert CATALOGUE[measure.name] is measure
    assert measure.meaning.endswith(".")
    assert (measure.unit == "choice") == bool(measure.choices)


@pytest.mark.parametrize("measure", MEASURES, ids=lambda measure: measure.name)
def test_a_full_record_gives_every_measure_a_value_of_its_kind(measure: Measure) -> None:
    readings = _readings(measure.name)
    assert readings, "neither the conforming record nor another way of working gives a value"
    for outcome in readings:
        if measure.unit == "yes/no":
            assert isinstance(outcome.value, bool)
        elif measure.unit == "choice":
            assert outcome.value in measure.choices
        else:
            assert isinstance(outcome.value, int | float)
            assert not isinstance(outcome.value, bool)
            assert measure.signed or outcome.value >= 0


ONLY_OF_WHAT_IS_THERE = {
    "correction_checked", "concession_entitled", "left_out_entitled", "sash_reserve", "coupling_joined",
    "coupling_sealed",
    "coupling_fixing_distance", "stuck_first_allowed", "stuck_before_setting",
}  # fmt: skip
"""Measures of what need not exist: without it there is nothing to show."""


TOLD_BY_ABSENCE = {"leakage_tested", "spray_tested", "thermometry_made", "room_climate_stated", *LEFT_OUT}
"""A test of which nothing is recorded was not made; nothing is left out that nobody states."""
THE_ORDINARY_WAY = {
    "fixed_light", "has_sashes", "coupled", "coupled_in_line", "tape_stuck_first", "joint_taped",
    "joint_tape_closes", "load_on_screws", "arched_head", "existing_finish", "finish_stays", "shutter_box",
    "fire_barrier_called_for", "fall_looked_at", "fall_protection",
}  # fmt: skip
"""Choices: of what is not stated, the ordinary way holds and its rules apply."""


@pytest.mark.parametrize(
    "name",
    sorted(set(CATALOGUE) - ONLY_OF_WHAT_IS_THERE - TOLD_BY_ABSENCE - THE_ORDINARY_WAY - {"stage_closed"}),
)
def test_an_empty_record_shows_nothing_at_all(name: str) -> None:
    outcomes = taken(build(), name)
    assert outcomes
    for outcome in outcomes:
        assert isinstance(outcome, Missing), outcome
        assert outcome.what
        assert outcome.path


@pytest.mark.parametrize("name", sorted(TOLD_BY_ABSENCE | THE_ORDINARY_WAY))
def test_a_test_that_is_not_recorded_was_not_made_and_a_choice_that_is_not_stated_is_the_ordinary_way(
    name: str,
) -> None:
    assert [outcome[1] for outcome in taken(build(), name)] == [False]


@pytest.mark.parametrize("name", sorted(ONLY_OF_WHAT_IS_THERE))
def test_without_nonconformities_or_concessions_there_is_nothing_to_show(name: str) -> None:
    assert taken(build(), name) == ()


def test_every_reading_of_a_measure_has_a_subject_of_its_own() -> None:
    work = work_of({})
    for name in CATALOGUE:
        repeated = [
            subject
            for subject, times in Counter(one.subject for one in taken(work, name)).items()
            if times > 1
        ]
        assert not repeated, (name, repeated)
