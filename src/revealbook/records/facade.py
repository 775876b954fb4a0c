"""What stands round an opening: head, shutter box, what was on the wall, insulation, fire barrier."""

from typing import Literal

from revealbook.records.part import Part, entry
from revealbook.records.quantities import GapMm, LengthMm, OpeningMm, PastMm

HeadShape = Literal["straight", "segmental arch", "semicircular arch"]
FinishKind = Literal["none", "plaster", "paint", "cladding", "insulation"]
InsulationKind = Literal[
    "mineral wool", "wood fibre", "EPS", "XPS", "PUR or PIR", "mineral foam", "cellular glass", "other"
]


class Head(Part):
    """The shape of the opening's head; heights at the jambs and diagonals are taken up to the springing."""

    shape: HeadShape | None = entry("Its shape.", "segmental arch")
    rise_mm: OpeningMm | None = entry("Height of the crown above the springing, mm.", 180)


class ShutterBox(Part):
    """A shutter box in the opening, above the window."""

    height_mm: OpeningMm | None = entry("Its height in the opening, mm.", 250)
    sealed_to_window: bool | None = entry("Sealed to the window over its whole length?", True)
    sealed_to_wall: bool | None = entry("Sealed to the wall at its ends and on top?", True)


class Finish(Part):
    """What was on the wall before, where the frame is bonded."""

    kind: FinishKind | None = entry("What it is; none where the wall is bare.", "plaster")
    thickness_mm: GapMm | None = entry("Its thickness, mm.", 15)
    removed: bool | None = entry("Removed along the bonding area, down to the load-bearing wall?", True)
    adhesion_tested: bool | None = entry("If it stays: was it tried and found to hold firmly?", False)


class Insulation(Part):
    """The outside insulation round the window."""

    kind: InsulationKind | None = entry("What it is made of.", "mineral wool")
    thickness_mm: LengthMm | None = entry("Its thickness, mm.", 180)


class FireBarrier(Part):
    """A fire barrier in the insulation above the window."""

    called_for: bool | None = entry("Does the drawing call for one?", True)
    kind: InsulationKind | None = entry("What it is made of.", "mineral wool")
    height_mm: OpeningMm | None = entry("Its height, mm.", 200)
    past_left_mm: PastMm | None = entry("How far it runs past the opening on the left, mm.", 300)
    past_right_mm: PastMm | None = entry("How far it runs past on the right, mm.", 300)
    bonded_over_whole_area: bool | None = entry("Bonded to the wall over its whole area?", True)
