"""Sizes typed in another unit or with a digit too many: 1/10, 1/25.4 or ten times what the others say."""

from collections.abc import Iterator
from statistics import median
from typing import Any, NamedTuple

from revealbook.records.opening import Opening
from revealbook.records.part import Loc
from revealbook.records.record import Record
from revealbook.source.problem import Problem

_FACTORS = {"cm": 10.0, "in": 25.4, "ten": 0.1}
"""What a value is to be multiplied by to be right, by the slip."""
_NEAR = 0.2
"""How far off what the others say a size may then be; joints and overlaps lie within it."""
_OVERLAPS_MM = 160.0
_PIECES: Loc = ("frame", "pieces")
_ACROSS: tuple[tuple[Loc, float], ...] = (
    (("opening", "width_mm"), 0),
    *((("survey", "widths_mm", place), 0.0) for place in ("top", "middle", "bottom")),
    (("window", "width_mm"), 0),
    ((*_PIECES, "bottom", "length_mm"), _OVERLAPS_MM),
    ((*_PIECES, "top", "length_mm"), _OVERLAPS_MM),
    (("plinth", "length_mm"), 0),
)
_UPWARDS: tuple[tuple[Loc, float], ...] = (
    (("opening", "height_mm"), 0),
    *((("survey", "heights_mm", place), 0.0) for place in ("left", "middle", "right")),
    (("window", "height_mm"), 0),
    ((*_PIECES, "left", "length_mm"), 0),
    ((*_PIECES, "right", "length_mm"), 0),
)
"""Sizes that are all about the opening's width or height, with what each is longer by."""


class _Size(NamedTuple):
    value: float
    path: Loc
    longer_by: float


def sizes_off(record: Record) -> Iterator[Problem]:
    """Give a problem for every size that only makes sense in another unit, by what the others say."""
    for sizes in (_ACROSS, _UPWARDS):
        known = list(_known(record.opening, sizes))
        for size in known:
            others = [other for other in known if other is not size]
            reference = _reference(size, others)
            slip = None if reference is None else _slip(size.value, reference)
            if slip is not None:
                facts = {
                    "key": size.path[-1],
                    "value": size.value,
                    "slip": slip,
                    "about": round(reference or 0),
                }
                yield Problem(record.sheet.place(size.path), "size_off", facts)


def _known(opening: Opening, sizes: tuple[tuple[Loc, float], ...]) -> Iterator[_Size]:
    for path, longer_by in sizes:
        here: Any = opening
        for key in path:
            here = None if here is None else getattr(here, str(key))
        if here is not None:
            yield _Size(float(here), path, longer_by)


def _reference(size: _Size, others: list[_Size]) -> float | None:
    """Give what a size should be by the others; of two that disagree, the nominal one is believed."""
    if not others or (len(others) == 1 and size.path[0] == "opening"):
        return None
    return median(other.value - other.longer_by for other in others) + size.longer_by


def _slip(value: float, reference: float) -> str | None:
    return next(
        (slip for slip, factor in _FACTORS.items() if abs(value * factor / reference - 1) <= _NEAR), None
    )
