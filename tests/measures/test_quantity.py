import pytest
from tests.builders import build

from revealbook.measures.catalogue import CATALOGUE
from revealbook.measures.quantity import Measure, as_recorded
from revealbook.measures.reading import Missing, Reading


def test_what_is_recorded_is_read_as_it_stands() -> None:
    read = as_recorded("survey", "sound")
    assert list(read(build({"survey": {"sound": False}}))) == [Reading((), False, ("survey", "sound"))]


def test_what_is_not_recorded_is_missing_at_its_place() -> None:
    read = as_recorded("plinth", "packers", "beside_fixings")
    openings: list[dict[str, object]] = [{}, {"plinth": {}}, {"plinth": {"packers": {}}}]
    for opening in openings:
        assert list(read(build(opening))) == [
            Missing((), "beside_fixings", ("plinth", "packers", "beside_fixings"))
        ]


@pytest.mark.parametrize(
    ("name", "signed"),
    [
        ("load_wait_margin", True),
        ("embedment_margin", True),
        ("foam_after_tape", True),
        ("bottom_surplus", True),
        ("hole_centres", False),
        ("bead_number", False),
        ("sd_ratio", False),
        ("frame_level", False),
    ],
)
def test_only_differences_and_waits_may_lie_below_zero(name: str, signed: bool) -> None:
    assert CATALOGUE[name].signed is signed


def test_a_measure_may_say_that_it_lies_below_zero() -> None:
    assert Measure("x", "mm", "X.", lambda _work: (), below_zero=True).signed
    assert not Measure("x", "mm", "X.", lambda _work: ()).signed
