"""The values of a record by their places, and until when each can be measured again."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from datetime import datetime
from typing import Any

from pydantic import BaseModel

from revealbook.inspection.practice import HiddenBy, fits, practice
from revealbook.measures.reading import Path
from revealbook.records.applications import applications
from revealbook.records.opening import Opening

WORK = ("survey", "frame", "supports", "plinth", "window", "seals")
"""Sections of the record that hold readings of the work."""
_DEVIATIONS = ("out_of_plumb_mm", "out_of_level_mm", "out_of_line_mm", "bow_mm")
_KINDS = {"_mm": "length", "_c": "temperature", "_rh_pct": "humidity", "_pa": "pressure", "_m3_h": "flow"}


def values(part: BaseModel, below: Path = ()) -> Mapping[Path, Any]:
    """Give every plain value of a part of a record by its place; what is missing is not there."""
    return dict(_values(part, below))


def _values(part: Any, below: Path) -> Iterator[tuple[Path, Any]]:
    if part is None:
        return
    if isinstance(part, BaseModel):
        for key, value in part.__dict__.items():
            yield from _values(value, (*below, key))
    elif isinstance(part, tuple):
        for number, value in enumerate(part):
            yield from _values(value, (*below, number))
    else:
        yield below, part


def work_values(opening: Opening) -> Mapping[Path, Any]:
    """Give the values of all sections that hold readings of the work."""
    found: dict[Path, Any] = {}
    for section in WORK:
        found.update(_values(getattr(opening, section), (section,)))
    return found


def is_number(value: Any) -> bool:
    """Whether a value is a number; a truth value is none."""
    return isinstance(value, int | float) and not isinstance(value, bool)


def quantity_key(path: Path) -> str:
    """Give the key that names a value's quantity and unit: the nearest one with a unit, else the last."""
    keys = [part for part in path if isinstance(part, str)]
    return next((key for key in reversed(keys) if _kind(key)), keys[-1])


def instrument_kind(path: Path) -> str | None:
    """Say what kind of instrument takes the value at a place, as `measures` in site.yaml; None if none does.

    Deviations are taken with a level, other lengths with a tape, as the measures of the rules reckon.
    """
    return _kind(quantity_key(path))


def _kind(key: str) -> str | None:
    if key in _DEVIATIONS:
        return "deviation"
    return next((kind for unit, kind in _KINDS.items() if f"_{key}".endswith(unit)), None)


@dataclass(frozen=True, slots=True)
class Position:
    """A value that can be measured again.

    Attributes:
        path: its place in the record; that of the whole list for positions along a piece.
        value: the fitter's value; a tuple for a list.
        hidden_by: what hides it for good.
        hidden_at: when that happened, if the record tells; None if it has not or nobody wrote it down.
    """

    path: Path
    value: Any
    hidden_by: HiddenBy
    hidden_at: datetime | None


def positions(opening: Opening) -> tuple[Position, ...]:
    """Give the values of a record that an inspector can measure again, in the order of the record."""
    moments = hiding_moments(opening)
    whole: dict[Path, list[Any]] = {}
    for path, value in work_values(opening).items():
        if is_number(value):
            listed = isinstance(path[-1], int)
            whole.setdefault(path[:-1] if listed else path, []).append(value)
    found = []
    for path, given in whole.items():
        hidden = next((one for one in practice().hidden if fits(path, one.at)), None)
        if hidden is not None:
            value = tuple(given) if len(given) > 1 else given[0]
            found.append(Position(path, value, hidden.by, moments.get(hidden.by)))
    return tuple(found)


def hiding_moments(opening: Opening) -> dict[str, datetime | None]:
    """Give when the frame, the seals and the covering hid what lies behind them, as far as recorded."""
    bonded = (one.recorded.pressed_at or one.recorded.laid_at for one in applications(opening))
    pressed = max((at for at in bonded if at), default=None)
    sealed = [event.at for event in (opening.seals.events or () if opening.seals else ()) if event.at]
    return {
        "frame": pressed or (opening.frame.at if opening.frame else None),
        "seals": min(sealed, default=None),
        "covering": opening.covering.at if opening.covering else None,
        "never": None,
    }
