"""The sashes of a window, and the joints by which it is coupled to other windows."""

from typing import Literal

from revealbook.records.part import Part, entry
from revealbook.records.quantities import AngleDeg, GapMm, LengthMm, Mark, MassKg, PositionMm, Text

OpeningKind = Literal[
    "fixed", "side hung", "tilt and turn", "top hung", "bottom hung", "sliding", "lift and slide"
]
HingeSide = Literal["left", "right"]


class Sash(Part):
    """One field of the window: a sash, or a fixed light."""

    kind: OpeningKind | None = entry("How it opens; fixed for a fixed light.", "tilt and turn")
    hinge_side: HingeSide | None = entry("Hinges on which side, seen from outside.", "left")
    width_mm: LengthMm | None = entry("Outer width of the sash, mm.", 1126)
    height_mm: LengthMm | None = entry("Outer height of the sash, mm.", 1378)
    mass_kg: MassKg | None = entry("Mass of the sash with its glass, kg.", 42)
    tried: bool | None = entry("Opened, closed and locked without force after fixing?", True)


class Coupling(Part):
    """A joint at which windows are coupled, seen from outside."""

    to: Mark | None = entry("Mark or serial number of the window beyond it.", "240117-34")
    at_mm: PositionMm | None = entry(
        "Its middle, from the left edge of the window's frame, mm; leave out at a corner of the building.",
        1188,
    )
    corner: HingeSide | None = entry(
        "If it stands at a corner of the building: at which side of this window.", "right"
    )
    angle_deg: AngleDeg | None = entry("Angle between the two windows at such a corner, degrees.", 90)
    joint_width_mm: GapMm | None = entry("Width of the joint, mm.", 4)
    joined_by: Text | None = entry("What joins the windows.", "coupling profile with steel inside")
    joined: bool | None = entry("Joined as the supplier's drawing shows?", True)
    sealed: bool | None = entry("Sealed inside and outside over its whole length?", True)
