from pathlib import Path

import pytest

from revealbook.records.remeasurement import Readings, Remeasurement, load_remeasurement
from revealbook.source.problem import Problem

GOOD = """\
site: alder-yard
mark: W-1.01
by: cleo
at: 2026-11-24T10:00+01:00
instruments:
  - id: tape-c
    measures: length
    uncertainty: 0.5
readings:
  window:
    out_of_plumb_mm: 1.5
    joint_widths_mm:
      left:
        start:
"""


def load(tmp_path: Path, text: str) -> object:
    file = tmp_path / "again.yaml"
    file.write_text(text, encoding="utf-8")
    return load_remeasurement(file)


def test_what_is_left_empty_was_not_read_again(tmp_path: Path) -> None:
    loaded = load(tmp_path, GOOD)
    assert isinstance(loaded, tuple)
    read, sheet = loaded
    assert isinstance(read, Remeasurement)
    assert read.readings.window is not None
    assert read.readings.window.out_of_plumb_mm == 1.5
    assert read.readings.window.joint_widths_mm is not None
    assert read.readings.window.joint_widths_mm.left is not None
    assert read.readings.window.joint_widths_mm.left.start is None
    assert read.readings.frame is None
    assert sheet.place(("readings", "window", "out_of_plumb_mm")).line == 11


@pytest.mark.parametrize(
    ("old", "new", "code"),
    [
        ("mark: W-1.01\n", "", "missing_key"),
        ("out_of_plumb_mm", "out_of_plumb", "unknown_key"),
        ("out_of_plumb_mm: 1.5", "out_of_plumb_mm: straight", "not_a_number"),
        ("2026-11-24T10:00+01:00", "2026-11-24T10:00", "time_without_zone"),
        ("uncertainty: 0.5", "uncertainty:", "not_a_number"),
    ],
)
def test_what_cannot_be_used_is_said_with_its_place(tmp_path: Path, old: str, new: str, code: str) -> None:
    loaded = load(tmp_path, GOOD.replace(old, new))
    assert isinstance(loaded, tuple)
    (problem,) = loaded
    assert isinstance(problem, Problem)
    assert problem.code == code


def test_a_file_that_is_not_there_is_said(tmp_path: Path) -> None:
    problem, *_ = load_remeasurement(tmp_path / "nowhere.yaml")
    assert isinstance(problem, Problem)
    assert problem.code == "unreadable"


def test_every_section_of_the_work_can_be_read_again() -> None:
    assert set(Readings.model_fields) == {"survey", "frame", "supports", "plinth", "window", "seals"}
