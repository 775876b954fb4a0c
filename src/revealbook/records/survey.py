"""The survey of the opening and its substrate, before anything is fixed."""

from typing import Literal

from revealbook.records.facade import Finish, Head
from revealbook.records.part import Part, Section, entry
from revealbook.records.quantities import DeviationMm, OpeningMm, Percent

Substrate = Literal[
    "concrete", "solid masonry", "hollow masonry", "aerated concrete", "timber", "steel", "other"
]


class Widths(Part):
    """Clear width of the opening at three heights."""

    top: OpeningMm | None = entry("Width near the head, mm.", 1232)
    middle: OpeningMm | None = entry("Width at mid-height, mm.", 1230)
    bottom: OpeningMm | None = entry("Width near the sill, mm.", 1231)


class Heights(Part):
    """Clear height of the opening at three places across its width."""

    left: OpeningMm | None = entry("Height near the left jamb, seen from outside, mm.", 1482)
    middle: OpeningMm | None = entry("Height at mid-width, mm.", 1481)
    right: OpeningMm | None = entry("Height near the right jamb, mm.", 1480)


class Diagonals(Part):
    """Both diagonals of the same rectangle."""

    rising: OpeningMm | None = entry("From bottom left to top right, seen from outside, mm.", 1925)
    falling: OpeningMm | None = entry("From top left to bottom right, mm.", 1924)


class Survey(Section):
    """The opening as found."""

    widths_mm: Widths | None = entry("Clear width at three heights.", {"top": 1232, "middle": 1230})
    heights_mm: Heights | None = entry("Clear height at three places.", {"left": 1482, "right": 1480})
    diagonals_mm: Diagonals | None = entry("Both diagonals.", {"rising": 1925, "falling": 1924})
    out_of_plumb_mm: DeviationMm | None = entry(
        "Largest deviation of the wall face from plumb over the opening's height, mm.", 4
    )
    out_of_flat_mm: DeviationMm | None = entry(
        "Largest gap under the straightedge laid along the bonding area, mm.", 2
    )
    straightedge_mm: OpeningMm | None = entry("Length of that straightedge, mm.", 1000)
    substrate: Substrate | None = entry("What the frame is bonded and fixed to.", "solid masonry")
    head: Head | None = entry("Shape of the head; straight if left out.", {"shape": "straight"})
    finish: Finish | None = entry("What was on the wall before; none if left out.", {"kind": "none"})
    sound: bool | None = entry("Is it sound: nothing loose, crumbling or hollow?", True)
    clean: bool | None = entry("Is it clean: no oil, old paint or debris?", True)
    dry: bool | None = entry("Is it dry to look at and to touch?", True)
    free_of_dust: bool | None = entry("Has the dust been brushed or sucked off?", True)
    brushed: Literal["dry", "damp", "not brushed"] | None = entry(
        "How the bonding area was brushed, after drilling.", "dry"
    )
    primed: bool | None = entry("Was a primer used, where the adhesive's maker asks for one?", True)
    moisture_pct: Percent | None = entry("Substrate moisture, % by mass, as the meter shows.", 3.1)
