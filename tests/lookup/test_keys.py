"""Names are compared without regard to case, accents, and what sets their parts apart."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from revealbook.lookup.keys import building_key, key, pieces, tokens, words


@pytest.mark.parametrize("written", ["W-2.07", "w 2.07", "W2/07", " w2_07 "])
def test_one_mark_written_in_several_ways_has_one_key(written: str) -> None:
    assert key(written) == "w_2_07"


def test_a_nought_in_front_makes_another_batch() -> None:
    assert key("0412") != key("412")


def test_accents_do_not_count() -> None:
    assert key("Küche") == key("kuche")


@pytest.mark.parametrize("written", ["B", "b", "Haus B", "block b", "Building B"])
def test_a_building_is_known_with_and_without_the_word_for_it(written: str) -> None:
    assert building_key(written) == "b"


def test_a_building_that_is_called_tower_keeps_its_name() -> None:
    assert building_key("Tower") == "tower"
    assert building_key(None) == ""


def test_a_text_gives_its_words_and_their_pieces() -> None:
    assert words("Reveal W-2.07 (south-west)") == ["reveal", "w_2_07", "south_west"]
    assert tokens("W-2.07 (south-west)") == {"w_2_07", "w", "2", "07", "south_west", "south", "west"}
    assert pieces("w_2_07") == ["w", "2", "07"]


@given(st.text(max_size=30))
def test_a_key_is_its_own_key(text: str) -> None:
    assert key(key(text)) == key(text)


@given(st.text(max_size=30))
def test_every_word_of_a_text_finds_it(text: str) -> None:
    assert set(words(text)) <= tokens(text)


def test_of_a_word_that_goes_on_and_on_only_the_beginning_counts() -> None:
    assert words("x" * 5000) == ["x" * 100]
    assert tokens("x" * 5000) == {"x" * 100}
