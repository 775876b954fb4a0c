"""One row of dimensions: a line with ticks beside the drawing, and its figures where they have room.

A figure stands on the line if it is narrower than its span; else below the line; else further below, shifted
and led to its span; a figure for which nothing is free is left out and counted.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from typing import Literal, NamedTuple

from revealbook.present.drawing_shapes import (
    TEXT_MM,
    Point,
    Role,
    Stroke,
    Text,
    text_width,
)
from revealbook.present.drawing_sheet import Sheet

Side = Literal["bottom", "top", "left", "right"]
_UPPER_SIDES = ("top", "left")
"""Sides at which the upper side of a text looks away from the drawing."""
LINE_DEPTH_MM = 0.7
OVER_MM = 2.35
"""Depth of figures on the line."""
UNDER_MM = (2.85, 5.3)
"""Depth of figures below it, by their lane."""
_BASELINES = (-0.55, 2.25, 4.7)
_GAP_MM = 0.5
_TICK_MM = 0.65
_SHIFTS = (0.0, 1.5, -1.5, 3.0, -3.0, 4.5, -4.5, 6.0, -6.0, 8.0, -8.0, 10.0, -10.0)


class Span(NamedTuple):
    """A distance to be written, from and to along the row in mm of paper; no text, only ticks."""

    start: float
    end: float
    text: str = ""


class _Figure(NamedTuple):
    lane: int
    at: float
    width: float
    led_from: float | None

    def clear_of(self, others: "Sequence[_Figure]") -> bool:
        return all(
            other.lane != self.lane or abs(other.at - self.at) >= (other.width + self.width) / 2 + _GAP_MM
            for other in others
        ) and not (self.lane == 2 and any(_crossed(self, other) for other in others))  # noqa: PLR2004


def _crossed(figure: _Figure, other: _Figure) -> bool:
    """Whether the line that leads to a figure of the last lane passes through one of the lane before it."""
    if other.lane != 1 or figure.led_from is None:
        return False
    low, high = sorted((figure.led_from, figure.at))
    return low < other.at + other.width / 2 + 0.3 and other.at - other.width / 2 - 0.3 < high


@dataclass(slots=True)
class Row:
    """A row with its figures placed.

    Attributes:
        side: at which side of the drawing it runs.
        spans: its distances.
        name: what stands at its right end, if it needs a name.
        left_out: how many figures had no room.
    """

    side: Side
    spans: tuple[Span, ...]
    name: str = ""
    left_out: int = 0
    placed: list[tuple[str, _Figure]] = field(default_factory=list)

    def __post_init__(self) -> None:
        """Place every figure."""
        for span in self.spans:
            if span.text and (figure := self._room_for(span)):
                self.placed.append((span.text, figure))
            elif span.text:
                self.left_out += 1

    def _room_for(self, span: Span) -> _Figure | None:
        others = [figure for _, figure in self.placed]
        return next((one for one in _candidates(span) if one.clear_of(others)), None)

    @property
    def depths(self) -> tuple[float, float]:
        """How far it reaches from its line towards the drawing and away from it."""
        lanes = {figure.lane for _, figure in self.placed}
        over = OVER_MM if 0 in lanes else LINE_DEPTH_MM
        under = UNDER_MM[max(lanes) - 1] if lanes - {0} else LINE_DEPTH_MM
        return (under, over) if self.side in _UPPER_SIDES else (over, under)


def _candidates(span: Span) -> Iterator[_Figure]:
    width, middle = text_width(span.text), (span.start + span.end) / 2
    if width + 2 * _GAP_MM <= span.end - span.start:
        yield _Figure(0, middle, width, None)
    for lane in (1, 2):
        for shift in _SHIFTS:
            led = None if lane == 1 and not shift else middle
            yield _Figure(lane, middle + shift, width, led)


def draw_row(row: Row, line: float, sheet: Sheet) -> None:
    """Draw a row whose line stands at a distance from the axis, in mm of paper (y or x)."""
    upright = row.side in ("left", "right")

    def at(along: float, down: float) -> Point:
        """Give a place by its position along the line and its distance below it (read from the right)."""
        return Point(line + down, along) if upright else Point(along, line + down)

    stops = sorted({round(stop, 4) for span in row.spans for stop in (span.start, span.end)})
    sheet.strokes.append(Stroke(Role.DIMENSION, (at(stops[0], 0), at(stops[-1], 0))))
    for stop in stops:
        sheet.strokes.append(_tick(at(stop, 0)))
    for text, (lane, along, _, led_from) in row.placed:
        baseline = _BASELINES[lane]
        written = sheet.write(Text(*at(along, baseline), text, turned=upright))
        if written and led_from is not None:
            head = at(along, baseline - 0.74 * TEXT_MM - 0.1)
            sheet.strokes.append(Stroke(Role.LEADER, (at(led_from, 0), head)))
    if row.name and not upright:
        sheet.write(Text(stops[-1] + 1.2, line + 0.35 * TEXT_MM, row.name, "start"))
    sheet.left_out += row.left_out


def _tick(at: Point) -> Stroke:
    x, y = at
    return Stroke(Role.TICK, (Point(x - _TICK_MM, y + _TICK_MM), Point(x + _TICK_MM, y - _TICK_MM)))
