"""The kinds of values that stand in records, each with the range in which it can be true.

A range here is not a limit of practice: it only catches what cannot be meant, such as metres typed where
millimetres are asked for.
"""

import re
from datetime import date, datetime
from typing import Annotated, TypeVar

from pydantic import BeforeValidator, Field, StringConstraints
from pydantic_core import PydanticCustomError

from revealbook.source.scalars import as_written

_ZONED = re.compile(r"\d{4}-\d\d-\d\d[T ]\d\d:\d\d(:\d\d)?(Z|[+-]\d\d:\d\d)\Z")
_UNZONED = re.compile(r"\d{4}-\d\d-\d\d[T ]\d\d:\d\d(:\d\d)?\Z")
_DATE = re.compile(r"\d{4}-\d\d-\d\d\Z")


def _moment(value: object) -> object:
    if isinstance(value, datetime) and value.tzinfo is not None:
        return value
    if not isinstance(value, str) or not _ZONED.match(value):
        kind = "time_without_zone" if isinstance(value, str) and _UNZONED.match(value) else "not_a_time"
        raise PydanticCustomError(kind, "a date and time with its zone, as 2026-11-20T14:05+01:00")
    try:
        return datetime.fromisoformat(value)
    except ValueError as error:
        raise PydanticCustomError("no_such_time", "{why}", {"why": str(error)}) from error


def _day(value: object) -> object:
    if isinstance(value, date) and not isinstance(value, datetime):
        return value
    if not isinstance(value, str) or not _DATE.match(value):
        raise PydanticCustomError("not_a_date", "a date, as 2026-11-20")
    try:
        return date.fromisoformat(value)
    except ValueError as error:
        raise PydanticCustomError("no_such_time", "{why}", {"why": str(error)}) from error


Item = TypeVar("Item")
Many = Annotated[tuple[Item, ...], Field(strict=False)]
"""A list in YAML; frozen in the model."""

_Written = BeforeValidator(as_written, json_schema_input_type=str | float)

Text = Annotated[str, StringConstraints(strip_whitespace=True, min_length=1, max_length=2000), _Written]
"""Free text; a number is taken as it was written."""
Mark = Annotated[str, StringConstraints(pattern=r"^[A-Za-z0-9][A-Za-z0-9._ /+-]*$", max_length=60), _Written]
"""A short name that other places refer to."""
_SEGMENT = r"[^./\\\x00-\x1f][^/\\\x00-\x1f]*"
FileName = Annotated[str, StringConstraints(pattern=rf"^{_SEGMENT}(/{_SEGMENT})*$", max_length=200), _Written]
"""A file below a folder; no part of its path begins with a point, so that it cannot lead out of there."""

_MOMENT_SCHEMA = {"type": "string", "pattern": r"^\d{4}-\d\d-\d\d[T ]\d\d:\d\d(:\d\d)?(Z|[+-]\d\d:\d\d)$"}
Moment = Annotated[datetime, BeforeValidator(_moment), Field(json_schema_extra=_MOMENT_SCHEMA)]
Day = Annotated[date, BeforeValidator(_day)]


def _between(low: float, high: float) -> object:
    return Field(ge=low, le=high, allow_inf_nan=False)


OpeningMm = Annotated[float, _between(100, 12_000)]
LengthMm = Annotated[float, _between(20, 15_000)]
PositionMm = Annotated[float, _between(10, 15_000)]
OffsetMm = Annotated[float, _between(-500, 500)]
GapMm = Annotated[float, _between(0, 500)]
PastMm = Annotated[float, _between(0, 5_000)]
ThicknessMm = Annotated[float, _between(0.5, 500)]
DiameterMm = Annotated[float, _between(1, 40)]
DeviationMm = Annotated[float, _between(0, 200)]
HeightM = Annotated[float, _between(0, 300)]
AngleDeg = Annotated[float, _between(30, 330)]
AreaM2 = Annotated[float, _between(0.01, 60)]
LengthM = Annotated[float, _between(0.1, 500)]
TemperatureC = Annotated[float, _between(-40, 80)]
HumidityPct = Annotated[float, _between(1, 100)]
MassKg = Annotated[float, _between(0.5, 3_000)]
TorqueNm = Annotated[float, _between(0.1, 200)]
VolumeMl = Annotated[float, _between(0.1, 100_000)]
PressurePa = Annotated[float, _between(-3_000, 3_000)]
AirPressureKpa = Annotated[float, _between(50, 110)]
FlowM3H = Annotated[float, _between(0, 10_000)]
SpeedMS = Annotated[float, _between(10, 80)]
ForceN = Annotated[float, _between(1, 1_000_000)]
Hours = Annotated[float, _between(0, 10_000)]
Minutes = Annotated[float, _between(0, 10_000)]
SdM = Annotated[float, _between(0.001, 10_000)]
Percent = Annotated[float, _between(0, 1_000)]
Count = Annotated[int, Field(ge=0, le=10_000)]
WindClass = Annotated[str, StringConstraints(pattern=r"^[ABC]?([1-5]|E[2-9]\d{3})$"), _Written]
"""A class of resistance to wind load as EN 12210 writes it: C4, or CE2400 beyond the last class."""
