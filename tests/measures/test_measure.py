import pytest
from tests.builders import build

from revealbook.measures.measure import measure


def test_only_the_measures_asked_for_are_taken_each_once() -> None:
    work = build({"survey": {"sound": True}})
    readings = measure(work, ["substrate_sound", "wall_plumb", "substrate_sound"])
    assert list(readings) == ["substrate_sound", "wall_plumb"]
    assert readings["substrate_sound"][0].subject == ()


def test_a_measure_that_does_not_exist_is_no_silent_nothing() -> None:
    with pytest.raises(KeyError):
        measure(build(), ["hole_centers"])
