"""Sentences tell what was recorded first and what was not last."""

from hypothesis import given
from hypothesis import strategies as st
from tests.present import judging
from tests.present.judging import ENGLISH

from revealbook.present.story_phrases import Phrase, Teller, centres_mm, dew_margin_k
from revealbook.records.bonding import Application

TELL = Teller.of(judging.site({}).site.site, ENGLISH)


def test_a_sentence_names_what_lacks_once() -> None:
    phrases = [Phrase("2 beads", "beads"), Phrase("", "length"), Phrase("", "length")]
    assert TELL.sentence("Left", phrases) == "Left: 2 beads. Not shown: length."


def test_a_sentence_without_anything_recorded_says_not_shown() -> None:
    assert TELL.sentence("Left", [Phrase("", "length"), Phrase("", "beads")]) == (
        "Left: not shown (length, beads)."
    )


def test_a_complete_sentence_says_nothing_of_not_shown() -> None:
    assert TELL.sentence("Left", [Phrase("2 beads", "beads")]) == "Left: 2 beads."


def test_a_product_goes_by_its_name_and_by_its_id_if_it_has_none() -> None:
    assert TELL.product("adhesives", "frame-bond").said == "Example Frame Bond"
    assert TELL.product("foams", "frame-bond").said == "frame-bond"
    assert TELL.product("foams", None) == Phrase("", "product")


def test_a_span_of_equal_numbers_is_one_number() -> None:
    assert TELL.span([62, 62], "mm") == "62\u00a0mm"
    assert TELL.span([62, 50, 55], "mm") == "50 to 62\u00a0mm"
    assert TELL.span([], "mm") == ""


def test_zero_and_no_are_readings_not_gaps() -> None:
    assert TELL.fact("sealed", False, "sealed", "not sealed").said == "not sealed"
    assert TELL.reading(Application(air_c=0), "air_c", "degC").said == "air temperature 0\u00a0°C"


def test_the_margin_over_dew_point_lacks_with_any_of_its_readings() -> None:
    whole = Application(air_c=20, rh_pct=100, surface_c=21)
    assert abs((dew_margin_k(whole) or 0) - 1) < 1e-6  # saturated air is at its dew point
    for key in ("air_c", "rh_pct", "surface_c"):
        assert dew_margin_k(whole.model_copy(update={key: None})) is None


@given(st.lists(st.floats(0, 3000), min_size=2, max_size=8))
def test_centres_fill_the_way_from_first_to_last_fixing(positions: list[float]) -> None:
    centres = centres_mm(positions)
    assert min(centres) >= 0
    assert abs(sum(centres) - (max(positions) - min(positions))) < 1e-6
