"""Marks and labels find their room: nothing covers a figure, another mark or, where it can be, a part.

Every block is tried around its place in growing circles; the nearest wins, but it may stand further away
rather than cover a symbol or a line. If nothing is free there, the whole paper is searched from near to far.
The same drawing always gives the same places.
"""

from collections.abc import Iterable, Iterator, Sequence
from itertools import groupby, pairwise
from math import atan2, cos, hypot, pi, sin

from revealbook.present.drawing_input import Found
from revealbook.present.drawing_shapes import (
    TEXT_HEIGHT_MM,
    Box,
    Mark,
    Point,
    Role,
    Stroke,
    Text,
    text_in,
    text_width,
)
from revealbook.present.drawing_sheet import Sheet

MARK_MM = 3.2
"""Side of a mark, mm of paper."""
_IN_A_LINE = 4
_GAP_MM = 0.4
_RADII = (0.0, 3.0, 4.0, 5.0, 6.5, 8.0, 10.0, 12.5, 15.0, 18.0, 22.0, 27.0)
_DIRECTIONS = 16
_GRID_MM = 2.0
_SYMBOLS = frozenset(
    {
        Role.HOLE,
        Role.FIXING,
        Role.JOINT,
        Role.LOAD_POINT,
        Role.BRACKET,
        Role.TICK,
        Role.WINDOW_FIXING,
        Role.LEADER,
    }
)
_LINES = frozenset(
    {
        Role.PIECE, Role.PIECE_NOT_SHOWN, Role.WINDOW, Role.WINDOW_NOT_SHOWN, Role.GLASS, Role.DIMENSION,
        Role.PLINTH, Role.OPENING, Role.SUPPORT,
    }
)  # fmt: skip
_COSTS = {**dict.fromkeys(_SYMBOLS, 9.0), **dict.fromkeys(_LINES, 3.0)}
"""How many mm further away a block may stand rather than cover one of these."""
_CROSSING = 6.0
"""The same, rather than have its leader cross a figure."""


class Room:
    """What is taken on a sheet, so that the next block can be placed."""

    def __init__(self, sheet: Sheet, paper: Box) -> None:
        """Take note of everything on the sheet."""
        self.paper = paper
        self.hard = [text.box for text in sheet.texts] + [mark.box for mark in sheet.marks]
        self.soft = [(disc.box, _COSTS[disc.role]) for disc in sheet.discs if disc.role in _COSTS]
        for stroke in sheet.strokes:
            if stroke.role in _COSTS:
                self.soft += [(edge, _COSTS[stroke.role]) for edge in _edges(stroke)]

    def place(self, anchor: Point, width: float, height: float, towards: Point) -> Box | None:
        """Find room for a block near a place; None if the paper is full."""
        best: tuple[float, Box] | None = None
        for radius, box in _around(anchor, width, height, towards):
            if best is not None and radius >= best[0]:
                break
            if box.inside(self.paper) and not any(box.meets(other, _GAP_MM) for other in self.hard):
                cost = radius + self._cost(anchor, box)
                best = (cost, box) if best is None or cost < best[0] else best
        return best[1] if best else next(self._anywhere(anchor, width, height), None)

    def _cost(self, anchor: Point, box: Box) -> float:
        covered = max((cost for other, cost in self.soft if box.meets(other, 0.15)), default=0.0)
        return covered + (_CROSSING if self._crosses(anchor, box) else 0.0)

    def _crosses(self, anchor: Point, box: Box) -> bool:
        end = _nearest(anchor, box)
        return any(_passes(anchor, end, other) for other in self.hard)

    def _anywhere(self, anchor: Point, width: float, height: float) -> Iterator[Box]:
        left, top, right, bottom = self.paper
        across = range(int((right - left - width) / _GRID_MM) + 1)
        down = range(int((bottom - top - height) / _GRID_MM) + 1)
        places = [(left + i * _GRID_MM, top + j * _GRID_MM) for i in across for j in down]
        for x, y in sorted(places, key=lambda at: hypot(at[0] - anchor.x, at[1] - anchor.y)):
            box = Box(x, y, x + width, y + height)
            if not any(box.meets(other, _GAP_MM) for other in self.hard):
                yield box


def _edges(stroke: Stroke) -> Iterator[Box]:
    """Give the upright and level lines of a stroke as thin boxes; slanting ones are let pass."""
    points = (*stroke.points, stroke.points[0]) if stroke.closed else stroke.points
    for here, there in pairwise(points):
        if here.x == there.x or here.y == there.y:
            yield Box(min(here.x, there.x), min(here.y, there.y), max(here.x, there.x), max(here.y, there.y))


def _around(anchor: Point, width: float, height: float, towards: Point) -> Iterator[tuple[float, Box]]:
    """Give boxes around a place with their distance, nearest first, beginning in the direction of another."""
    ahead = round(_angle(anchor, towards) / (2 * pi / _DIRECTIONS))
    for radius in _RADII:
        for turn in range(_DIRECTIONS if radius else 1):
            step = (turn + 1) // 2 * (1 if turn % 2 else -1)
            angle = (ahead + step) * 2 * pi / _DIRECTIONS
            x = anchor.x + (radius + width / 2 - MARK_MM / 2 if radius else 0) * cos(angle)
            y = anchor.y + (radius + height / 2 - MARK_MM / 2 if radius else 0) * sin(angle)
            yield radius, Box(x - width / 2, y - height / 2, x + width / 2, y + height / 2)


def _angle(start: Point, end: Point) -> float:
    return atan2(end.y - start.y, end.x - start.x)


def _nearest(point: Point, box: Box) -> Point:
    return Point(min(max(point.x, box.left), box.right), min(max(point.y, box.top), box.bottom))


def _passes(start: Point, end: Point, box: Box) -> bool:
    """Whether a line passes through a box (Liang and Barsky's clipping, textbook)."""
    first, last = 0.0, 1.0
    for from_, by, low, high in (
        (start.x, end.x - start.x, box.left, box.right),
        (start.y, end.y - start.y, box.top, box.bottom),
    ):
        if by == 0:
            if not low <= from_ <= high:
                return False
            continue
        enter, leave = sorted(((low - from_) / by, (high - from_) / by))
        first, last = max(first, enter), min(last, leave)
    return first < last


def mark_width(number: str) -> float:
    """Give the width of a mark, wider for numbers of three digits."""
    return MARK_MM + max(0, len(number) - 2) * 1.4


def draw_marks(spots: Iterable[tuple[Point, Found]], room: Room, sheet: Sheet, towards: Point) -> None:
    """Mark findings at their places; those that share a place stand in one block."""
    by_spot = sorted(
        spots, key=lambda one: (one[0], not one[1].number, int(one[1].number or 0), one[1].outcome)
    )
    for anchor, group in groupby(by_spot, key=lambda one: one[0]):
        found = list(dict.fromkeys((one.outcome, one.number) for _, one in group))
        width, height = _size(found)
        box = room.place(anchor, width, height, towards)
        if box is None:
            sheet.left_out += len(found)
            continue
        sheet.marks += _block(found, box)
        room.hard.append(box)
        _lead(anchor, box, sheet)


def _size(found: Sequence[tuple[object, str]]) -> tuple[float, float]:
    widest = max(mark_width(number) for _, number in found)
    columns = min(len(found), _IN_A_LINE)
    return widest * columns, MARK_MM * -(-len(found) // _IN_A_LINE)


def _block(found: Sequence[tuple[object, str]], box: Box) -> Iterator[Mark]:
    wide = (box.right - box.left) / min(len(found), _IN_A_LINE)
    for index, (outcome, number) in enumerate(found):
        left = box.left + index % _IN_A_LINE * wide
        top = box.top + index // _IN_A_LINE * MARK_MM
        yield Mark(outcome, number, Box(left, top, left + wide, top + MARK_MM))  # type: ignore[arg-type]


def _lead(anchor: Point, box: Box, sheet: Sheet) -> None:
    end = _nearest(anchor, box)
    if hypot(end.x - anchor.x, end.y - anchor.y) > _GAP_MM:
        sheet.strokes.append(Stroke(Role.LEADER, (anchor, end)))


def draw_label(text: str, anchor: Point, room: Room, sheet: Sheet, towards: Point) -> None:
    """Write a text at a place, or near it with a line that leads there."""
    box = room.place(anchor, text_width(text), TEXT_HEIGHT_MM, towards)
    if box is None:
        sheet.left_out += 1
        return
    sheet.write(text_in(box, text)._replace(backed=True))
    room.hard.append(box)
    _lead(anchor, box, sheet)


def draw_list(lead: str, found: Sequence[Found], at: Point, width: float, sheet: Sheet) -> None:
    """Write findings that have no place of their own in lines from a place on, after a lead."""
    marked = list(dict.fromkeys((one.outcome, one.number) for one in found))
    sheet.write(Text(at.x, at.y + MARK_MM / 2 + 0.8, lead, "start"))
    start = at.x + text_width(lead) + 1
    x, y = start, at.y
    for outcome, number in marked:
        wide = mark_width(number)
        if x > start and x + wide > at.x + width:
            x, y = start, y + MARK_MM + 0.4
        sheet.marks.append(Mark(outcome, number, Box(x, y, x + wide, y + MARK_MM)))
        x += wide + 0.4
