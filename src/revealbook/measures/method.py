"""How to measure and decide: parameters set by a standard's edition or by contract, not by nature.

They stand in a rule set under `method:` and reach a measure as part of `Work`, never as a global.
"""

from collections.abc import Mapping
from types import MappingProxyType
from typing import Any, Literal, Self

from pydantic import BaseModel, ConfigDict, Field, model_validator
from pydantic_core import PydanticCustomError


class DefaultUncertainty(BaseModel):
    """Expanded uncertainty (k = 2) of a reading whose instrument is not stated, by kind; None: none is taken.

    What is seen and not measured - holes, beads, a cleaned hole - has no kind and no uncertainty.
    """

    model_config = ConfigDict(frozen=True, strict=True, extra="forbid")

    length_mm: float | None = Field(
        default=1.0, gt=0, le=20, description="Steel tape of class II up to 2 m, read to 1 mm."
    )
    deviation_mm: float | None = Field(
        default=0.5, gt=0, le=20, description="Spirit level of 0.5 mm/m over 1 m, read with a wedge gauge."
    )
    temperature_k: float | None = Field(
        default=1.0, gt=0, le=10, description="Air or contact thermometer of the trade."
    )
    humidity_pct: float | None = Field(
        default=5.0, gt=0, le=50, description="Hand-held hygrometer, percentage points."
    )


Closing = Literal["substrate", "frame", "window", "foam", "before covering", "covering"]
"""What closes a stage of the work: a hold point that was looked at, or the covering."""


class StageClosing(BaseModel):
    """The event that closes each stage; until it or a later one is recorded, what is lacking is not yet due.

    Without an event a stage's rules are due at once.
    """

    model_config = ConfigDict(frozen=True, strict=True, extra="forbid")

    survey: Closing | None = Field(default="substrate", description="Closes the survey.")
    frame: Closing | None = Field(default="frame", description="Closes the mounting frame.")
    supports: Closing | None = Field(default="frame", description="Closes the supports.")
    plinth: Closing | None = Field(default="window", description="Closes the plinth profile.")
    window: Closing | None = Field(default="window", description="Closes the window as set.")
    seals: Closing | None = Field(default="before covering", description="Closes tapes, foam and trim.")
    materials: Closing | None = Field(default="before covering", description="Closes products and weather.")
    tests: Closing | None = Field(default=None, description="Closes tests; a test that was begun is due.")
    acceptance: Closing | None = Field(default="covering", description="Closes evidence and sign-offs.")


class Method(BaseModel):
    """Method parameters; the defaults are what a rule set gets that says nothing."""

    model_config = ConfigDict(frozen=True, strict=True, extra="forbid")

    computations: Literal[1, 2] = Field(
        default=2,
        description="Edition of the computations; 1 judges again what was judged by it.",
    )
    decision: Literal["guard band", "simple acceptance"] = Field(
        default="guard band",
        description="How a reading with an uncertainty is decided: with a guard band w = factor x U (JCGM"
        " 106:2012), or by the limit alone.",
    )
    guard_band_factor: float = Field(
        default=1.0,
        ge=0,
        le=3,
        description="Guard band as a share of the expanded uncertainty U (k = 2). 1: w = U, the simple rule"
        " of ILAC-G8:09/2019 (from memory); the default of ISO 14253-1:2017 is about 0.83 U.",
    )
    default_uncertainty: DefaultUncertainty = Field(
        default=DefaultUncertainty(),
        description="Uncertainty of a reading whose instrument is not stated (common practice).",
    )
    slope_over_at_least_mm: float = Field(
        default=1000,
        ge=0,
        le=3000,
        description="A shorter part is held to the slope over this length: less cannot be read.",
    )
    stage_closed_by: StageClosing = Field(
        default=StageClosing(),
        description="The event by which each stage's evidence is due: a hold point, or the covering.",
    )
    gamma_dead: float = Field(
        default=1.35, ge=1, le=2, description="Partial factor of dead load (EN 1990, from memory)."
    )
    gamma_wind: float = Field(
        default=1.5, ge=1, le=2, description="Partial factor of wind load (EN 1990, from memory)."
    )
    gamma_pull_out: float = Field(
        default=2.5,
        ge=1,
        le=5,
        description="Partial factor on the characteristic resistance found by pull-out trials on the site (as"
        " ETAG 020 has it for masonry, from memory).",
    )
    least_pull_out_trials: int = Field(
        default=5,
        ge=3,
        le=50,
        description="Least number of pull-out trials that a resistance may rest on (common practice).",
    )
    interaction: Literal["linear", "linear to 1.2", "power 1.5", "power 2", "bolt"] = Field(
        default="linear",
        description="How tension and shear on a fixing are added; linear unless its approval says otherwise.",
    )
    weight_split: Literal["worse of both", "shared alike"] = Field(
        default="worse of both",
        description="How the window's weight is split: shared alike by the fixings of bottom piece and "
        "supports, or the worse of that and each support's own reaction (engineering judgement).",
    )
    movement_to_head: float = Field(
        default=1.0,
        ge=0.5,
        le=1,
        description="Share of the window's thermal movement in height that the head joint takes: all of it, "
        "for the window stands on packers (engineering judgement).",
    )
    movement_to_sill: float = Field(
        default=0.5,
        ge=0,
        le=1,
        description="Share of the movement in height that the sill joint takes (engineering judgement).",
    )
    movement_to_side: float = Field(
        default=0.5,
        ge=0.5,
        le=1,
        description="Share of the movement in width that each side joint takes (engineering judgement).",
    )
    warmest_white_c: float | None = Field(
        default=55,
        description="Warmest frame of that colour in the sun, degC (EN 1991-1-5 table 5.2: 37 + 18).",
    )
    warmest_light_c: float | None = Field(default=67, description="The same for a light frame: 37 + 30.")
    warmest_dark_c: float | None = Field(default=79, description="The same for a dark frame: 37 + 42.")
    least_leakage_points: int = Field(
        default=5,
        ge=3,
        le=20,
        description="Least number of pressures that a leakage curve is fitted to (EN ISO 9972, from memory).",
    )
    flow_air_unread_pct: float = Field(
        default=12,
        ge=0,
        le=30,
        description="Expanded uncertainty of a leakage flow, %, whose air temperature nobody read: air of -10"
        " to 40 degC (engineering judgement).",
    )
    flow_pressure_unread_pct: float = Field(
        default=4, ge=0, le=30, description="The same for the air pressure: 97 to 105 kPa."
    )
    hold_points: tuple[Literal["substrate", "frame", "window", "foam", "before covering"], ...] = Field(
        default=("substrate", "frame", "window", "foam", "before covering"),
        strict=False,
        description="Hold points that every opening passes.",
    )
    signing_roles: tuple[Literal["installer", "foreman", "clerk of works", "client", "designer"], ...] = (
        Field(
            default=("installer", "clerk of works"), strict=False, description="Roles that sign every record."
        )
    )
    conceding_roles: tuple[Literal["clerk of works", "client", "designer", "supplier"], ...] = Field(
        default=("clerk of works", "client", "designer", "supplier"),
        strict=False,
        description="Roles that may accept a nonconformity.",
    )
    photographed_sections: tuple[Literal["survey", "frame", "supports", "plinth", "window", "seals"], ...] = (
        Field(
            default=("frame", "window", "seals"),
            strict=False,
            description="Sections of the work that are photographed before they are covered.",
        )
    )
    longest_gap_day_h: float | None = Field(
        default=10,
        gt=0,
        le=48,
        description="Longest gap between two readings of the air that counts as read by day, h; "
        "null: any gap does.",
    )
    longest_gap_night_h: float | None = Field(
        default=12, gt=0, le=48, description="The same by night, that is if a midnight lies in the gap, h."
    )
    air_change_k_h: float = Field(
        default=1, gt=0, le=20, description="Fastest change of air that nobody read, K per hour (judgement)."
    )
    unread_air_c: tuple[float, float] = Field(
        default=(-15, 35),
        strict=False,
        description="Coldest and warmest air that nobody read, degC (judgement).",
    )
    neighbour_air_k: float = Field(
        default=2,
        ge=0,
        le=20,
        description="Largest difference of the air at two openings of a building, K (judgement).",
    )
    rh_change_pct_h: float = Field(
        default=10,
        gt=0,
        le=100,
        description="Fastest change of humidity that nobody read, points per hour (judgement).",
    )
    unread_rh_pct: tuple[float, float] = Field(
        default=(30, 100),
        strict=False,
        description="Driest and dampest air that nobody read, % (judgement).",
    )
    neighbour_rh_pct: float = Field(
        default=10,
        ge=0,
        le=100,
        description="Largest difference of humidity at two openings of a building, points (judgement).",
    )

    @model_validator(mode="after")
    def _ends_in_order(self) -> Self:
        for low, high in (self.unread_air_c, self.unread_rh_pct):
            if low > high:
                raise PydanticCustomError("limits_crossed", "the lowest value must not exceed the highest")
        return self


METHOD_OF_FORMAT_1: Mapping[str, Any] = MappingProxyType(
    {
        "computations": 1,
        "weight_split": "shared alike",
        "movement_to_head": 0.5,
        "movement_to_sill": 0.5,
        "movement_to_side": 0.5,
        "warmest_white_c": None,
        "warmest_light_c": None,
        "warmest_dark_c": None,
        "default_uncertainty": DefaultUncertainty(
            length_mm=None, deviation_mm=None, temperature_k=None, humidity_pct=None
        ),
        "slope_over_at_least_mm": 0.0,
        "least_leakage_points": 3,
        "flow_air_unread_pct": 0,
        "flow_pressure_unread_pct": 0,
        "longest_gap_day_h": None,
        "longest_gap_night_h": None,
        "stage_closed_by": StageClosing.model_construct(**dict.fromkeys(StageClosing.model_fields)),
    }
)
"""What held before a rule set could state it: a pack of then is judged again as it was judged then."""
