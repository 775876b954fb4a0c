"""Supports under the window's load points, and the plinth profile below it."""

from typing import Literal

from revealbook.records.fixing import Bead, FixingSet
from revealbook.records.part import Part, Section, entry
from revealbook.records.quantities import Count, DiameterMm, GapMm, LengthMm, Many, Mark, Moment, PositionMm


class Support(Part):
    """A short piece fixed to the wall under the bottom piece."""

    centre_mm: PositionMm | None = entry("Its middle, from the left end of the bottom piece, mm.", 390)
    length_mm: LengthMm | None = entry("Its length, mm.", 150)
    holes: Count | None = entry("Number of holes.", 2)
    hole_diameter_mm: DiameterMm | None = entry("Diameter of its holes, mm.", 8)
    beads: Bead | None = entry("Beads on its back.", {"number": 2, "continuous": True})
    gap_mm: GapMm | None = entry("Gap between it and the bottom piece, mm.", 0)
    fixed_to_wall: bool | None = entry("Fixed into the wall through every hole?", True)
    fixings: FixingSet | None = entry("The fixings used.", {"product": "frame-screw-7.5"})


class Supports(Section):
    """Supports, where the window's drawing calls for them."""

    called_for: bool | None = entry("Does the window's drawing call for supports?", True)
    load_points_mm: Many[PositionMm] | None = entry(
        "The window's load points, from the left end of the bottom piece, mm.", [390, 1000]
    )
    placed: Many[Support] | None = entry("Supports as placed; [] if none.", [{"centre_mm": 390}])


class PlinthJoint(Part):
    """A lengthwise joint of the plinth profile."""

    at_mm: PositionMm | None = entry("Position from its left end, mm.", 1200)
    bonded: bool | None = entry("Bonded?", True)


class Bracket(Part):
    """A bracket that carries the plinth profile or the mounting frame."""

    at_mm: PositionMm | None = entry("Position from the left end of the plinth profile, mm.", 200)
    screwed_to: Literal["plinth profile", "mounting frame"] | None = entry(
        "What it is screwed to, if it is screwed.", "mounting frame"
    )
    fixed_into: Literal["wall", "foundation"] | None = entry("What it is fixed into, if it is.", "foundation")
    screwed_to_profile: bool | None = entry("Screwed to the profile?", True)
    fixed_to_wall: bool | None = entry("Fixed into the wall?", True)
    fixings: FixingSet | None = entry("The fixings used.", {"product": "frame-screw-7.5"})


class Packers(Part):
    """What makes up missing height under the plinth profile."""

    height_needed_mm: GapMm | None = entry("Height to make up, mm; 0 if none.", 12)
    height_mm: GapMm | None = entry("Height of the packers set, mm.", 12)
    beside_fixings: bool | None = entry("One beside every fixing?", True)


Screws = Literal["self-drilling metal screws", "wood screws", "other", "none"]


class Plinth(Section):
    """The plinth or sill profile under the window."""

    used: bool | None = entry("Has this window a plinth profile?", True)
    product: Mark | None = entry("The profile: an id from products.profiles in site.yaml.", "plinth-profile")
    length_mm: LengthMm | None = entry("Its length, mm.", 1210)
    fitted_at: Moment | None = entry("When it was fitted to the window.", "2026-11-23T08:10+01:00")
    bonded_airtight: bool | None = entry("Bonded to the window without a gap over its length?", True)
    screws: Screws | None = entry("What it was screwed with.", "self-drilling metal screws")
    screw_positions_mm: Many[PositionMm] | None = entry("Where, from its left end, mm.", [100, 605, 1110])
    lengthwise_joints: Many[PlinthJoint] | None = entry("Lengthwise joints; [] if none.", [{"at_mm": 1200}])
    packers: Packers | None = entry("Packers under it.", {"height_needed_mm": 12, "height_mm": 12})
    brackets: Many[Bracket] | None = entry("Brackets to the wall.", [{"at_mm": 200}])
