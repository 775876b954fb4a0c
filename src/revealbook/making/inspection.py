"""What the clerk's desk prints: inspection sheets, and what a comparison found."""

import json
from datetime import datetime
from pathlib import Path

from revealbook.inspection.compare import OpeningCompared
from revealbook.inspection.lot_result import LotResult
from revealbook.inspection.sample import Sample, data
from revealbook.making.sheets import Sheets, look_of, render_sheets
from revealbook.present.compared import comparison
from revealbook.present.inspection_sheet import inspection_sheets
from revealbook.present.words import N_, words_in
from revealbook.render.embed import Attachment
from revealbook.rules.judged import JudgedSite

SAMPLE_FILE = "sample.json"


def make_inspection_sheets(
    judged: JudgedSite, sample: Sample, path: Path, made: datetime, *, blind: bool = True
) -> Sheets:
    """Render the inspection sheets of a sample; the sample itself is carried inside the PDF.

    Args:
        judged: the site.
        sample: what was drawn from it.
        path: its folder, for its own templates.
        made: the date that the sheets carry.
        blind: leave the fitter's values out.

    Raises:
        RenderFailed: a template is wrong or asks for what is not there.
    """
    site = judged.site.site
    words = words_in(site.language)
    shown: dict[str, object] = {"inspection": inspection_sheets(judged, sample, made, words, blind=blind)}
    carried = Attachment(
        SAMPLE_FILE,
        sample_json(sample),
        words.say(N_("the sample as drawn")),
        "application/json",
        "Data",
        made,
    )
    return render_sheets("inspection.html", shown, look_of(site, path), made, carried=(carried,))


def make_comparison(
    judged: JudgedSite,
    compared: tuple[OpeningCompared, ...],
    lot: LotResult | None,
    path: Path,
    made: datetime,
) -> Sheets:
    """Render what a comparison found; path, date and errors as `make_inspection_sheets`."""
    site = judged.site.site
    shown: dict[str, object] = {"comparison": comparison(judged, compared, lot, words_in(site.language))}
    return render_sheets("compared.html", shown, look_of(site, path), made)


def sample_json(sample: Sample) -> bytes:
    """Write a sample as the file that `compare` reads."""
    return (json.dumps(data(sample), ensure_ascii=False, indent=1) + "\n").encode()
