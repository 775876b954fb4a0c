"""Applications of adhesive: what was bonded, with what, when, in which weather, how much."""

from typing import Literal, get_args

from revealbook.records.part import Part, Photo, entry
from revealbook.records.quantities import (
    Count,
    Day,
    HumidityPct,
    Many,
    Mark,
    Moment,
    TemperatureC,
    Text,
    VolumeMl,
)

Bonded = Literal["bottom", "left", "right", "top", "supports", "plinth", "joints"]
BONDED: tuple[str, ...] = get_args(Bonded)


class Batch(Part):
    """One batch of the adhesive, as printed on its cartridges."""

    number: Mark | None = entry("Batch number as printed on the cartridge.", "0412")
    expires: Day | None = entry("Use-by date as printed.", "2027-03-31")
    opened_at: Moment | None = entry("When its first cartridge was opened.", "2026-11-20T09:15+01:00")


class Application(Part):
    """Adhesive laid once, and what was pressed into it."""

    of: Many[Bonded] | None = entry(
        "What was bonded: pieces of the frame, or supports, plinth, joints.",
        ["bottom", "left", "right", "top"],
    )
    product: Mark | None = entry("The adhesive: an id from products.adhesives in site.yaml.", "frame-bond")
    batches: Many[Batch] | None = entry(
        "Its batches; all that were used.", [{"number": "0412", "expires": "2027-03-31"}]
    )
    laid_at: Moment | None = entry("When the first bead was laid.", "2026-11-20T09:20+01:00")
    pressed_at: Moment | None = entry("When the last piece was pressed on.", "2026-11-20T09:45+01:00")
    air_c: TemperatureC | None = entry("Air temperature, degC.", 8.5)
    rh_pct: HumidityPct | None = entry("Relative humidity of the air, %.", 72)
    surface_c: TemperatureC | None = entry("Temperature of the substrate's surface, degC.", 7.9)
    used_ml: VolumeMl | None = entry("Adhesive used, ml.", 620)
    cartridges: Count | None = entry("Cartridges opened for it.", 2)
    by: Mark | None = entry("Who bonded, if not who fixed the frame: an id from people in site.yaml.", "ada")
    photos: Many[Photo] | None = entry("Photographs of the beads.", [{"file": "W-2.07-beads.jpg"}])
    note: Text | None = entry("Anything else worth knowing in ten years.", "second cartridge from the van")
