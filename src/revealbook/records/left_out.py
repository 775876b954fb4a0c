"""What an opening leaves out, stated with a reason by somebody who may."""

from typing import Literal

from revealbook.records.part import Part, entry, required
from revealbook.records.quantities import Mark, Moment, Text

What = Literal[
    "bottom piece",
    "left piece",
    "right piece",
    "top piece",
    "mounting frame",
    "bonding",
    "opening function",
    "something else",
]


class LeftOut(Part):
    """Something that other openings have and this one does not; nothing of it is recorded then."""

    what: What = required("What is left out.", "top piece")
    reason: Text | None = entry("Why.", "the shutter box stands there")
    basis: Literal["drawing", "supplier", "client"] | None = entry("On whose word.", "drawing")
    document: Text | None = entry("The document that says so.", "A-402 rev C")
    by: Mark | None = entry("Who states it: an id from people in site.yaml.", "cleo")
    at: Moment | None = entry("When.", "2026-11-18T10:00+01:00")
