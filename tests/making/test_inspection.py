import io
import json
from datetime import datetime
from pathlib import Path

import pikepdf
from tests.present.judging import site

from revealbook.inspection.draw import Chosen
from revealbook.inspection.sample import read_sample, sample_site
from revealbook.making.inspection import make_comparison, make_inspection_sheets, sample_json

MADE = datetime.fromisoformat("2026-11-18T09:00+01:00")
SITE = site({mark: {} for mark in ("W-1", "W-2", "W-3", "W-4")})
SAMPLE = sample_site(SITE, "6.5", 1, (), Chosen())


def test_the_sheets_carry_the_sample_that_can_be_drawn_again(tmp_path: Path) -> None:
    sheets = make_inspection_sheets(SITE, SAMPLE, tmp_path, MADE)
    with pikepdf.open(io.BytesIO(sheets.pdf)) as pdf:
        carried = pdf.attachments["sample.json"].get_file().read_bytes()
    assert carried == sample_json(SAMPLE)
    assert read_sample(json.loads(carried)) == SAMPLE
    assert sheets.warnings == ()
    assert sheets.pages > 1 + len(SAMPLE.drawn)


def test_a_comparison_without_openings_is_a_page(tmp_path: Path) -> None:
    assert make_comparison(SITE, (), None, tmp_path, MADE).pages == 1
