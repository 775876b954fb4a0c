"""How to measure and decide: parameters set by a standard's edition or by contract, not by nature.

They stand in a rule set under `method:` and reach a measure as part of `Work`, never as a global.
"""

from collections.abc import Mapping
from types import MappingProxyType
from typing import Any, Literal

from pydantic import BaseModel, ConfigDict, Field


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
    gamma_dead: float = Field(
        default=1.35, ge=1, le=2, description="Partial factor of dead load (EN 1990, from memory)."
    )
    gamma_wind: float = Field(
        default=1.5, ge=1, le=2, description="Partial factor of wind load (EN 1990, from memory)."
    )
    interaction: Literal["linear", "linear to 1.2", "power 1.5", "power 2", "bolt"] = Field(
        default="linear",
        description="How tension and shear on a fixing are added; linear unless its approval says otherwise.",
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


METHOD_OF_FORMAT_1: Mapping[str, Any] = MappingProxyType({"computations": 1})
"""What held before a rule set could state it: a pack of then is judged again as it was judged then."""
