from revealbook.measures.catalogue import CATALOGUE
from revealbook.measures.units import UNITS


def test_every_measure_has_a_unit_of_the_closed_list() -> None:
    assert {measure.unit for measure in CATALOGUE.values()} <= set(UNITS)


def test_units_stand_once() -> None:
    assert len(set(UNITS)) == len(UNITS)
    assert {"mm", "h", "K", "yes/no", "choice", "number"} <= set(UNITS)
