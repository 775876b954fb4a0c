"""The mounting frame: its four pieces, their joints, the adhesive and the fixings."""

from typing import Literal

from revealbook.records.fixing import Bead, FixingSet
from revealbook.records.part import Part, Section, entry
from revealbook.records.quantities import (
    Count,
    Day,
    DeviationMm,
    DiameterMm,
    GapMm,
    HumidityPct,
    LengthMm,
    Many,
    Mark,
    Moment,
    OffsetMm,
    PositionMm,
    TemperatureC,
    VolumeMl,
)

Seating = Literal["pressed and shifted", "pressed", "set without moving"]
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


class Bonding(Part):
    """The adhesive: what, from which batch, in what weather, how much."""

    product: Mark | None = entry("The adhesive: an id from products.adhesives in site.yaml.", "frame-bond")
    batch: Mark | None = entry("Batch number as printed on the cartridge.", "0412")
    expires: Day | None = entry("Use-by date as printed.", "2027-03-31")
    at: Moment | None = entry("When the first bead was laid.", "2026-11-20T09:20+01:00")
    pressed_at: Moment | None = entry("When the last piece was pressed on.", "2026-11-20T09:45+01:00")
    air_c: TemperatureC | None = entry("Air temperature, degC.", 8.5)
    rh_pct: HumidityPct | None = entry("Relative humidity of the air, %.", 72)
    surface_c: TemperatureC | None = entry("Temperature of the substrate's surface, degC.", 7.9)
    used_ml: VolumeMl | None = entry("Adhesive used for this opening, ml.", 620)
    cartridges: Count | None = entry("Cartridges emptied for this opening.", 2)


class Frame(Section):
    """The mounting frame as fixed."""

    pieces: Pieces | None = entry("The four pieces.", {"bottom": {"length_mm": 1390}})
    corners: FourJoints | None = entry("Corner joints between the pieces.", {"bottom_left": {"sealed": True}})
    ends: FourJoints | None = entry("Ends of the bottom and top piece.", {"bottom_left": {"sealed": True}})
    insulation_follows_at_once: bool | None = entry(
        "Does the outside insulation follow at once above the top piece?", False
    )
    top_edge_sealed: bool | None = entry("Is the upper edge of the top piece sealed to the wall?", True)
    bonding: Bonding | None = entry("The adhesive and the weather.", {"product": "frame-bond"})
    protected_until_covered: bool | None = entry(
        "Are the overlaps and the frame protected against weather and knocks until covered?", True
    )
