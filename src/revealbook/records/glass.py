"""Safety of the glass: what the panes are, and what keeps people from falling out."""

from typing import Literal

from revealbook.records.part import Part, entry
from revealbook.records.quantities import HeightM, PastMm, Text

PaneKind = Literal["annealed", "toughened", "heat strengthened", "laminated", "laminated safety"]


class GlassSafety(Part):
    """What the glass must withstand besides wind; indicative, local codes and the designer's proof govern."""

    inner_pane: PaneKind | None = entry("What the pane towards the room is.", "laminated safety")
    outer_pane: PaneKind | None = entry("What the pane towards the weather is.", "toughened")
    sill_above_floor_mm: PastMm | None = entry(
        "From the floor inside to the lower edge of what opens, or of the glass, mm.", 850
    )
    guard_height_mm: PastMm | None = entry(
        "From that floor to the top of a separate guard, mm; 0 if none.", 0
    )
    drop_m: HeightM | None = entry("From that floor down to the ground or surface outside, m.", 5.5)
    fall_protection: bool | None = entry("Is the glass itself to keep people from falling?", False)
    proved: bool | None = entry("If so: proved in writing by its maker or the designer?", True)
    proof: Text | None = entry("Test report, approval or calculation.", "test report 26-114 of the maker")
