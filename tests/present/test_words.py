from datetime import date, datetime
from math import inf, nan
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from revealbook.present.words import SAME, Words, catalogue, languages, words_in

ENGLISH = words_in("en")


def german(tmp_path: Path) -> Words:
    file = tmp_path / "de.po"
    file.write_text(
        'msgid ""\nmsgstr "Content-Type: text/plain; charset=UTF-8\\n"\n\n'
        'msgid "yes"\nmsgstr "ja"\n\nmsgid "{most} and {last}"\nmsgstr "{most} und {last}"\n\n'
        'msgid "at least {low}"\nmsgstr "mindestens {low}"\n\nmsgid "conforms"\nmsgstr ""\n',
        encoding="utf-8",
    )
    return catalogue("de", file)


@pytest.mark.parametrize(
    ("value", "unit", "against", "said"),
    [
        (699.6, "mm", 700, "699.6"),
        (700.04, "mm", 700, "700.04"),
        (700.0, "mm", 700, "700"),
        (700.000001, "mm", 700, "700.000001"),
        (0.1 + 0.2, "K", 0.3, "0.3"),
        (699.96, "mm", 700, "699.96"),
        (699.96, "mm", None, "700"),
        (18.4, "min", 20, "18"),
        (19.8, "min", 20, "19.8"),
        (1475.0, "mm", None, "1475"),
        (12345.6, "mm", None, "12345.6"),
        (-2.5, "degC", None, "−2.5"),
        (-0.04, "degC", None, "0"),
        (-0.04, "degC", 0, "−0.04"),
        (0.125, "mm/m", None, "0.12"),
        (2.0, "number", None, "2"),
    ],
)
def test_a_number_has_the_decimals_its_unit_deserves_and_never_seems_to_be_the_limit(
    value: float, unit: str, against: float | None, said: str
) -> None:
    assert ENGLISH.number(value, unit, against) == said


@given(st.floats(1, 10_000), st.floats(-1, 1))
def test_what_differs_from_a_limit_is_shown_to_differ(limit: float, off: float) -> None:
    value = limit + off
    same = abs(value - limit) <= SAME
    assert (ENGLISH.number(value, "mm", limit) == ENGLISH.number(limit, "mm", value)) is same


@pytest.mark.parametrize("endless", [inf, -inf, nan])
def test_an_endless_reading_is_called_none(endless: float) -> None:
    assert ENGLISH.number(endless, "mm", 700) == "none"
    assert ENGLISH.quantity(endless, "mm") == "none"


@pytest.mark.parametrize(
    ("value", "unit", "said"),
    [
        (5, "degC", "5\u00a0°C"),
        (1.25, "m3/h", "1.25\u00a0m³/h"),
        (2, "number", "2"),
        (1.5, "-", "1.5"),
        (80, "mm", "80\u00a0mm"),
    ],
)
def test_a_quantity_holds_its_number_and_unit_together(value: float, unit: str, said: str) -> None:
    assert ENGLISH.quantity(value, unit) == said


def test_moments_and_days_are_written_so_that_they_sort() -> None:
    at = datetime.fromisoformat("2026-10-25T02:30+02:00")
    assert ENGLISH.moment(at) == "2026-10-25 02:30"
    assert ENGLISH.day(date(2026, 3, 9)) == "2026-03-09"


def test_a_language_with_a_catalogue_writes_its_own_words_numbers_and_days(tmp_path: Path) -> None:
    words = german(tmp_path)
    assert words.yes_or_no(value=True) == "ja"
    assert words.say("at least {low}", low=words.quantity(0.5, "mm")) == "mindestens 0,5\u00a0mm"
    assert words.listed(["a", "b", "c"]) == "a, b und c"
    assert words.moment(datetime.fromisoformat("2026-11-20T14:05+01:00")) == "20.11.2026 14:05"
    assert words.day(date(2026, 3, 9)) == "09.03.2026"


def test_what_a_catalogue_leaves_out_is_said_in_english(tmp_path: Path) -> None:
    words = german(tmp_path)
    assert words.say("conforms") == "conforms"
    assert words.say("never heard of") == "never heard of"


def test_items_are_joined_as_the_language_does() -> None:
    assert [ENGLISH.listed(items) for items in ([], ["a"], ["a", "b"], ["a", "b", "c"])] == [
        "", "a", "a and b", "a, b and c",
    ]  # fmt: skip


def test_a_count_agrees_with_its_noun() -> None:
    assert [ENGLISH.count(number, "1 rule", "{number} rules") for number in (0, 1, 2)] == [
        "0 rules", "1 rule", "2 rules",
    ]  # fmt: skip


def test_braces_in_a_fact_are_left_alone() -> None:
    assert ENGLISH.say("“{name}” was not recorded", name="{0} {x}") == "“{0} {x}” was not recorded"
    assert ENGLISH.say("no fact {here}") == "no fact {here}"


def test_a_language_without_a_catalogue_is_refused_with_those_there_are() -> None:
    assert "en" in languages()
    with pytest.raises(ValueError, match=r"There is no catalogue for 'xx', only for en"):
        words_in("xx")


def test_every_catalogue_that_is_shipped_can_be_read() -> None:
    assert all(words_in(language).language == language for language in languages())
