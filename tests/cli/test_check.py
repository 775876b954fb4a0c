import json
import re
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from tests.cli.terminal import process, run
from tests.site_folders import (
    CONFORMING,
    EARLY_TRIM,
    NOT_SOUND,
    RECORD,
    SHORT_OVERLAP,
    change,
    conforming,
    opening,
)

from revealbook.cli.check import Asked
from revealbook.cli.check import run as check

LINE = re.compile(r"[^:]+(:\d+){0,2}: \S.*[.?]")
"""`file:line:column: sentence`, as an editor can follow it."""
NO_SITE = "There is no site.yaml in this folder; is it a site folder? “revealbook begin FOLDER” makes one."
NEARLY = ("length_mm: 2565\n      overlap_left_mm: 82\n", "length_mm: 2565\n      overlap_left_mm: 80.5\n")
CONCESSION = ("- rule: wall-plumb\n", "- rule: frame-overlap\n")


@pytest.fixture
def site(tmp_path: Path) -> Path:
    """Five openings: one of each outcome that an opening can have, and one accepted by concession."""
    folder = conforming(tmp_path / "yard")
    opening(folder, "A-1", SHORT_OVERLAP, EARLY_TRIM)
    opening(folder, "A-2", SHORT_OVERLAP, CONCESSION)
    opening(folder, "B-1", NEARLY)
    opening(folder, "B-2", NOT_SOUND)
    return folder


@pytest.mark.parametrize(
    ("name", "arguments", "status"),
    [
        ("check.txt", (), 1),
        ("check-open.txt", ("--open",), 1),
        ("check-one.txt", ("--opening", "W-1.01"), 0),
    ],
)
def test_the_whole_output(
    site: Path, golden: Callable[[str, str], None], name: str, arguments: tuple[str, ...], status: int
) -> None:
    told = run("check", site, *arguments)
    golden(name, told.out)
    assert (told.status, told.err) == (status, "")
    assert max(map(len, told.out.splitlines())) <= 80


def test_problems_go_to_the_error_stream_after_the_table_and_give_status_2(
    site: Path, golden: Callable[[str, str], None]
) -> None:
    opening(site, "C-1", ("  moisture_pct: 3.1\n", "  moisture_pct: 3,1\n  moist: 3\n"))
    change(site / RECORD, "  by: ada\n  used: true\n", "  by: zoe\n  used: true\n")
    told = run("check", site)
    golden("check-problems.txt", told.err)
    assert told.status == 2
    assert "A-1" in told.out
    assert "W-1.01" not in told.out


@pytest.mark.parametrize(
    ("changes", "arguments", "status"),
    [
        ((), (), 0),
        ((), ("--strict",), 0),
        ((NOT_SOUND,), (), 0),
        ((NOT_SOUND,), ("--strict",), 1),
        ((NEARLY,), (), 0),
        ((NEARLY,), ("--strict",), 1),
        ((SHORT_OVERLAP,), (), 1),
    ],
)
def test_the_status_says_how_it_stands(
    tmp_path: Path, changes: tuple[tuple[str, str], ...], arguments: tuple[str, ...], status: int
) -> None:
    folder = conforming(tmp_path / "s")
    for old, new in changes:
        change(folder / RECORD, old, new)
    assert run("check", folder, *arguments).status == status


def test_a_site_without_openings_fails_only_a_strict_check(tmp_path: Path) -> None:
    folder = conforming(tmp_path / "s")
    (folder / RECORD).unlink()
    assert run("check", folder).status == 0
    assert "No opening was recorded." in run("check", folder).out
    assert run("check", folder, "--strict").status == 1


def test_only_the_openings_asked_for_are_judged(site: Path) -> None:
    told = run("check", site, "--opening", "B-2", "--opening", "W-1.01")
    rows = [line.split()[0] for line in told.out.splitlines() if line.startswith(("A-", "B-", "W-"))]
    assert rows == ["B-2", "W-1.01"]
    assert told.status == 0


def test_an_unknown_opening_suggests_the_nearest(site: Path) -> None:
    told = run("check", site, "--opening", "W-1.1", "--opening", "Q")
    assert (
        told.err
        == "No readable opening is called W-1.1. Did you mean W-1.01?\nNo readable opening is called Q.\n"
    )
    assert told.status == 2


def test_json_holds_the_same_counts_as_the_table(site: Path) -> None:
    table = run("check", site)
    told = run("check", site, "--format", "json")
    said = json.loads(told.out)
    assert (told.status, told.err) == (1, "")
    rows = {line.split()[0]: line for line in table.out.splitlines() if line.startswith(("A-", "B-", "W-"))}
    assert set(rows) == {one["mark"] for one in said["openings"]}
    for one in said["openings"]:
        numbers = re.findall(r"(?<= )(\d+|·)(?= )", rows[one["mark"]])[:5]
        outcomes = ("conforms", "does not conform", "undecided", "not shown", "does not apply")
        assert numbers == [str(one["counts"].get(outcome, "·")) for outcome in outcomes]
    assert said["problems"] == []


def test_json_holds_the_problems_too(site: Path) -> None:
    (site / RECORD).write_text("opening: {mark: W-1.01, colour: red}\n", encoding="utf-8")
    told = run("check", site, "--format", "json")
    (problem,) = json.loads(told.out)["problems"]
    assert (problem["file"], problem["line"], problem["code"]) == ("openings/W-1.01.yaml", 1, "unknown_key")
    assert problem["says"].startswith("openings/W-1.01.yaml:1:25: “colour” is not known here.")
    assert told.status == 2


def test_json_is_json_when_nothing_could_be_judged(tmp_path: Path) -> None:
    told = run("check", tmp_path, "--format", "json")
    assert [problem["code"] for problem in json.loads(told.out)["problems"]] == ["no_site_file"]
    assert told.status == 2


@pytest.mark.parametrize(
    ("folder", "words"),
    [
        ("nowhere", "nowhere: There is no such folder."),
        ("empty", f"empty: {NO_SITE}"),
        ("odd", f"odd: {NO_SITE}"),
    ],
)
def test_what_is_no_site_folder_is_told(tmp_path: Path, folder: str, words: str) -> None:
    (tmp_path / "empty").mkdir()
    (tmp_path / "odd" / "site.yaml").mkdir(parents=True)
    told = run("check", folder, cwd=tmp_path)
    assert (told.status, told.out) == (2, "")
    assert told.err.splitlines()[0] == words


def test_a_record_that_vanishes_into_a_folder_is_no_record(tmp_path: Path) -> None:
    folder = conforming(tmp_path / "s")
    (folder / "openings" / "A-1.yaml").mkdir()
    assert run("check", folder).status == 0


def test_marks_outcomes_and_counts_are_never_cut(tmp_path: Path) -> None:
    folder = conforming(tmp_path / "s")
    mark = "House-West.Staircase-2.Window-" + "7" * 28
    opening(folder, mark, SHORT_OVERLAP)
    told = run("check", folder)
    table = told.out.split("● conforms   ■")[0]
    assert mark in "".join(line.split(" ")[0] for line in table.splitlines())
    assert "■ does not conform" in table
    assert max(map(len, table.splitlines())) <= 80


def test_what_steers_a_terminal_is_not_passed_on_from_a_record(tmp_path: Path) -> None:
    folder = conforming(tmp_path / "s")
    room = ("  room: workshop kitchen\n", '  room: "\\e[2J[bold]x"\n')
    reason = ("    reason: accepted until", '    reason: "\\e[31m[red]gone"\n    # accepted until')
    opening(folder, "A-1", SHORT_OVERLAP, CONCESSION, room, reason)
    told = run("check", folder)
    assert "\x1b" not in told.out + told.err
    assert "[bold]x" in told.out
    assert "[red]gone" in told.out


def test_no_colour_and_no_progress_where_there_is_no_terminal(site: Path) -> None:
    told = process("check", site)
    assert told.status == 1
    assert "\x1b" not in told.out + told.err
    assert told.err == ""


def test_a_terminal_that_lacks_a_sign_gets_another_one(site: Path) -> None:
    told = run("check", site, encoding="ascii")
    assert told.status == 1
    assert "? does not conform" in told.out


def loaded_by_checking(site: Path) -> list[str]:
    """The packages that take long to load and that a check of the site has loaded."""
    heavy = [
        "weasyprint",
        "jinja2",
        "scipy",
        "numpy",
        "PIL",
        "pi_heif",
        "fontTools",
        "jsonschema",
        "openpyxl",
    ]
    program = (
        "import sys; from pathlib import Path; from revealbook.cli.check import Asked, run; "
        f"run(Path({str(site)!r}), Asked()); print(*(name for name in {heavy} if name in sys.modules))"
    )
    done = subprocess.run([sys.executable, "-c", program], capture_output=True, text=True, check=True)
    return done.stdout.splitlines()[-1].split()


def test_checking_loads_neither_typesetter_nor_numerics_and_a_decoder_only_for_photographs(
    site: Path,
) -> None:
    assert loaded_by_checking(CONFORMING) == ["PIL"]
    for photo in (site / "photos").iterdir():
        photo.unlink()
    assert loaded_by_checking(site) == []


def test_the_command_can_be_used_without_its_parser(site: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert check(site, Asked(openings=("W-1.01",), json=True)) == 0
    assert json.loads(capsys.readouterr().out)["outcome"] == "conforms"


QUICK = settings(max_examples=60, deadline=None, suppress_health_check=list(HealthCheck))


def refused(folder: Path, file: str) -> None:
    told = run("check", folder)
    lines = told.err.splitlines()
    assert told.status == 2
    assert lines
    assert all(LINE.fullmatch(line) for line in lines[:-1]), lines
    assert any(line.startswith(file) for line in lines)


@pytest.mark.slow
@given(
    st.one_of(st.binary(max_size=60), st.text(max_size=60).map(lambda text: text.encode("utf-8", "replace")))
)
@QUICK
def test_any_bytes_as_a_site_file_or_record_are_refused_in_plain_sentences(
    tmp_path: Path, raw: bytes
) -> None:
    folder = tmp_path / "s"
    if not folder.exists():
        conforming(folder)
    (folder / "site.yaml").write_bytes(raw)
    refused(folder, "site.yaml")
    (folder / "site.yaml").write_bytes((CONFORMING / "site.yaml").read_bytes())
    (folder / RECORD).write_bytes(raw)
    refused(folder, "openings/W-1.01.yaml")


LINES = (CONFORMING / RECORD).read_text(encoding="utf-8").splitlines(keepends=True)
SCALARS = st.sampled_from(
    ["", "null", "true", "0", "-1", "1e9", ".nan", "9999-12-31T23:59+00:00", "0001-01-01T00:00+00:00", "[]",
     "{}", "[1, 2]", "x", "{a: 1}", "2026-11-20", "80", "99.9"]
)  # fmt: skip


@pytest.mark.slow
@given(
    st.lists(st.tuples(st.integers(0, len(LINES) - 1), SCALARS), max_size=4), st.integers(0, len(LINES) - 1)
)
@QUICK
def test_no_change_to_a_record_brings_the_check_down(
    tmp_path: Path, changes: list[tuple[int, str]], dropped: int
) -> None:
    folder = tmp_path / "s"
    if not folder.exists():
        conforming(folder)
    lines = [*LINES]
    for number, scalar in changes:
        lines[number] = re.sub(r"(: )[^\n{\[]+$", rf"\g<1>{scalar}", lines[number])
    del lines[dropped]
    (folder / RECORD).write_text("".join(lines), encoding="utf-8")
    assert run("check", folder, "--open").status in {0, 1, 2}


EVENING = (
    (
        "covering: {at: 2026-11-23T08:10+01:00, by: dov}\n",
        "",
    ),
    (
        "  - {role: clerk of works, by: cleo, at: 2026-11-23T07:45+01:00}\n",
        "",
    ),
    (
        "  - {name: before covering, at: 2026-11-23T07:40+01:00, by: cleo, passed: true}\n",
        "",
    ),
    (
        "    - step: outer tape\n      at: 2026-11-20T15:50+01:00\n",
        "    - step: trim\n      at: 2026-11-20T15:50+01:00\n",
    ),
)


def test_an_opening_between_foam_and_outer_tape_is_in_progress_and_says_in_which_stage(
    tmp_path: Path,
) -> None:
    folder = conforming(tmp_path / "yard")
    opening(folder, "E-1", *EVENING)
    told = run("check", folder)
    assert told.status == 0
    (row,) = (line for line in told.out.splitlines() if line.startswith("E-1"))
    assert "not yet due" in row
    assert "Seals" in row
    assert "◌ not yet due" in told.out
    assert "1 of 2 openings is in progress" in told.out
    assert "not yet due; --open" in told.out
    listed = run("check", folder, "--open", "--opening", "E-1").out
    assert "◌ E-1  Seals: " in listed
    assert "foam-closed-both-sides" in listed
    assert listed.count("Nothing is missed yet.") == 1
    assert "■" not in listed.split("\n\n", 1)[1]
