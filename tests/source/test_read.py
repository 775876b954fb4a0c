from pathlib import Path
from typing import Any

import pytest

from revealbook.source.place import Place
from revealbook.source.problem import Problem
from revealbook.source.read import MAX_BYTES, MAX_DEPTH, Document, read, read_bytes


def read_text(text: str) -> Document | Problem:
    return read_bytes(text.encode(), "f.yaml")


def data_of(text: str) -> Any:
    document = read_text(text)
    assert isinstance(document, Document), document
    return document.data


def refused(text: str | bytes) -> tuple[str, int, int]:
    problem = read_bytes(text.encode() if isinstance(text, str) else text, "f.yaml")
    assert isinstance(problem, Problem), problem
    assert problem.place.file == "f.yaml"
    return problem.code, problem.place.line, problem.place.column


@pytest.mark.parametrize(
    ("text", "data"),
    [
        ("dry: no", {"dry": "no"}),
        ("dry: on\nsound: Yes", {"dry": "on", "sound": "Yes"}),
        ("at: 08:10", {"at": "08:10"}),
        ("a: true\nb: false\nc: null\nd:", {"a": True, "b": False, "c": None, "d": None}),
        ("day: 2026-11-20", {"day": "2026-11-20"}),
        ("x: .nan", {"x": ".nan"}),
        ("x: '12'", {"x": "12"}),
        ('x: "true"', {"x": "true"}),
        ("x: ''", {"x": ""}),
        ("note: |\n  two\n  lines\n", {"note": "two\nlines\n"}),
        ("note: >-\n  one\n  line\n", {"note": "one line"}),
        ("{at: 2026-11-20T10:00:00}", {"at": "2026-11-20T10:00:00"}),
        ("{b: x:y}", {"b": "x:y"}),
        ("k:\tx", {"k": "x"}),
        ("k: x # said", {"k": "x"}),
        ("k: x#7", {"k": "x#7"}),
        ("12: a\nno: b\ntrue: c", {"12": "a", "no": "b", "true": "c"}),
        ("<<: a", {"<<": "a"}),
        ("[1, [2, {a: b}]]", [1, [2, {"a": "b"}]]),
        ("a: []\nb: {}", {"a": [], "b": {}}),
        ("---\na: 1\n...\n", {"a": 1}),
        ("firm: Sill & Sons\nstar: 5*6\nend: done!", {"firm": "Sill & Sons", "star": "5*6", "end": "done!"}),
        ("\N{ZERO WIDTH NO-BREAK SPACE}a: 1", {"a": 1}),
        ("a: 1\r\nb: 2\r\n", {"a": 1, "b": 2}),
        ("a: Größe \N{FULL MOON SYMBOL}", {"a": "Größe \N{FULL MOON SYMBOL}"}),
    ],
)
def test_yaml_means_what_a_fitter_wrote(text: str, data: object) -> None:
    found = data_of(text)
    assert found == data
    assert repr(found) == repr(data)


@pytest.mark.parametrize(
    ("text", "code", "line", "column"),
    [
        ("a: 1\nb: 2\na: 3", "duplicate_key", 3, 1),
        ("x:\n  y: {a: 1, a: 2}", "duplicate_key", 2, 13),
        ("a:\n\tb: 1", "tab", 2, 1),
        ("\ta: 1", "tab", 1, 1),
        ("a: &x 1", "alias", 1, 4),
        ("a: &x [1]\nb: 1", "alias", 1, 4),
        ("a: *x", "alias", 1, 4),
        ("&x a: 1", "alias", 1, 1),
        ("a: 1\n*x : 2", "alias", 2, 1),
        ("a: !!str 5", "tag", 1, 4),
        ("a: !!python/object/apply:os.system [ls]", "tag", 1, 4),
        ("a: ! 5", "tag", 1, 4),
        ("!!str a: 5", "tag", 1, 1),
        ("--- !x\na: 1", "tag", 1, 5),
        ("a: 1\n---\nb: 2", "second_document", 2, 1),
        ("a: 1\n---\n", "second_document", 2, 1),
        ("? [a]\n: b", "key_not_text", 1, 3),
        ("? {a: 1}\n: b", "key_not_text", 1, 3),
        ("a: 'abc\nb: 1\n", "yaml_syntax", 3, 1),
        ('a: "abc', "yaml_syntax", 1, 8),
        ("a: b: c", "yaml_syntax", 1, 5),
        ("a: [1, 2\nb: 3", "yaml_syntax", 2, 2),
        ("a: @b", "yaml_syntax", 1, 4),
        ("a: 1\n  b: 2", "yaml_syntax", 2, 4),
        ("", "empty_file", 0, 0),
        ("# nothing yet\n", "empty_file", 0, 0),
        ("a: 1\nb: \x07", "control_character", 2, 0),
        ("é: ü\nx: \x00\n", "control_character", 2, 0),
        ("é" * 40 + ": 1\n\x01: 2\n\n\n", "control_character", 2, 0),
    ],
)
def test_what_could_surprise_is_refused_with_its_place(text: str, code: str, line: int, column: int) -> None:
    assert refused(text) == (code, line, column)


def test_a_duplicate_key_names_the_first_line() -> None:
    problem = read_text("x:\n  a: 1\n  b: 2\n  a: 3\n")
    assert isinstance(problem, Problem)
    assert problem.facts == {"key": "a", "first_line": 2}


def test_keys_that_differ_only_in_case_are_two() -> None:
    assert data_of("a: 1\nA: 2") == {"a": 1, "A": 2}


def test_text_that_is_not_utf8_is_refused_at_its_line() -> None:
    assert refused("a: 1\nb: Größe\n".encode("latin-1")) == ("not_utf8", 2, 0)


def test_utf16_is_refused() -> None:
    assert refused("a: 1".encode("utf-16"))[0] == "not_utf8"


def test_forty_levels_are_read_and_one_more_is_refused() -> None:
    deep = "[" * (MAX_DEPTH + 1) + "]" * (MAX_DEPTH + 1)
    assert isinstance(read_text(deep), Document)
    assert refused("[" + deep + "]") == ("too_deep", 1, MAX_DEPTH + 2)


def test_a_hundred_thousand_brackets_do_not_bring_the_reader_down() -> None:
    assert refused("[" * 100_000)[0] in {"too_deep", "yaml_syntax"}
    assert refused("{a: " * 100_000)[0] in {"too_deep", "yaml_syntax"}


def test_aliases_that_would_grow_without_end_are_refused_at_the_first_anchor() -> None:
    lines = ["a0: &a0 [x, x, x, x, x, x, x, x, x]"]
    lines += [f"a{n}: &a{n} [" + ", ".join([f"*a{n - 1}"] * 9) + "]" for n in range(1, 12)]
    assert refused("\n".join(lines)) == ("alias", 1, 5)


def test_an_alias_inside_its_own_anchor_is_refused() -> None:
    assert refused("a: &a [*a]")[0] == "alias"


def test_a_file_of_more_than_two_million_bytes_is_refused() -> None:
    body = b"a: 1\n#"
    assert isinstance(read_bytes(body.ljust(MAX_BYTES, b"x"), "f.yaml"), Document)
    problem = read_bytes(body.ljust(MAX_BYTES + 1, b"x"), "f.yaml")
    assert isinstance(problem, Problem)
    assert problem.code == "too_large"
    assert problem.facts["limit"] == MAX_BYTES


def test_a_file_is_read_from_disk_and_named_as_asked(tmp_path: Path) -> None:
    file = tmp_path / "W-2.07.yaml"
    file.write_text("a: 1\na: 2", encoding="utf-8")
    assert read(file, "openings/W-2.07.yaml") == Problem(
        Place("openings/W-2.07.yaml", 2, 1), "duplicate_key", {"key": "a", "first_line": 1}
    )


def test_a_huge_file_is_not_read_to_its_end(tmp_path: Path) -> None:
    file = tmp_path / "big.yaml"
    with file.open("wb") as opened:
        opened.truncate(50 * MAX_BYTES)
    problem = read(file, "big.yaml")
    assert isinstance(problem, Problem)
    assert problem.code == "too_large"


def test_a_file_that_is_not_there_is_a_problem_with_its_reason(tmp_path: Path) -> None:
    problem = read(tmp_path / "none.yaml", "none.yaml")
    assert isinstance(problem, Problem)
    assert problem.code == "unreadable"
    assert problem.facts["reason"]


def test_a_folder_in_place_of_a_file_is_a_problem(tmp_path: Path) -> None:
    problem = read(tmp_path, "openings")
    assert isinstance(problem, Problem)
    assert problem.code == "unreadable"


def test_a_list_at_the_root_is_read_and_left_to_the_model_to_refuse() -> None:
    assert data_of("- 1\n- 2") == [1, 2]


def test_a_null_document_is_nothing() -> None:
    assert data_of("---\n") is None
