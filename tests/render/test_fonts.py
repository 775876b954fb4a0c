import os
import subprocess
from pathlib import Path

import pytest

from revealbook.render.fonts import FACES, characters, coverage, face_files, showable, use_own_fonts_only


def test_every_face_is_a_file() -> None:
    assert len(face_files()) == len(FACES) == 8
    assert all(file.is_file() for file in face_files())


@pytest.mark.parametrize(
    "text",
    ["Ø 8 ± 0,5 mm", "≤ ≥ ≠ ≈ · — … °C m² ₂ µ Ω \u00d7 \u2212 \u2013", "ÄÖÜäöüß éèç łřůőş", "Жёлтый Αθήνα"],
)
def test_what_the_trade_writes_can_be_shown(text: str) -> None:
    assert coverage(text) == ()
    assert showable(text) == text


def test_what_cannot_be_shown_is_named_once_in_order() -> None:
    assert coverage("ab\U0001f600漢漢✔") == ("✔", "漢", "\U0001f600")


def test_what_cannot_be_shown_is_written_out_not_dropped() -> None:
    assert showable("a漢b\U0001f600") == "a[U+6F22]b[U+1F600]"


@pytest.mark.parametrize(
    "text", ["a\nb\tc\r", "soft\u00adhyphen", "no\u200bbreak", "joi\u200dner", "\u00a0\u202f\u2009\u2003"]
)
def test_invisible_characters_need_no_glyph(text: str) -> None:
    assert coverage(text) == ()


@pytest.mark.parametrize("text", ["\x00", "\x07", "\x1b", "\ufffd", "\ue000"])
def test_control_and_stray_characters_cannot_be_shown(text: str) -> None:
    assert coverage(text) == (text,)


def test_hyphens_that_look_alike_become_the_one_the_typeface_has() -> None:
    assert coverage("a\u2010b\u2011c") == ()
    assert showable("a\u2010b\u2011c") == "a-b-\u2060c"


def test_marks_that_pattern_matching_knows_are_plain_characters() -> None:
    assert coverage("[]^-\\.*+?(){}|$") == ()


def test_characters_are_those_that_every_face_has() -> None:
    assert {ord("A"), ord("ß"), ord("≤")} <= characters()
    assert ord("漢") not in characters()


def test_the_machine_s_own_fonts_are_out_of_reach(tmp_path: Path) -> None:
    configuration = use_own_fonts_only()
    assert os.environ["FONTCONFIG_FILE"] == str(configuration)
    assert configuration == use_own_fonts_only(), "written once"
    listed = subprocess.run(["fc-list", ":", "file"], capture_output=True, text=True, check=True).stdout
    assert sorted(Path(line.rstrip(": ")) for line in listed.splitlines()) == sorted(face_files())
