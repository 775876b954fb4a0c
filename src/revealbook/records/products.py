"""The products used on a site, with the figures of their data sheets."""

from typing import Literal

from revealbook.records.part import Part, entry, listed, required
from revealbook.records.quantities import (
    Count,
    DiameterMm,
    ForceN,
    GapMm,
    Hours,
    HumidityPct,
    LengthM,
    LengthMm,
    Many,
    Mark,
    Percent,
    SdM,
    TemperatureC,
    Text,
    ThicknessMm,
    TorqueNm,
    VolumeMl,
)
from revealbook.records.survey import Substrate


class CurePoint(Part):
    """One line of a data sheet's table of waits."""

    air_c: TemperatureC = required("Air temperature, degC.", 10)
    rh_pct: HumidityPct | None = entry("Relative humidity, %, if the table has it.", 50)
    hours: Hours = required("Hours to wait in that climate.", 24)


class Product(Part):
    """What every product may say."""

    id: Mark = required("Short name that records use.", "frame-bond")
    name: Text | None = entry("Name on the label.", "Example Frame Bond")
    data_sheet: Text | None = entry("Data sheet and its date.", "technical sheet 2026-02")


class Chemical(Product):
    """A product that sets or sticks, and so has a weather window."""

    air_min_c: TemperatureC | None = entry("Lowest air temperature for its use, degC.", 5)
    air_max_c: TemperatureC | None = entry("Highest air temperature, degC.", 35)
    surface_min_c: TemperatureC | None = entry("Lowest surface temperature, degC.", 5)
    surface_max_c: TemperatureC | None = entry("Highest surface temperature, degC.", 40)
    rh_min_pct: HumidityPct | None = entry("Lowest humidity, %.", 30)
    rh_max_pct: HumidityPct | None = entry("Highest humidity, %.", 85)
    dew_margin_k: TemperatureC | None = entry(
        "Least margin of the surface over dew point that its data sheet asks for, K, if it states one.", 3
    )


class MoistureLimit(Part):
    """Highest moisture of one kind of substrate."""

    substrate: Substrate = required("The substrate.", "timber")
    max_pct: Percent = required("Highest moisture of it, % by mass.", 18)


class Adhesive(Chemical):
    """Adhesive for the frame's beads."""

    days_once_opened: Count | None = entry(
        "Days within which an opened cartridge is used up, if the data sheet states any.", 7
    )
    open_minutes: Percent | None = entry(
        "Open time: press on within this many minutes of the first bead.", 20
    )
    load_after: Many[CurePoint] | None = entry(
        "Wait before the frame may carry the window.", [{"air_c": 10, "hours": 24}]
    )
    load_at_once_on_screws: bool | None = entry(
        "Does the supplier allow the window to be set at once where the frame is screwed?", False
    )
    cover_after: Many[CurePoint] | None = entry(
        "Wait before it may be covered.", [{"air_c": 10, "hours": 24}]
    )
    cure_mm_24h: ThicknessMm | None = entry("Depth cured in 24 h at the reference climate, mm.", 3)
    reference_air_c: TemperatureC | None = entry("Air temperature of that figure, degC.", 23)
    reference_rh_pct: HumidityPct | None = entry("Humidity of that figure, %.", 50)
    cure_speed_max: Percent | None = entry(
        "Highest speed of cure, as a multiple of that in the reference climate, that its data sheet states "
        "for warm and damp air; 1 if left out.",
        1,
    )
    cartridge_ml: VolumeMl | None = entry("Contents of a cartridge, ml.", 310)
    movement_pct: Percent | None = entry("Movement capability, % of the width, one way.", 25)
    needs_primer: bool | None = entry("Does the maker ask for a primer on mineral substrates?", False)
    moisture_max_pct: Percent | None = entry("Highest moisture of mineral substrates, % by mass.", 4)
    moisture_limits: Many[MoistureLimit] | None = entry(
        "Highest moisture of other substrates, or of one of them.", [{"substrate": "timber", "max_pct": 18}]
    )
    needs_dry_brushing: bool | None = entry(
        "Does the data sheet ask for a substrate brushed dry, not damp?", False
    )


class Foam(Chemical):
    """Foam for the joint."""

    trim_after: Many[CurePoint] | None = entry("Wait before trimming.", [{"air_c": 5, "hours": 5}])
    cover_after: Many[CurePoint] | None = entry("Wait before covering.", [{"air_c": 5, "hours": 24}])
    sd_m: SdM | None = entry("sd-value as filled, m.", 1.5)
    yield_l: Percent | None = entry("Free yield of a can, l.", 45)
    can_ml: VolumeMl | None = entry("Contents of a can, ml.", 750)
    movement_pct: Percent | None = entry("Movement capability, % of the width, one way.", 15)
    needs_dampening: bool | None = entry("Does the maker ask for dampened surfaces?", True)
    joint_min_mm: GapMm | None = entry("Narrowest joint it may fill, mm.", 8)
    joint_max_mm: GapMm | None = entry("Widest joint it may fill, mm.", 35)


class Tape(Chemical):
    """Tape for the inner or outer seal, or precompressed joint tape."""

    sd_m: SdM | None = entry("sd-value, m.", 40)
    width_mm: GapMm | None = entry("Width, mm.", 100)
    roll_m: LengthM | None = entry("Length of a roll, m.", 25)
    may_be_stuck_first: bool | None = entry(
        "Does its maker allow it to be stuck to the window before that is set?", True
    )
    joint_min_mm: GapMm | None = entry("Narrowest joint for it, mm (joint tape).", 6)
    joint_max_mm: GapMm | None = entry("Widest joint for it, mm (joint tape).", 14)
    closes_both_sides: bool | None = entry(
        "Does it seal inside and outside by itself, without further tape (joint tape)?", True
    )
    cover_after: Many[CurePoint] | None = entry(
        "Wait before it may be plastered over.", [{"air_c": 5, "hours": 2}]
    )


class Fixing(Product):
    """A fixing, with the figures of its data sheet."""

    diameter_mm: DiameterMm | None = entry("Outer diameter, mm.", 7.5)
    length_mm: LengthMm | None = entry("Length, mm.", 112)
    embedment_min_mm: GapMm | None = entry("Least embedment in what it is used in, mm.", 50)
    edge_distance_min_mm: GapMm | None = entry("Least distance to an edge of what it is used in, mm.", 60)
    torque_nm: TorqueNm | None = entry("Tightening torque, Nm.", 12)
    needs_torque: bool | None = entry("Does the data sheet state a torque at all?", True)
    tension_design_n: ForceN | None = entry("Design resistance to tension, N, in that substrate.", 900)
    shear_design_n: ForceN | None = entry("Design resistance to shear, N, in that substrate.", 1400)
    pull_out_trials_n: Many[ForceN] | None = entry(
        "Loads at which trial fixings came out of the wall at hand, N; every one that was tried.",
        [3900, 4200, 3650, 4050, 3800],
    )


class Profile(Product):
    """A profile of the mounting frame or a plinth profile."""

    kind: Literal["frame", "plinth"] | None = entry("What it is for.", "frame")
    width_mm: ThicknessMm | None = entry("Width seen in elevation (thickness of the piece), mm.", 80)
    depth_mm: ThicknessMm | None = entry("How far it stands out from the wall, mm.", 160)
    bead_thickness_mm: ThicknessMm | None = entry(
        "Thickness that beads are pressed to behind it, mm, where its data sheet states one.", 3
    )
    stock_mm: LengthMm | None = entry("Length it is delivered in, mm.", 3000)
    mass_kg_m: Percent | None = entry("Mass per metre, kg/m.", 3.1)


class Products(Part):
    """All products of a site, by kind."""

    adhesives: Many[Adhesive] = listed("Adhesives for the frame.", {"id": "frame-bond", "air_min_c": 5})
    foams: Many[Foam] = listed("Foams for the joint.", {"id": "joint-foam", "needs_dampening": True})
    tapes: Many[Tape] = listed("Tapes of the inner and outer seal.", {"id": "inner-tape", "sd_m": 40})
    fixings: Many[Fixing] = listed("Fixings.", {"id": "frame-screw-7.5", "length_mm": 112})
    profiles: Many[Profile] = listed("Profiles.", {"id": "frame-profile", "kind": "frame", "width_mm": 80})


class Instrument(Part):
    """A measuring instrument and its expanded uncertainty (k = 2)."""

    id: Mark = required("Short name that records use.", "tape-1")
    measures: Literal["length", "deviation", "temperature", "humidity", "pressure", "flow"] = required(
        "What it measures; lengths and positions are taken with a tape, deviations with a level.", "length"
    )
    uncertainty: Percent = required(
        "Expanded uncertainty (k = 2) in mm, K, %, Pa or m3/h, as the instrument measures.", 1
    )
    rh_refers_to: Literal["water", "ice"] | None = entry(
        "What a humidity meter's reading below 0 degC refers to, as its manual says; water if left out.",
        "water",
    )
    name: Text | None = entry("What it is.", "steel tape 5 m class II")
    calibrated: Text | None = entry("Calibration or check, and when.", "checked 2026-09 against rule no. 3")
    number: Count | None = entry("Inventory number.", 17)
