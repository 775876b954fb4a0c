import pytest

from revealbook.source.scalars import WrittenNumber, as_written, meaning


@pytest.mark.parametrize("word", ["no", "No", "NO", "yes", "Yes", "on", "off", "y", "N/A", "none", "nil"])
def test_words_that_older_yaml_took_for_truth_are_text(word: str) -> None:
    assert meaning(word) == word


@pytest.mark.parametrize("word", ["true", "True", "TRUE"])
def test_true_is_true(word: str) -> None:
    assert meaning(word) is True


@pytest.mark.parametrize("word", ["false", "False", "FALSE"])
def test_false_is_false(word: str) -> None:
    assert meaning(word) is False


@pytest.mark.parametrize("word", ["", "~", "null", "Null", "NULL"])
def test_null_is_nothing(word: str) -> None:
    assert meaning(word) is None


@pytest.mark.parametrize("word", ["tRUE", "nULL", "truE"])
def test_truth_in_odd_capitals_is_text(word: str) -> None:
    assert meaning(word) == word


@pytest.mark.parametrize(
    "word",
    ["08:10", "1:30:00", "2026-11-20", "2026-11-20T10:00:00", "2026-11-20T10:00+01:00", "12,5", "1_000",
     "0x1F", "0o17", ".nan", ".NaN", ".inf", "-.inf", "+.inf", "-", "+", ".", "1.2.3", "12mm", "1e", "--1"],
)  # fmt: skip
def test_what_only_looks_like_a_number_is_text(word: str) -> None:
    assert meaning(word) == word
    assert isinstance(meaning(word), str)


@pytest.mark.parametrize(("word", "number"), [("0", 0), ("12", 12), ("-3", -3), ("1230", 1230)])
def test_plain_whole_numbers_are_whole(word: str, number: int) -> None:
    assert meaning(word) == number
    assert type(meaning(word)) is int


@pytest.mark.parametrize(
    ("word", "number"),
    [("12.5", 12.5), ("2.50", 2.5), ("-0.5", -0.5), ("+3", 3), ("0412", 412), ("12E5", 1_200_000),
     ("1e3", 1000), (".5", 0.5), ("5.", 5), ("-0", 0), ("007", 7)],
)  # fmt: skip
def test_other_numbers_remember_how_they_were_written(word: str, number: float) -> None:
    found = meaning(word)
    assert found == number
    assert isinstance(found, WrittenNumber)
    assert as_written(found) == word


def test_a_whole_number_gives_its_text_where_text_is_wanted() -> None:
    assert as_written(2281) == "2281"


@pytest.mark.parametrize("value", [True, False, None, "W-2.07", [1], 1.5])
def test_anything_but_a_written_number_is_left_alone(value: object) -> None:
    assert as_written(value) is value


def test_a_serial_number_of_many_digits_keeps_every_digit() -> None:
    serial = "9" * 40
    assert as_written(meaning(serial)) == serial


def test_thousands_of_digits_are_read_without_an_error() -> None:
    assert as_written(meaning("1" * 5000)) == "1" * 5000


def test_whole_numbers_stay_exact_to_eighteen_digits() -> None:
    assert meaning("123456789012345678") == 123456789012345678
