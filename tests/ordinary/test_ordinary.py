"""Ordinary openings are judged as an experienced fitter would, word by word, and all of them make a pack.

openings/<mark>.yaml says what an opening changes in the conforming record, and what is expected: every rule
that does not simply conform or does not apply, and the rules that the opening is about.
"""

import json
import shutil
from pathlib import Path

import pytest
from tests.ordinary.ordinary import FILES, SETTLED, Told, record_and_site, told
from tests.rules.changes import CONFORMING, plain

from revealbook.api import check, pack


def test_there_are_two_dozen() -> None:
    assert len(FILES) >= 24
    assert len({plain(file)["about"] for file in FILES}) == len(FILES)


@pytest.mark.parametrize("file", FILES, ids=lambda file: file.stem)
def test_an_ordinary_opening_is_judged_as_a_fitter_would(file: Path) -> None:
    expected = {rule: Told(*found) for rule, found in plain(file)["expected"].items()}
    settled = {str(outcome) for outcome in SETTLED}
    open_ones = {rule: found for rule, found in told(file).items() if found.outcome not in settled}
    about = {rule: found for rule, found in told(file).items() if rule in expected}
    assert {**open_ones, **about} == expected


@pytest.mark.slow
def test_all_of_them_make_a_pack(tmp_path: Path) -> None:
    records, site = record_and_site(FILES)
    (tmp_path / "openings").mkdir()
    shutil.copytree(CONFORMING / "photos", tmp_path / "photos")
    (tmp_path / "site.yaml").write_text(json.dumps(site), encoding="utf-8")
    for mark, record in records.items():
        (tmp_path / "openings" / f"{mark}.yaml").write_text(json.dumps(record), encoding="utf-8")
    checked = check(tmp_path)
    assert checked.problems == ()
    assert checked.judged is not None
    assert len(checked.judged.openings) == len(FILES)
    packed = pack(checked.judged, tmp_path, tmp_path / "cache")
    assert not isinstance(packed, tuple), packed
    assert packed.pdf.startswith(b"%PDF")
