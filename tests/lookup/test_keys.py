"""Names are compared without regard to case, accents and how their parts are set apart."""

import pytest

from revealbook.lookup.keys import building_key, key, pieces, tokens, words


@pytest.mark.parametrize("written", ["W-2.07", "w 2.07", "W2/07", " W-2-07 "])
def test_one_mark_is_one_however_its_parts_are_set_apart(written: str) -> None:
    assert key(written) == "w_2_07"


def test_a_nought_is_part_of_a_batch() -> None:
    assert key("0412") != key("412")


def test_accents_and_case_make_no_difference() -> None:
    assert key("KÜCHE") == key("kuche")


@pytest.mark.parametrize("written", ["B", "Haus B", "block b", "Building B"])
def test_a_building_is_one_with_or_without_the_word_for_it(written: str) -> None:
    assert building_key(written) == "b"


def test_a_building_called_house_keeps_its_name() -> None:
    assert building_key("Haus") == "haus"
    assert building_key(None) == ""


def test_a_text_is_found_by_whole_words_and_by_their_pieces() -> None:
    assert words("Reveal W-2.07 (south-west)") == ["reveal", "w_2_07", "south_west"]
    assert tokens("W-2.07, sill") == {"w_2_07", "w", "2", "07", "sill"}
    assert pieces("w_2_07") == ["w", "2", "07"]
