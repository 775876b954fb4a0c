"""Records that join an opening after its pack was filed: a claim, and a repair.

They are files of their own, so that nothing filed is changed. Years later nobody is in site.yaml: people are
named freely, and products and instruments are told in full.
"""

from collections.abc import Mapping
from pathlib import Path
from typing import Annotated, Literal

from pydantic import Field, StringConstraints

from revealbook.records.first_format import read_record
from revealbook.records.part import Format, Part, Photo, entry, file_format, listed, required
from revealbook.records.products import Instrument
from revealbook.records.quantities import Day, Many, Mark, Moment, Text
from revealbook.records.record import Sheet
from revealbook.records.remeasurement import Readings
from revealbook.source.follow import at
from revealbook.source.problem import Problem
from revealbook.source.validate import validate

AfterwardsId = Annotated[
    str, StringConstraints(pattern=r"^[A-Za-z0-9]([A-Za-z0-9._+-]*[A-Za-z0-9_+-])?$", max_length=60)
]
"""The name of a later record; it becomes a file's name, so it holds no slash or blank."""
VersionNumber = Annotated[int, Field(ge=1, le=100_000)]


class ProductUsed(Part):
    """A product in a later record, told in full."""

    name: Text = required("Name on the label.", "Example Frame Bond")
    batch: Text | None = entry("Batch on the label.", "0931")
    expires: Day | None = entry("Last day of use on the label.", "2037-05-31")
    data_sheet: Text | None = entry("Data sheet and its date.", "technical sheet 2036-01")
    used_for: Text | None = entry("Where and for what.", "left corner joint sealed again")
    data: Text | None = entry(
        "Figures of its data sheet that matter.", "not below 5 degC; cures 3 mm in 24 h"
    )


class Afterwards(Part):
    """What a claim and a repair have in common."""

    format: Format = file_format()
    id: AfterwardsId = required(
        "Its own id, once per site; the archive's file is called after it.", "claim-2036-1"
    )
    site: Mark = required("Id of the site, as in site.yaml.", "larch-court")
    mark: Mark = required("Mark of the opening.", "W-2.07")
    at: Moment = required("When it was found or done.", "2036-02-11T10:30+01:00")
    by: Text = required("Who found or did it: a name, and for whom.", "Edda Blendrahmen, caretaker")
    cause: Text | None = entry(
        "The cause, if it is known, and how it is known.", "outer tape loose at the corner"
    )
    products: Many[ProductUsed] = listed(
        "Products found or used.", {"name": "Example Frame Bond", "batch": "0931"}
    )
    instruments: Many[Instrument] = listed(
        "Instruments used, with their uncertainty.",
        {"id": "tape-c", "measures": "length", "uncertainty": 0.5},
    )
    readings: Readings | None = entry(
        "Readings, by the sections and keys of the opening's record.", {"window": {"out_of_plumb_mm": 1.5}}
    )
    photos: Many[Photo] = listed(
        "Photographs.", {"file": "claim-2036-1-sill.jpg", "shows": "stain below the sill"}
    )
    refers_to: Many[AfterwardsId] = listed(
        "Ids of other later records that this one is about.", "claim-2036-1"
    )
    versions: Many[VersionNumber] = listed(
        "Versions of the site's record that existed then, as `revealbook history` lists them.", 1
    )
    note: Text | None = entry("Anything else worth knowing.", "tenant was present")


class Claim(Afterwards):
    """Somebody says, after the handover, that something is wrong at an opening."""

    kind: Literal["claim"] = required("What this record is.", "claim")
    found: Text = required("What was found.", "water on the sill board at the left after driving rain")


class Repair(Afterwards):
    """What was done at an opening after the handover."""

    kind: Literal["repair"] = required("What this record is.", "repair")
    done: Text = required("What was done.", "outer tape replaced at the left jamb and lower corner")


KINDS: Mapping[str, type[Claim | Repair]] = {"claim": Claim, "repair": Repair}
"""Models by the word that a file says of itself."""


def load_afterwards(path: Path) -> tuple[Claim | Repair, Sheet] | tuple[Problem, ...]:
    """Read a claim or a repair; everything that keeps it from being used, if anything does.

    Args:
        path: the file.
    """
    document = read_record(path, str(path))
    if isinstance(document, Problem):
        return (document,)
    kind = document.data.get("kind") if isinstance(document.data, dict) else None
    if isinstance(kind, str) and kind not in KINDS:
        place = at(document.marks, ("kind",), document.file)
        return (
            Problem(place, "not_one_of", {"key": "kind", "value": kind, "expected": "'claim' or 'repair'"}),
        )
    valid = validate(KINDS[kind] if isinstance(kind, str) else Claim, document)
    return valid if isinstance(valid, tuple) else (valid, Sheet.of(document))
