import pytest

from revealbook.measures.physics.wind_class import class_asked, class_pressure_pa


@pytest.mark.parametrize(
    ("declared", "tested"),
    [("1", 400), ("A2", 800), ("B3", 1200), ("C4", 1600), ("5", 2000), ("CE2400", 2400)],
)
def test_a_declared_class_was_tested_to_its_pressure(declared: str, tested: float) -> None:
    assert class_pressure_pa(declared) == tested


@pytest.mark.parametrize("declared", ["", "C", "6", "D4"])
def test_what_is_no_class_is_refused(declared: str) -> None:
    with pytest.raises(ValueError, match="no class"):
        class_pressure_pa(declared)


@pytest.mark.parametrize("tested", [400, 800, 1200, 1600, 2000, 2345])
def test_a_class_that_is_asked_for_holds_the_wind(tested: float) -> None:
    assert class_pressure_pa(class_asked(tested)) == tested
    assert class_pressure_pa(class_asked(tested + 0.5)) > tested + 0.4


def test_still_air_asks_for_the_lowest_class_and_less_than_none_is_refused() -> None:
    assert class_asked(0) == "1"
    with pytest.raises(ValueError, match="pressure_pa"):
        class_asked(-1)
