"""The mounting frame: its four pieces, their joints, the adhesive and the fixings."""

from typing import Literal, get_args

from revealbook.records.bonding import Application
from revealbook.records.fixing import Bead, FixingSet
from revealbook.records.part import Part, Section, entry
from revealbook.records.quantities import (
    DeviationMm,
    DiameterMm,
    GapMm,
    LengthMm,
    Many,
    Mark,
    Moment,
    OffsetMm,
    PositionMm,
)

Seating = Literal["pressed and shifted", "pressed", "set without moving"]
PieceName = Literal["bottom", "left", "right", "top"]
PIECES: tuple[str, ...] = get_args(PieceName)
FixingOrder = Literal["one end first", "all at once", "from the middle"]


class LengthwiseJoint(Part):
    """A place where a piece is made of two lengths."""

    at_mm: PositionMm | None = entry("Position along the piece, from its left or lower end, mm.", 1500)
    bonded: bool | None = entry("Bonded?", True)
    screwed: bool | None = entry("Screwed?", True)
    sealed: bool | None = entry("Sealed?", True)


class FramePiece(Part):
    """One profile of the mounting frame."""

    profile: Mark | None = entry("The profile: an id from products.profiles in site.yaml.", "frame-profile")
    length_mm: LengthMm | None = entry("Length as cut, mm.", 1390)
    overlap_left_mm: OffsetMm | None = entry(
        "How far it runs past the opening on the left, mm (bottom and top piece).", 80
    )
    overlap_right_mm: OffsetMm | None = entry("How far it runs past on the right, mm.", 80)
    cut_out_of_square_mm: DeviationMm | None = entry(
        "Largest gap between its ends and a try square, mm.", 0.5
    )
    hole_diameter_mm: DiameterMm | None = entry("Diameter of the holes in the piece, mm.", 8)
    holes_mm: Many[PositionMm] | None = entry(
        "Positions of all holes, from the left or lower end, mm.", [180, 695, 1210]
    )
    lengthwise_joints: Many[LengthwiseJoint] | None = entry(
        "Places where the piece is joined lengthwise; [] if it is in one length.",
        [{"at_mm": 1500, "bonded": True, "screwed": True, "sealed": True}],
    )
    beads: Bead | None = entry("Beads on its back.", {"number": 2, "continuous": True})
    seating: Seating | None = entry("How it was brought into full contact.", "pressed and shifted")
    fixing_order: FixingOrder | None = entry("In which order it was fixed.", "one end first")
    checked_before_fixing: bool | None = entry(
        "Was level or plumb checked after the first end was fixed and before the rest?", True
    )
    out_of_line_mm: DeviationMm | None = entry(
        "Out of level (bottom, top) or out of plumb (sides) over its length, mm.", 1
    )
    fixings: Many[FixingSet] | None = entry(
        "Fixings as set in its holes.", [{"at_mm": [180, 695, 1210], "product": "frame-screw-7.5"}]
    )


class Pieces(Part):
    """The four pieces, named as seen from outside."""

    bottom: FramePiece | None = entry("The bottom piece.", {"length_mm": 1390})
    left: FramePiece | None = entry("The left side piece.", {"length_mm": 1480})
    right: FramePiece | None = entry("The right side piece.", {"length_mm": 1480})
    top: FramePiece | None = entry("The top piece.", {"length_mm": 1390})


class Joint(Part):
    """Where two pieces meet, or where a piece ends."""

    bead: bool | None = entry("Is there a bead between the two pieces (corner joints)?", True)
    gap_mm: GapMm | None = entry("Gap left between them, mm.", 0.5)
    sealed: bool | None = entry("Is it sealed?", True)


class FourJoints(Part):
    """The four corners of the frame, as seen from outside."""

    bottom_left: Joint | None = entry("Bottom left.", {"bead": True, "sealed": True})
    bottom_right: Joint | None = entry("Bottom right.", {"bead": True, "sealed": True})
    top_left: Joint | None = entry("Top left.", {"bead": True, "sealed": True})
    top_right: Joint | None = entry("Top right.", {"bead": True, "sealed": True})


class Frame(Section):
    """The mounting frame as fixed."""

    pieces: Pieces | None = entry("The four pieces.", {"bottom": {"length_mm": 1390}})
    corners: FourJoints | None = entry("Corner joints between the pieces.", {"bottom_left": {"sealed": True}})
    ends: FourJoints | None = entry("Ends of the bottom and top piece.", {"bottom_left": {"sealed": True}})
    insulation_follows_at_once: bool | None = entry(
        "Does the outside insulation follow at once above the top piece?", False
    )
    top_edge_sealed: bool | None = entry("Is the upper edge of the top piece sealed to the wall?", True)
    order: Many[PieceName] | None = entry(
        "The pieces in the order in which they went on.", ["bottom", "left", "right", "top"]
    )
    span_over_sides_mm: LengthMm | None = entry(
        "From outer edge to outer edge of the side pieces, measured at their upper ends, mm.", 1362
    )
    bonding: Many[Application] | None = entry(
        "Applications of adhesive, with the weather of each.",
        [{"of": ["bottom", "left", "right", "top"], "product": "frame-bond"}],
    )
    screwed_at: Moment | None = entry("When the last fixing of its pieces was set.", "2026-11-20T10:30+01:00")
    protected_until_covered: bool | None = entry(
        "Are the overlaps and the frame protected against weather and knocks until covered?", True
    )
