from datetime import UTC, date, datetime, timedelta, timezone
from typing import Any

import pytest
from pydantic import ConfigDict, TypeAdapter, ValidationError

from revealbook.records.part import Part
from revealbook.records.quantities import Count, Day, FileName, LengthMm, Many, Mark, Moment, PositionMm, Text
from revealbook.source.scalars import meaning

STRICT = ConfigDict(strict=True)
CET = timezone(timedelta(hours=1))


def read_as(kind: Any, value: object) -> Any:
    return TypeAdapter(kind, config=STRICT).validate_python(value)


def code(kind: Any, value: object) -> str:
    with pytest.raises(ValidationError) as caught:
        read_as(kind, value)
    return str(caught.value.errors()[0]["type"])


@pytest.mark.parametrize("written", ["0412", "12E5", "2.50", "007", "1e3", "+5", "2281", "9" * 40])
def test_a_number_where_text_is_wanted_keeps_its_writing(written: str) -> None:
    assert read_as(Text, meaning(written)) == written


@pytest.mark.parametrize("written", ["0412", "12E5", "2.50", "2281"])
def test_a_batch_keeps_its_writing(written: str) -> None:
    assert read_as(Mark, meaning(written)) == written


def test_text_loses_blanks_around_it_and_must_not_be_empty() -> None:
    assert read_as(Text, "  scaffold board  ") == "scaffold board"
    assert code(Text, "   ") == "string_too_short"
    assert code(Text, "x" * 2001) == "string_too_long"


@pytest.mark.parametrize("value", [True, None, ["a"], {"a": 1}])
def test_text_is_not_made_from_anything_else(value: object) -> None:
    assert code(Text, value) == "string_type"


@pytest.mark.parametrize("mark", ["W-2.07", "a", "240117-33", "A/2", "x y", "B+1"])
def test_marks_are_letters_digits_and_a_few_signs(mark: str) -> None:
    assert read_as(Mark, mark) == mark


@pytest.mark.parametrize("mark", ["", "-5", ".hidden", "W(2)", "a\nb", "a\n", "größe", "../x"])
def test_anything_else_is_no_mark(mark: str) -> None:
    assert code(Mark, mark) == "string_pattern_mismatch"


@pytest.mark.parametrize("name", ["W-2.07-beads.jpg", "2026/11/a.jpg", "frame größe.jpeg"])
def test_file_names_may_lie_in_folders(name: str) -> None:
    assert read_as(FileName, name) == name


@pytest.mark.parametrize(
    "name",
    ["../a.jpg", "a/../../b.jpg", "/etc/passwd", "a\\b.jpg", "a//b.jpg", "", "a\x00b", ".hidden", "a/"],
)
def test_file_names_do_not_lead_out_of_their_folder(name: str) -> None:
    assert code(FileName, name) == "string_pattern_mismatch"


@pytest.mark.parametrize(
    ("text", "moment"),
    [
        ("2026-11-20T14:05+01:00", datetime(2026, 11, 20, 14, 5, tzinfo=CET)),
        ("2026-11-20 14:05:30+01:00", datetime(2026, 11, 20, 14, 5, 30, tzinfo=CET)),
        ("2026-11-20T13:05Z", datetime(2026, 11, 20, 13, 5, tzinfo=UTC)),
    ],
)
def test_a_moment_has_its_zone(text: str, moment: datetime) -> None:
    assert read_as(Moment, text) == moment
    assert read_as(Moment, moment) == moment


@pytest.mark.parametrize(
    ("value", "wrong"),
    [
        ("2026-11-20T14:05", "time_without_zone"),
        ("2026-11-20 14:05:00", "time_without_zone"),
        (datetime(2026, 11, 20, 14, 5), "not_a_time"),  # noqa: DTZ001 - that is what is refused
        ("2026-11-20", "not_a_time"),
        ("14:05", "not_a_time"),
        ("20.11.2026 14:05", "not_a_time"),
        ("2026-11-20T14:05+01:00 or so", "not_a_time"),
        (2026, "not_a_time"),
        (None, "not_a_time"),
        ("2026-02-30T14:05+01:00", "no_such_time"),
        ("2026-11-20T25:05+01:00", "no_such_time"),
        ("2026-11-20T14:60+01:00", "no_such_time"),
        ("2026-11-20T14:05+25:00", "no_such_time"),
        ("0000-11-20T14:05Z", "no_such_time"),
    ],
)
def test_what_is_no_moment_is_refused_by_kind(value: object, wrong: str) -> None:
    assert code(Moment, value) == wrong


def test_a_day_is_a_date_without_a_time() -> None:
    assert read_as(Day, "2027-03-31") == date(2027, 3, 31)
    assert read_as(Day, date(2027, 3, 31)) == date(2027, 3, 31)


@pytest.mark.parametrize(
    ("value", "wrong"),
    [("31.03.2027", "not_a_date"), ("2027-03", "not_a_date"), ("2027-02-29", "no_such_time"),
     (2027, "not_a_date"), (datetime(2027, 3, 31, tzinfo=UTC), "not_a_date")],
)  # fmt: skip
def test_what_is_no_day_is_refused_by_kind(value: object, wrong: str) -> None:
    assert code(Day, value) == wrong


@pytest.mark.parametrize("value", ["1230", True, None, float("nan"), float("inf"), -1, 0, 1.23])
def test_a_length_is_a_number_in_its_range(value: object) -> None:
    with pytest.raises(ValidationError):
        read_as(LengthMm, value)
    assert read_as(LengthMm, 1230) == 1230


def test_a_count_is_whole_and_not_negative() -> None:
    assert read_as(Count, 2) == 2
    assert code(Count, 2.5) == "int_type"
    assert code(Count, -1) == "greater_than_equal"
    assert code(Count, True) == "int_type"


class Listing(Part):
    positions: Many[PositionMm]


def test_a_list_becomes_frozen_and_its_items_stay_strict() -> None:
    assert Listing.model_validate({"positions": [180, 695.5]}).positions == (180, 695.5)
    for wrong in ([180, "695"], [180, True], [None], "180", 180, {"a": 180}):
        with pytest.raises(ValidationError):
            Listing.model_validate({"positions": wrong})
