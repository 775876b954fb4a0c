from pathlib import Path

import pytest
from openpyxl import Workbook

from revealbook.records.opening import Identity
from revealbook.setting_out import schedule
from revealbook.setting_out.schedule import COLUMNS, Listed, read_schedule
from revealbook.source.problem import Problem


def written(tmp_path: Path, text: str, name: str = "schedule.csv", encoding: str = "utf-8") -> Path:
    file = tmp_path / name
    file.write_bytes(text.encode(encoding))
    return file


def listed(file: Path) -> list[Identity]:
    found = read_schedule(file)
    assert found
    assert all(isinstance(one, Listed) for one in found), found
    return [one.identity for one in found if isinstance(one, Listed)]


def problems(file: Path) -> list[tuple[int, int, str]]:
    found = read_schedule(file)
    assert all(isinstance(one, Problem) for one in found), found
    return [(one.place.line, one.place.column, one.code) for one in found if isinstance(one, Problem)]


def test_columns_are_called_as_the_keys_of_a_record() -> None:
    assert set(COLUMNS) <= set(Identity.model_fields)


@pytest.mark.parametrize("delimiter", [",", ";", "\t", "|"])
def test_any_usual_delimiter_is_found_out(tmp_path: Path, delimiter: str) -> None:
    rows = [["mark", "room", "width_mm", "height_mm"], ["W-1.01", "kitchen", "1230", "1480"]]
    text = "\n".join(delimiter.join(row) for row in rows)
    (one,) = listed(written(tmp_path, text))
    assert one == Identity(mark="W-1.01", room="kitchen", width_mm=1230, height_mm=1480)


@pytest.mark.parametrize(
    ("cell", "mm"),
    [("1230", 1230), ("1230,5", 1230.5), ("1230.5", 1230.5), ("1 230,5", 1230.5), ("1.230,5", 1230.5),
     ("1\u00a0230", 1230), ("1'230", 1230)],
)  # fmt: skip
def test_numbers_are_read_with_a_decimal_point_or_comma(tmp_path: Path, cell: str, mm: float) -> None:
    (one,) = listed(written(tmp_path, f"mark;width_mm\nW-1;{cell}\n"))
    assert one.width_mm == mm


def test_floors_and_marks_stay_text_and_empty_cells_stay_unknown(tmp_path: Path) -> None:
    (one,) = listed(written(tmp_path, "mark;floor;width_mm;room\n007;2;;\n"))
    assert (one.mark, one.floor, one.width_mm, one.room) == ("007", "2", None, None)


def test_quotes_bom_old_encodings_and_empty_lines_do_no_harm(tmp_path: Path) -> None:
    text = '\ufeffmark;room\n\nW-1;"Küche; hinten"\n;\n'
    assert listed(written(tmp_path, text))[0].room == "Küche; hinten"
    old = written(tmp_path, "mark;room\nW-1;Küche\n", encoding="cp1252")
    assert listed(old)[0].room == "Küche"


def workbook(tmp_path: Path, rows: list[list[object]]) -> Path:
    book = Workbook()
    assert book.active is not None
    for row in rows:
        book.active.append(row)
    file = tmp_path / "schedule.xlsx"
    book.save(file)
    return file


def test_the_first_sheet_of_a_workbook_is_read(tmp_path: Path) -> None:
    rows: list[list[object]] = [
        ["mark", "floor", "width_mm", "height_above_ground_m", None],
        ["W-1.01", 2, 1230, 6.25, None],
        [None, None, None, None, None],
        ["W-1.02", 2.0, "885,5", None, None],
    ]
    first, second = listed(workbook(tmp_path, rows))
    assert first == Identity(mark="W-1.01", floor="2", width_mm=1230, height_above_ground_m=6.25)
    assert second == Identity(mark="W-1.02", floor="2", width_mm=885.5)


def test_a_formula_counts_by_its_last_value_and_none_is_none(tmp_path: Path) -> None:
    (one,) = listed(workbook(tmp_path, [["mark", "width_mm"], ["W-1", "=1200+30"]]))
    assert one.width_mm is None  # never worked out by a spreadsheet: there is no value to read


def test_a_problem_names_row_and_column(tmp_path: Path) -> None:
    text = "mark;width_mm;height_mm\nW-1;wide;1480\nW-2;61;1480\n;1230;1480\nW-1/2;1230;1480\n=A1;1230;1480\n"
    assert problems(written(tmp_path, text)) == [
        (2, 2, "cell_not_a_number"),
        (3, 2, "too_small"),
        (4, 0, "mark_missing"),
        (5, 0, "mark_no_file_name"),
        (6, 1, "not_a_name"),
    ]


def test_in_a_workbook_as_well(tmp_path: Path) -> None:
    file = workbook(tmp_path, [["mark", "width_mm"], ["W-1", 1230], ["W-2", "wide"]])
    assert problems(file) == [(3, 2, "cell_not_a_number")]


def test_an_unknown_column_is_a_problem_with_the_nearest_name(tmp_path: Path) -> None:
    found = read_schedule(written(tmp_path, "mark;widht_mm;mark\nW-1;1230;\n"))
    assert [(one.code, one.facts.get("nearest")) for one in found if isinstance(one, Problem)] == [
        ("unknown_column", "width_mm"),
        ("repeated_column", None),
    ]


def test_without_marks_there_is_nothing_to_call_a_record_after(tmp_path: Path) -> None:
    assert problems(written(tmp_path, "room;width_mm\nkitchen;1230\n")) == [(1, 0, "mark_column_missing")]


def test_a_mark_stands_once_however_it_is_written(tmp_path: Path) -> None:
    found = read_schedule(written(tmp_path, "mark\nW-1\nW-2\nw-1\n"))
    (problem,) = found
    assert isinstance(problem, Problem)
    assert (problem.place.line, problem.code, problem.facts["first_line"]) == (4, "mark_listed_twice", 2)


@pytest.mark.parametrize(
    ("name", "content", "code"),
    [
        ("schedule.csv", b"", "schedule_empty"),
        ("schedule.xlsx", b"no workbook", "unreadable"),
        ("schedule.xlsx", b"PK\x05\x06" + bytes(18), "unreadable"),
    ],
)
def test_what_is_no_schedule_is_refused(tmp_path: Path, name: str, content: bytes, code: str) -> None:
    file = tmp_path / name
    file.write_bytes(content)
    assert problems(file) == [(0, 0, code)]


def test_a_file_that_is_not_there_is_a_problem(tmp_path: Path) -> None:
    assert problems(tmp_path / "none.csv") == [(0, 0, "unreadable")]


def test_a_schedule_too_large_or_too_long_is_refused(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    file = written(tmp_path, "mark\n" + "".join(f"W-{n}\n" for n in range(6)))
    monkeypatch.setattr(schedule, "MAX_ROWS", 6)
    assert len(listed(file)) == 6
    monkeypatch.setattr(schedule, "MAX_ROWS", 5)
    assert problems(file) == [(0, 0, "schedule_too_long")]
    monkeypatch.setattr(schedule, "MAX_BYTES", 10)
    assert problems(file) == [(0, 0, "too_large")]


def test_a_schedule_of_five_thousand_lines_is_read_and_one_more_is_not(tmp_path: Path) -> None:
    lines = [f"W-{n}" for n in range(5_000)]
    assert len(listed(written(tmp_path, "\n".join(["mark", *lines])))) == 5_000
    (found,) = read_schedule(written(tmp_path, "\n".join(["mark", *lines, "W-x"])))
    assert isinstance(found, Problem)
    assert (found.code, found.facts) == ("schedule_too_long", {"limit": 5_000})


def test_a_file_of_ten_megabytes_is_looked_at_and_one_byte_more_is_not(tmp_path: Path) -> None:
    file = written(tmp_path, "mark;room\nW-1;")
    with file.open("ab") as grown:
        grown.truncate(10_000_000)
    assert "too_large" not in {code for _, _, code in problems(file)}
    with file.open("ab") as grown:
        grown.truncate(10_000_001)
    (found,) = read_schedule(file)
    assert isinstance(found, Problem)
    assert (found.code, found.facts) == ("too_large", {"bytes": 10_000_001, "limit": 10_000_000})


@pytest.mark.parametrize("cell", ["1,230.5", "1,230,5", "12e", "1 230 mm"])
def test_what_could_be_read_in_two_ways_is_no_number(tmp_path: Path, cell: str) -> None:
    assert problems(written(tmp_path, f"mark;width_mm\nW-1;{cell}\n")) == [(2, 2, "cell_not_a_number")]


def test_a_column_at_fault_is_named_by_its_place(tmp_path: Path) -> None:
    assert problems(written(tmp_path, "mark;;;widht_mm;room;room\nW-1;;;1230;;\n")) == [
        (1, 4, "unknown_column"),
        (1, 6, "repeated_column"),
    ]


def test_whole_numbers_of_a_workbook_are_text_without_a_decimal_point(tmp_path: Path) -> None:
    (one,) = listed(workbook(tmp_path, [["mark", "floor", "room"], [7.0, 2.5, 12]]))
    assert (one.mark, one.floor, one.room) == ("7", "2.5", "12")


def test_a_line_shorter_than_the_heading_leaves_the_rest_unknown(tmp_path: Path) -> None:
    (one,) = listed(written(tmp_path, "mark;room;width_mm\nW-1;kitchen\n"))
    assert (one.room, one.width_mm) == ("kitchen", None)


def test_the_delimiter_that_stands_most_often_in_the_heading_counts(tmp_path: Path) -> None:
    (one,) = listed(written(tmp_path, "mark;room;floor\nW-1;kitchen, pantry, and hall;2\n"))
    assert one.room == "kitchen, pantry, and hall"
