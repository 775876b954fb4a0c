"""The site file: what is the same for all openings."""

from typing import Annotated, Literal

from pydantic import BeforeValidator, Field

from revealbook.records.acceptance import Role
from revealbook.records.part import Format, Part, entry, file_format, listed, required
from revealbook.records.products import Instrument, Products
from revealbook.records.quantities import HeightM, Many, Mark, Percent, SpeedMS, TemperatureC, Text

_EMPTY_IS_NONE = BeforeValidator(
    lambda value: {} if value is None else value, json_schema_input_type=Products | None
)
"""A key with nothing below it, as in a blank site file, says that there is none."""


class Person(Part):
    """Somebody who works, checks or accepts on the site."""

    id: Mark = required("Short name that records use.", "ada")
    name: Text = required("Full name.", "Ada Fensterlein")
    roles: Many[Role] = required("What this person may sign as.", ["installer"])
    firm: Text | None = entry("Firm.", "Reveal & Sons (invented)")


class Building(Part):
    """A building: its size, for wind, and the rule set by which it is judged."""

    name: Text = required("As in the records' `building`.", "B")
    width_m: HeightM | None = entry("Length of the facade facing the wind, m.", 24)
    depth_m: HeightM | None = entry("Depth along the wind, m.", 12)
    height_m: HeightM | None = entry("Height, m.", 10)
    rules: Mark | None = entry(
        "Rule set of this building: one that the site's set extends; the site's set if left out.",
        "common-practice",
    )


class Exposure(Part):
    """The climate the windows must stand."""

    basic_wind_velocity_m_s: SpeedMS | None = entry("Basic wind velocity vb, m/s.", 25)
    terrain: Literal["0", "I", "II", "III", "IV"] | None = entry("Terrain category of EN 1991-1-4.", "II")
    coldest_frame_c: TemperatureC | None = entry("Lowest temperature of a window's frame, degC.", -15)
    warmest_frame_c: TemperatureC | None = entry("Highest temperature of a window's frame, degC.", 60)
    air_density_kg_m3: Percent | None = entry("Air density for wind, kg/m3; 1.25 if left out.", 1.25)


class RulesInForce(Part):
    """The rule set that openings are judged by."""

    set: Mark = required("Rule set: common-practice, or another that is shipped.", "common-practice")
    edition: Text = required("Its edition, so that a later one changes nothing unseen.", "2026-12")


class Site(Part):
    """One construction site."""

    format: Format = file_format()
    id: Mark = required("Short permanent name of the site; goes into every pack.", "larch-court")
    name: Text = required("Name of the project.", "Larch Court (invented)")
    client: Text | None = entry("Client.", "Larch Court Housing (invented)")
    place: Text | None = entry("Where it is.", "Nowhere-on-Sea")
    firm: Text | None = entry("Firm that installs.", "Reveal & Sons (invented)")
    language: Literal["en", "de"] = Field(default="en", description="Language of packs.", examples=["en"])
    paper: Literal["A4", "Letter"] = Field(default="A4", description="Paper of packs.", examples=["A4"])
    keep_gps: bool = Field(
        default=False,
        description="Print the position that cameras write into photographs; it is dropped otherwise.",
        examples=[False],
    )
    rules: RulesInForce = required("Rule set and edition.", {"set": "common-practice", "edition": "2026-12"})
    people: Many[Person] = listed(
        "People named in records.", {"id": "ada", "name": "Ada Fensterlein", "roles": ["installer"]}
    )
    buildings: Many[Building] = listed(
        "Buildings: size for wind, and by which rule set.", {"name": "B", "height_m": 10}
    )
    exposure: Exposure | None = entry("Climate and wind.", {"basic_wind_velocity_m_s": 25})
    products: Annotated[Products, _EMPTY_IS_NONE] = Field(
        default=Products(),
        description="Products with data-sheet figures.",
        examples=[{"tapes": [{"id": "inner-tape", "sd_m": 40}]}],
    )
    instruments: Many[Instrument] = listed(
        "Measuring instruments.", {"id": "tape-1", "measures": "length", "uncertainty": 1}
    )
