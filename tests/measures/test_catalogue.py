from collections import Counter

import pytest
from tests.builders import build, full_opening, full_site, taken

from revealbook.measures.catalogue import CATALOGUE
from revealbook.measures.left_out import CONDITIONS as LEFT_OUT
from revealbook.measures.quantity import Measure
from revealbook.measures.reading import Missing, Reading

MEASURES = list(CATALOGUE.values())


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
    outcomes = taken(build(full_opening(), full_site()), measure.name)
    assert outcomes
    for outcome in outcomes:
        assert isinstance(outcome, Reading), outcome
        if measure.unit == "yes/no":
            assert isinstance(outcome.value, bool)
        elif measure.unit == "choice":
            assert outcome.value in measure.choices
        else:
            assert isinstance(outcome.value, int | float)
            assert not isinstance(outcome.value, bool)
            assert measure.signed or outcome.value >= 0


ONLY_OF_WHAT_IS_THERE = {"correction_checked", "concession_entitled", "left_out_entitled"}
"""Measures of what need not exist: without it there is nothing to show."""


TOLD_BY_ABSENCE = {"leakage_tested", "spray_tested", "thermometry_made", "room_climate_stated", *LEFT_OUT}
"""A test of which nothing is recorded was not made; nothing is left out that nobody states."""


@pytest.mark.parametrize(
    "name", sorted(set(CATALOGUE) - ONLY_OF_WHAT_IS_THERE - TOLD_BY_ABSENCE - {"stage_closed"})
)
def test_an_empty_record_shows_nothing_at_all(name: str) -> None:
    outcomes = taken(build(), name)
    assert outcomes
    for outcome in outcomes:
        assert isinstance(outcome, Missing), outcome
        assert outcome.what
        assert outcome.path


@pytest.mark.parametrize("name", sorted(TOLD_BY_ABSENCE))
def test_a_test_that_is_not_recorded_was_not_made(name: str) -> None:
    assert [outcome[1] for outcome in taken(build(), name)] == [False]


@pytest.mark.parametrize("name", sorted(ONLY_OF_WHAT_IS_THERE))
def test_without_nonconformities_or_concessions_there_is_nothing_to_show(name: str) -> None:
    assert taken(build(), name) == ()


def test_every_reading_of_a_measure_has_a_subject_of_its_own() -> None:
    work = build(full_opening(), full_site())
    for name in CATALOGUE:
        repeated = [
            subject
            for subject, times in Counter(one.subject for one in taken(work, name)).items()
            if times > 1
        ]
        assert not repeated, (name, repeated)
