import pytest

from revealbook.source.nearest import nearest

KEYS = ("width_mm", "height_mm", "out_of_plumb_mm", "by", "at")


@pytest.mark.parametrize(
    ("typed", "meant"),
    [("widht_mm", "width_mm"), ("hight_mm", "height_mm"), ("Width_mm", "width_mm"), ("WIDTH_MM", "width_mm"),
     ("width", "width_mm"), ("out_of_plum_mm", "out_of_plumb_mm")],
)  # fmt: skip
def test_a_slip_of_the_hand_finds_the_key_that_was_meant(typed: str, meant: str) -> None:
    assert nearest(typed, KEYS) == meant


@pytest.mark.parametrize("typed", ["colour", "", "5"])
def test_a_name_like_no_other_finds_nothing(typed: str) -> None:
    assert nearest(typed, KEYS) is None


def test_nothing_known_finds_nothing() -> None:
    assert nearest("ada", ()) is None


def test_the_nearest_is_given_as_it_is_written() -> None:
    assert nearest("LARCH-COURT", ["Larch-Court"]) == "Larch-Court"
