"""Tapes, foam and trim: a sequence of dated events."""

from typing import Literal

from revealbook.records.part import Part, Section, entry
from revealbook.records.quantities import (
    Day,
    GapMm,
    HumidityPct,
    LengthM,
    Many,
    Mark,
    Moment,
    SdM,
    TemperatureC,
    VolumeMl,
)

Side = Literal["left", "right", "bottom", "top"]
Step = Literal["inner tape", "outer tape", "foam", "trim", "joint tape"]
Filling = Literal["foam", "joint tape"]


class SealEvent(Part):
    """One step of closing the joint."""

    step: Step | None = entry("What was done.", "foam")
    at: Moment | None = entry(
        "When it was done; of a tape, when it closed the joint.", "2026-11-23T10:30+01:00"
    )
    stuck_to_window_at: Moment | None = entry(
        "When its first edge was stuck to the window, if that was before the window was set.",
        "2026-11-23T08:20+01:00",
    )
    sides: Many[Side] | None = entry(
        "The sides that it closes, where tapes differ by side; all four if left out.", ["bottom"]
    )
    by: Mark | None = entry("Who did it: an id from people in site.yaml.", "ada")
    product: Mark | None = entry("An id from products.tapes or products.foams.", "joint-foam")
    batch: Mark | None = entry("Batch number as printed.", "F-2281")
    expires: Day | None = entry("Use-by date as printed.", "2027-06-30")
    air_c: TemperatureC | None = entry("Air temperature, degC.", 9.5)
    rh_pct: HumidityPct | None = entry("Relative humidity, %.", 68)
    surface_c: TemperatureC | None = entry("Surface temperature where it sticks, degC.", 8.8)
    joint_width_mm: GapMm | None = entry("Width of the joint it closes, mm.", 12)
    joint_depth_mm: GapMm | None = entry("Depth of the joint filled, mm.", 70)
    corner_overlap_mm: GapMm | None = entry(
        "Smallest overlap of tape at corners and joints, mm; of joint tape, by how much it was cut longer.",
        50,
    )
    bonded_width_mm: GapMm | None = entry("Smallest width stuck to the frame, mm.", 30)
    continuous: bool | None = entry("Does it run through without a gap (joint tape)?", True)
    without_voids: bool | None = entry("Filled to the full depth without voids (foam)?", True)
    dampened: bool | None = entry("Surfaces dampened before foaming, where the maker asks for it?", True)
    sd_m: SdM | None = entry("sd-value of what was used, if not that of the product, m.", 40)
    used_m: LengthM | None = entry("Length of tape used, m.", 6)
    used_ml: VolumeMl | None = entry("Foam used, ml of the can.", 375)


class Seals(Section):
    """How the joint between mounting frame and window was closed."""

    filling: Filling | None = entry(
        "What fills the joint: foam, or precompressed joint tape in its place. Foam if left out.", "foam"
    )
    events: Many[SealEvent] | None = entry("The steps, in any order.", [{"step": "foam"}])
