"""The numbers of practice of the clerk's desk: data, not code; common practice, no source."""

from functools import cache
from importlib.resources import files
from typing import Literal

from pydantic import BaseModel, ConfigDict, Field

from revealbook.records.quantities import Many
from revealbook.source.problem import Problem
from revealbook.source.read import read_bytes

Pattern = Many[str]
"""A place in a record; `*` stands for any one part of it."""
HiddenBy = Literal["frame", "seals", "covering", "never"]


class _Stated(BaseModel):
    model_config = ConfigDict(frozen=True, strict=True, extra="forbid")


class Hidden(_Stated):
    """What hides the values at a place."""

    at: Pattern
    by: HiddenBy


class Agree(_Stated):
    """Highest chance that an honest reading repeats, by the grid that its taker reads on."""

    grid_mm: float = Field(gt=0)
    chance: float = Field(gt=0, lt=1)


class Block(_Stated):
    """Readings that are taken together, at one opening after the other."""

    name: Literal["survey", "frame", "line", "joints", "seals"]
    at: Many[Pattern]
    agree: Many[Agree]


class OtherSize(_Stated):
    """Highest chance that a clear size repeats at an opening of another nominal size."""

    apart_mm: float = Field(gt=0)
    chance: float = Field(gt=0, lt=1)


class Repeated(_Stated):
    """When repeated readings are worth a question."""

    blocks: Many[Block]
    least_readings: int = Field(ge=2)
    other_size: OtherSize
    on_grid: float = Field(gt=0.5, le=1)


class OnLimit(_Stated):
    """When readings exactly on a limit are worth a question."""

    least_readings: int = Field(ge=3)
    least_on_limit: int = Field(ge=2)


class Places(_Stated):
    """When one person's times at two openings are worth a question, minutes."""

    tolerance_min: float = Field(ge=0)


class Pace(_Stated):
    """Below how many minutes work is worth a question."""

    least_bonding_min: float = Field(ge=0)
    least_setting_min: float = Field(ge=0)
    least_between_frames_min: float = Field(ge=0)
    least_between_windows_min: float = Field(ge=0)


class Entries(_Stated):
    """When the times of entries are worth a question."""

    tolerance_min: float = Field(ge=0)
    late_days: float = Field(gt=0)


class Photos(_Stated):
    """How far a camera's clock may be from any work at the opening, hours."""

    away_h: float = Field(gt=0)


class Practice(_Stated):
    """All numbers of practice of the clerk's desk."""

    hidden: Many[Hidden]
    false_alarm: float = Field(gt=0, lt=1)
    repeated: Repeated
    on_limit: OnLimit
    places: Places
    pace: Pace
    entries: Entries
    photos: Photos


@cache
def practice() -> Practice:
    """Give the numbers of practice that come with the program.

    Raises:
        ValueError: the file is damaged.
    """
    raw = (files(__package__) / "practice.yaml").read_bytes()
    document = read_bytes(raw, "practice.yaml")
    if isinstance(document, Problem):
        raise ValueError(f"practice.yaml cannot be used: {document.code}")  # noqa: TRY004 - a value, not a type
    return Practice.model_validate(document.data)


def fits(path: tuple[str | int, ...], pattern: tuple[str, ...]) -> bool:
    """Whether a place lies at a pattern or below it."""
    if len(path) < len(pattern):
        return False
    return all(wanted in {"*", part} for wanted, part in zip(pattern, path[: len(pattern)], strict=True))
