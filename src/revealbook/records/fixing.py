"""Fixings as set, by position; used wherever something is fixed to the wall or the frame."""

from revealbook.records.part import Part, entry
from revealbook.records.quantities import (
    Count,
    DeviationMm,
    DiameterMm,
    GapMm,
    LengthMm,
    Many,
    Mark,
    PositionMm,
    ThicknessMm,
    TorqueNm,
)


class FixingSet(Part):
    """Fixings of one kind that were set in the same way; give the least favourable value of each."""

    at_mm: Many[PositionMm] | None = entry(
        "Positions along the piece, from its left or lower end, mm.", [180, 695, 1210]
    )
    product: Mark | None = entry("The fixing: an id from products.fixings in site.yaml.", "frame-screw-7.5")
    diameter_mm: DiameterMm | None = entry("Outer diameter of the fixing, mm.", 7.5)
    length_mm: LengthMm | None = entry("Length of the fixing, mm.", 112)
    embedment_mm: GapMm | None = entry(
        "Smallest embedment in what carries it, mm: the load-bearing substrate, or the mounting frame for "
        "the window's own fixings.",
        62,
    )
    edge_distance_mm: GapMm | None = entry("Smallest distance to an edge of what carries it, mm.", 70)
    holes_cleaned: bool | None = entry("Were the drilled holes blown or brushed out?", True)
    torque_nm: TorqueNm | None = entry("Tightening torque, Nm.", 12)
    predrilled: bool | None = entry("Was what it passes through drilled first?", True)


class Bead(Part):
    """Adhesive beads as laid, and as pressed."""

    number: Count | None = entry("How many beads run along the piece.", 2)
    continuous: bool | None = entry("Do they run through without a gap from end to end?", True)
    width_mm: GapMm | None = entry("Width of a bead as laid, mm.", 9)
    height_mm: DeviationMm | None = entry("Height of a bead as laid, mm.", 9)
    pressed_width_mm: ThicknessMm | None = entry(
        "Width of a bead once pressed, as seen at a trial piece or an open end, mm.", 16
    )
    pressed_thickness_mm: ThicknessMm | None = entry("Thickness of a bead once pressed, mm.", 3)
