"""The record of a re-measurement: what an inspector read again at one opening, each value in its place."""

from pathlib import Path

from revealbook.records.first_format import read_record
from revealbook.records.frame import Frame
from revealbook.records.part import Format, Part, entry, file_format, listed, required
from revealbook.records.products import Instrument
from revealbook.records.quantities import Many, Mark, Moment, Text
from revealbook.records.record import Sheet
from revealbook.records.seals import Seals
from revealbook.records.supports import Plinth, Supports
from revealbook.records.survey import Survey
from revealbook.records.window import Window
from revealbook.source.problem import Problem
from revealbook.source.validate import validate


class Readings(Part):
    """What was read again, by the sections and keys of the opening's record; left out is not read again."""

    survey: Survey | None = entry("The opening and its substrate.", {"widths_mm": {"top": 1232}})
    frame: Frame | None = entry("The mounting frame.", {"pieces": {"left": {"out_of_line_mm": 1}}})
    supports: Supports | None = entry("Supports, in the order of the record.", {"placed": [{"gap_mm": 0}]})
    plinth: Plinth | None = entry("The plinth profile.", {"length_mm": 1210})
    window: Window | None = entry("The window as set.", {"out_of_plumb_mm": 1.5})
    seals: Seals | None = entry(
        "Tapes and foam, in the order of the record.", {"events": [{"corner_overlap_mm": 50}]}
    )


class Remeasurement(Part):
    """One opening measured again by somebody who did not see the fitter's values."""

    format: Format = file_format()
    site: Mark = required("Id of the site, as in site.yaml.", "larch-court")
    mark: Mark = required("Mark of the opening.", "W-2.07")
    by: Mark | None = entry("Who measured: an id from people in site.yaml, or a name.", "cleo")
    at: Moment | None = entry("When.", "2026-11-24T10:00+01:00")
    instruments: Many[Instrument] = listed(
        "The inspector's own instruments; without their uncertainty no difference can be judged.",
        {"id": "tape-c", "measures": "length", "uncertainty": 0.5},
    )
    readings: Readings = required("What was read again.", {"window": {"out_of_plumb_mm": 1.5}})
    note: Text | None = entry("What else was seen.", "sill profile not yet fitted")


def load_remeasurement(path: Path) -> tuple[Remeasurement, Sheet] | tuple[Problem, ...]:
    """Read a re-measurement record; everything that keeps it from being used, if anything does."""
    document = read_record(path, str(path))
    if isinstance(document, Problem):
        return (document,)
    valid = validate(Remeasurement, document)
    return valid if isinstance(valid, tuple) else (valid, Sheet.of(document))
