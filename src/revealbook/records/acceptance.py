"""Hold points, nonconformities found on site, corrections, concessions and sign-offs."""

from typing import Literal

from revealbook.records.bonding import Application
from revealbook.records.facade import FireBarrier, Insulation
from revealbook.records.part import Part, Photo, entry, listed, required
from revealbook.records.quantities import HumidityPct, Many, Mark, Moment, TemperatureC, Text

HoldPointName = Literal["substrate", "frame", "window", "foam", "before covering"]
Role = Literal["installer", "foreman", "clerk of works", "client", "designer", "supplier"]


class HoldPoint(Part):
    """A point past which work does not go before somebody has looked."""

    name: HoldPointName = required("Which hold point.", "frame")
    at: Moment | None = entry("When it was looked at.", "2026-11-20T11:00+01:00")
    by: Mark | None = entry("Who looked: an id from people in site.yaml.", "ben")
    passed: bool | None = entry("Passed?", True)
    photos: Many[Photo] | None = entry("Photographs.", [{"file": "W-2.07-frame.jpg"}])
    note: Text | None = entry("What was seen.", "bottom piece 3 mm out of level, to be reset")


class Correction(Part):
    """What was done about a nonconformity found on site."""

    what: Text | None = entry("What was done.", "bottom piece taken off, rebonded, level within 1 mm")
    at: Moment | None = entry("When.", "2026-11-20T13:00+01:00")
    by: Mark | None = entry("Who did it.", "ada")
    checked_at: Moment | None = entry("When it was checked.", "2026-11-20T13:30+01:00")
    checked_by: Mark | None = entry("Who checked it.", "ben")
    bonding: Many[Application] = listed(
        "Applications of adhesive, if anything was bonded anew; none if left out.",
        {"of": ["bottom"], "product": "frame-bond"},
    )


class SiteNonconformity(Part):
    """A nonconformity that was found on site, before the record was judged."""

    id: Mark = required("A name for it, once per opening.", "NC-1")
    what: Text = required("What did not conform.", "bottom piece 3 mm out of level")
    found_at: Moment | None = entry("When it was found.", "2026-11-20T11:00+01:00")
    found_by: Mark | None = entry("Who found it.", "ben")
    photos: Many[Photo] | None = entry("Photographs.", [{"file": "W-2.07-level.jpg"}])
    correction: Correction | None = entry("What was done about it.", {"what": "rebonded"})


class Concession(Part):
    """Somebody entitled accepts a stated nonconformity; the outcome itself stays what it is."""

    rule: Mark = required("The rule that is not met.", "frame-overlap")
    covers: Text | None = entry(
        "Which part of the opening, if not all of it.", "left end of the bottom piece"
    )
    reason: Text | None = entry("Why it is accepted.", "gas pipe beside the opening; bracket added")
    accepted_by: Mark | None = entry("Who accepts: an id from people in site.yaml.", "cleo")
    at: Moment | None = entry("When.", "2026-11-24T10:00+01:00")
    until: Moment | None = entry("If it is limited in time, until when.", "2031-11-24T00:00+01:00")


class SignOff(Part):
    """A named person in a role puts a name to the record."""

    role: Role = required("In which role.", "installer")
    by: Mark | None = entry("Who: an id from people in site.yaml.", "ada")
    at: Moment | None = entry("When.", "2026-11-24T16:00+01:00")


class Covering(Part):
    """When insulation, plaster or trim hid the work for good."""

    at: Moment | None = entry("When it was covered.", "2026-11-26T08:00+01:00")
    by: Mark | None = entry("Who covered it.", "dov")
    insulation: Insulation | None = entry("The outside insulation.", {"kind": "mineral wool"})
    fire_barrier: FireBarrier | None = entry(
        "The fire barrier above the window; none if left out.", {"called_for": True}
    )


class ClimateReading(Part):
    """A reading of the weather at the opening between the events."""

    at: Moment = required("When it was read.", "2026-11-21T07:00+01:00")
    air_c: TemperatureC | None = entry("Air temperature, degC.", 4.5)
    rh_pct: HumidityPct | None = entry("Relative humidity, %.", 85)
    surface_c: TemperatureC | None = entry("Surface temperature, degC.", 3.9)
