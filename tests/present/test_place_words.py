"""Floors are named by one key, however the site or the reader writes them."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from revealbook.present.place_words import ALONE, RANKS, TOGETHER, floor_key, plain_text


@pytest.mark.parametrize(
    ("written", "key"),
    [
        ("2", "2"), ("02", "2"), ("second", "2"), ("Second floor", "2"), ("2nd", "2"), ("2. OG", "2"),
        ("2.OG", "2"), ("2OG", "2"), ("OG 2", "2"), ("zweites Obergeschoss", "2"), ("fünfte Etage", "5"),
        ("ground", "0"), ("Ground floor", "0"), ("EG", "0"), ("Erdgeschoß", "0"), ("0", "0"),
        ("basement", "-1"), ("UG", "-1"), ("-1", "-1"), ("DG", "attic"), ("Attic", "attic"), ("12", "12"),
        ("twelfth", "12"), ("mezzanine", "mezzanine"), ("Galerie Süd", "galerie sud"), ("", ""), (None, ""),
    ],
)  # fmt: skip
def test_a_floor_has_one_key_however_it_is_written(written: str | None, key: str) -> None:
    assert floor_key(written) == key


def test_lower_floors_below_the_first_are_told_apart() -> None:
    assert floor_key("2. UG") == "-2"
    assert floor_key("UG 2") == "-2"
    assert floor_key("1. UG") == floor_key("UG")


@given(st.text(max_size=30))
def test_any_text_has_a_key_and_the_key_of_a_key_is_itself(text: str) -> None:
    assert floor_key(floor_key(text)) == floor_key(text)


def test_words_are_written_as_they_are_compared() -> None:
    for words in (RANKS, ALONE, TOGETHER):
        assert [word for word in words if plain_text(word) != word] == []
