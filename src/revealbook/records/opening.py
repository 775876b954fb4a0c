"""The record of one opening: nine sections in the order of the work."""

from revealbook.records.acceptance import (
    ClimateReading,
    Concession,
    Covering,
    HoldPoint,
    SignOff,
    SiteNonconformity,
)
from revealbook.records.frame import Frame
from revealbook.records.left_out import LeftOut
from revealbook.records.part import Format, Part, Section, entry, file_format, listed, required
from revealbook.records.quantities import HeightM, Many, Mark, OpeningMm, Text
from revealbook.records.seals import Seals
from revealbook.records.supports import Plinth, Supports
from revealbook.records.survey import Survey
from revealbook.records.trials import Trials
from revealbook.records.window import Window


class Identity(Section):
    """Which opening this is."""

    mark: Mark = required("Its mark on the drawings; the file is named after it.", "W-2.07")
    building: Text | None = entry("Building.", "B")
    floor: Text | None = entry("Floor.", "2")
    elevation: Text | None = entry("Elevation: which way it faces.", "south-west")
    room: Text | None = entry("Room behind it.", "bedroom")
    serial: Mark | None = entry("Serial number of the window.", "240117-33")
    drawing: Text | None = entry("Drawing and revision that apply.", "A-402 rev C")
    width_mm: OpeningMm | None = entry("Nominal clear width of the opening, mm.", 1230)
    height_mm: OpeningMm | None = entry("Nominal clear height of the opening, mm.", 1480)
    height_above_ground_m: HeightM | None = entry("Height of its top above ground, m (for wind).", 8.2)
    distance_from_corner_m: HeightM | None = entry(
        "From its nearer jamb to the building's nearest corner, m (for wind).", 2.4
    )


class Opening(Part):
    """One record: everything known of how one window was fixed."""

    format: Format = file_format()
    opening: Identity = required("Which opening this is.", {"mark": "W-2.07"})
    survey: Survey | None = entry("The opening and its substrate as found.", {"sound": True})
    frame: Frame | None = entry("The mounting frame as fixed.", {"pieces": {"bottom": {"length_mm": 1390}}})
    supports: Supports | None = entry("Supports under load points.", {"called_for": False})
    plinth: Plinth | None = entry("The plinth profile under the window.", {"used": False})
    window: Window | None = entry("The window as set.", {"width_mm": 1206})
    seals: Seals | None = entry("Tapes, foam and trim.", {"events": [{"step": "foam"}]})
    tests: Trials | None = entry("Tests, where made.", {"water_spray": {"water_inside": False}})
    hold_points: Many[HoldPoint] | None = entry("Hold points.", [{"name": "frame", "passed": True}])
    nonconformities: Many[SiteNonconformity] = listed(
        "Nonconformities found on site, with their corrections; none if left out.",
        {"id": "NC-1", "what": "bottom piece 3 mm out of level"},
    )
    concessions: Many[Concession] = listed(
        "Nonconformities that somebody entitled accepts; none if left out.",
        {"rule": "frame-overlap", "reason": "gas pipe beside the opening; bracket added"},
    )
    left_out: Many[LeftOut] = listed(
        "What this opening leaves out, with the reason and on whose word; nothing if left out.",
        {"what": "top piece", "reason": "the shutter box stands there", "by": "cleo"},
    )
    sign_offs: Many[SignOff] | None = entry("Who signs, in which role.", [{"role": "installer", "by": "ada"}])
    covering: Covering | None = entry("When the work was covered.", {"at": "2026-11-26T08:00+01:00"})
    climate: Many[ClimateReading] = listed(
        "Weather readings between the events; none if left out.",
        {"at": "2026-11-21T07:00+01:00", "air_c": 4.5, "rh_pct": 85},
    )

    @property
    def mark(self) -> str:
        """The opening's mark on the drawings."""
        return self.opening.mark
