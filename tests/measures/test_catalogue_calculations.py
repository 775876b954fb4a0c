from tests.builders import build, full_opening, full_site, taken

from revealbook.measures.catalogue import CATALOGUE
from revealbook.measures.catalogue_calculations import CALCULATIONS
from revealbook.measures.reading import Missing, Reading

BELOW_ZERO = {
    "wind_class_reserve",
    "bead_cure_reserve",
    "flatness_reserve",
    "inside_outside_difference", "temperature_factor", "temperature_factor_reserve",
    "leakage_exponent", "mass_beyond_glass",
    "support_load", "fixing_surplus", "movement_reserve",
    "spray_minutes",  # by its unit: minutes of other measures are differences
}  # fmt: skip


def test_all_of_them_are_in_the_catalogue_once() -> None:
    names = [measure.name for measure in CALCULATIONS]
    assert len(names) == len(set(names))
    assert set(names) <= set(CATALOGUE)


def test_each_gives_readings_of_its_unit_for_the_conforming_opening() -> None:
    work = build(full_opening(), full_site())
    for measure in CALCULATIONS:
        outcomes = taken(work, measure.name)
        assert outcomes, measure.name
        kind = bool if measure.unit == "yes/no" else (int, float)
        for outcome in outcomes:
            assert isinstance(outcome, Reading), outcome
            assert isinstance(outcome.value, kind)


def test_each_says_something_of_an_empty_record() -> None:
    for measure in CALCULATIONS:
        outcomes = taken(build(), measure.name)
        assert outcomes, measure.name
        if not measure.name.endswith(("_made", "_tested", "_stated")):
            assert all(isinstance(outcome, Missing) for outcome in outcomes), measure.name


def test_what_can_lie_below_zero_says_so() -> None:
    assert {measure.name for measure in CALCULATIONS if measure.signed} == BELOW_ZERO
