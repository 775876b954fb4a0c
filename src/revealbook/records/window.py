"""The window as delivered and as set."""

from typing import Literal

from revealbook.records.facade import ShutterBox
from revealbook.records.fixing import FixingSet
from revealbook.records.glass import GlassSafety
from revealbook.records.part import Part, Section, entry, listed
from revealbook.records.quantities import (
    AreaM2,
    DeviationMm,
    GapMm,
    LengthMm,
    Many,
    MassKg,
    Moment,
    OpeningMm,
    TemperatureC,
    ThicknessMm,
    WindClass,
)
from revealbook.records.sash import Coupling, HingeSide, OpeningKind, Sash
from revealbook.records.seals import Side
from revealbook.records.survey import Diagonals

FrameMaterial = Literal["PVC-U", "timber", "aluminium", "timber-aluminium", "steel"]
FrameColour = Literal["white", "light", "dark"]


class JointWidths(Part):
    """Width of the joint between mounting frame and window at three places of one side."""

    start: GapMm | None = entry("Near the left or lower end, mm.", 12)
    middle: GapMm | None = entry("In the middle, mm.", 11.5)
    end: GapMm | None = entry("Near the right or upper end, mm.", 12)


class JointsBySide(Part):
    """Joint widths on the four sides, as seen from outside."""

    left: JointWidths | None = entry("Left side.", {"start": 12, "middle": 11.5, "end": 12})
    right: JointWidths | None = entry("Right side.", {"start": 11, "middle": 11.5, "end": 12})
    top: JointWidths | None = entry("Head.", {"start": 12, "middle": 12, "end": 12})
    bottom: JointWidths | None = entry("Sill.", {"start": 10, "middle": 10, "end": 10})


class WindowFixings(FixingSet):
    """Fixings of the window on one side."""

    side: Side | None = entry("Which side.", "left")


class Window(Section):
    """The window: what it is and how it stands."""

    width_mm: OpeningMm | None = entry("Outer width of the window's frame, mm.", 1206)
    height_mm: OpeningMm | None = entry("Outer height of the window's frame, mm.", 1458)
    mass_kg: MassKg | None = entry("Mass with glass as on the delivery note, kg.", 78)
    glass_panes_mm: Many[ThicknessMm] | None = entry("Thickness of every pane, mm.", [4, 4, 4])
    glass_area_m2: AreaM2 | None = entry("Visible glass area, m2.", 1.32)
    glass_safety: GlassSafety | None = entry(
        "Kind of glass, and what keeps people from falling out.", {"inner_pane": "laminated safety"}
    )
    shutter_box: ShutterBox | None = entry("A shutter box above it; none if left out.", {"height_mm": 250})
    frame_material: FrameMaterial | None = entry("What its frame is made of.", "PVC-U")
    frame_depth_mm: GapMm | None = entry("Depth of its frame from inside to outside, mm.", 76)
    frame_colour: FrameColour | None = entry("Colour towards the weather.", "white")
    opening_kind: OpeningKind | None = entry("How it opens, if it has one sash.", "tilt and turn")
    hinge_side: HingeSide | None = entry("Hinges on which side, seen from outside.", "left")
    sashes: Many[Sash] | None = entry(
        "Its sashes and fixed lights, from left to right, if it has more than one.",
        [{"kind": "tilt and turn", "hinge_side": "left", "tried": True}],
    )
    couplings: Many[Coupling] = listed(
        "Joints at which it is coupled to other windows; none if left out.",
        {"to": "240117-34", "at_mm": 1188},
    )
    centre_from_wall_mm: GapMm | None = entry(
        "From the face of the load-bearing wall out to the middle of the window's frame, mm.", 90
    )
    delivered_undamaged: bool | None = entry("Undamaged when set?", True)
    joint_widths_mm: JointsBySide | None = entry("Joint to the mounting frame.", {"left": {"middle": 11.5}})
    frame_temperature_c: TemperatureC | None = entry("Temperature of its frame when set, degC.", 9)
    set_at: Moment | None = entry("When it was put on the supports.", "2026-11-23T09:00+01:00")
    checked_before_fixing: bool | None = entry("Level, plumb and place checked before fixing?", True)
    set_on_screws: bool | None = entry(
        "Set at once on the screws of the mounting frame, without waiting for the adhesive?", False
    )
    secured_at: Moment | None = entry("When it was fixed on all sides.", "2026-11-23T09:50+01:00")
    out_of_plumb_mm: DeviationMm | None = entry("Largest deviation from plumb over its height, mm.", 1.5)
    out_of_level_mm: DeviationMm | None = entry("Largest deviation from level over its width, mm.", 1)
    out_of_place_mm: DeviationMm | None = entry("Deviation from the drawn depth and height, mm.", 2)
    bow_mm: DeviationMm | None = entry("Largest bow of a frame member after fixing, mm.", 1)
    diagonals_mm: Diagonals | None = entry("Both diagonals as set.", {"rising": 1892, "falling": 1893})
    fixed_by: Literal["screws through the frame", "brackets"] | None = entry(
        "How it is fixed.", "screws through the frame"
    )
    fixings: Many[WindowFixings] | None = entry(
        "Its fixings, side by side.", [{"side": "left", "at_mm": [150, 730, 1310], "length_mm": 112}]
    )
    packed_at_fixings: bool | None = entry("Packers left beside every fixing that takes pressure?", True)
    opening_function_tried: bool | None = entry("Opened, tilted and locked without force after fixing?", True)
    hinge_distance_mm: LengthMm | None = entry(
        "Between the upper and the lower hinge of a sash, mm; the least if it has several sashes.", 1180
    )
    wind_class: WindClass | None = entry(
        "Declared class of resistance to wind load by EN 12210, from the maker's declaration.", "C4"
    )
    assembly_length_mm: LengthMm | None = entry(
        "Length of coupled windows together, mm, if this one is coupled to others.", 3600
    )
