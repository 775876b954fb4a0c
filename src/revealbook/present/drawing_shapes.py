"""What a drawing is made of: strokes, discs, texts and marks on paper, in millimetres, y downwards."""

from collections.abc import Iterable
from enum import StrEnum
from functools import cache
from typing import Literal, NamedTuple

from revealbook.rules.finding import Outcome

Anchor = Literal["start", "middle", "end"]
TEXT_MM = 2.3
"""Size of the drawing's text, mm (6.5 pt): digits stand 1.6 mm high."""
_ASCENT, _DESCENT = 0.74, 0.24
_WIDTHS = {
    0.31: " \u00a0!,.:;'ijlIíìïîI·",
    0.42: "frtJ-()[]|",
    0.56: "acegksvxyzLFETáàâäéèêëç+=<>/?",
    0.6: "0123456789bdhnopquPSXYZKCöóòôüúùûñß×",
    0.7: "ABGDRNHUOQVÄÖÜÉ",
    0.87: "wmMŴŵ&…¶",
    1.05: "WÆŒæœ%@©¼½¾",
}
"""Widths of characters in the Fira Sans of the pages, as a share of the size, rounded up by class."""
_CAPITAL, _OTHER = 0.75, 0.7


class Role(StrEnum):
    """What a stroke or disc stands for; the template gives each its line. Drawn in this order."""

    WALL = "wall"
    OPENING = "wall opening"
    PIECE = "frame piece"
    PIECE_NOT_SHOWN = "frame piece, not shown"
    SUPPORT = "support"
    WINDOW = "window frame"
    WINDOW_NOT_SHOWN = "window frame, not shown"
    GLASS = "glass"
    OPENING_LINES = "opening lines"
    PLINTH = "plinth profile"
    BRACKET = "plinth bracket"
    PACKER = "packer"
    PLINTH_SCREW = "screw of the plinth profile"
    JOINT = "lengthwise joint"
    HOLE = "hole"
    FIXING = "fixing"
    WINDOW_FIXING = "fixing of the window"
    LOAD_POINT = "load point"
    MASONRY = "section: wall"
    INSULATION = "section: insulation"
    FRAME_CUT = "section: frame"
    HATCH = "section: hatching"
    FOAM = "section: foam"
    TAPE = "section: tape"
    LAYER_NOT_SHOWN = "section: not shown"
    DIMENSION = "dimension"
    TICK = "tick"
    LEADER = "leader"
    LEADER_END = "end of a leader"


class Point(NamedTuple):
    """A place on paper, mm."""

    x: float
    y: float

    def moved(self, by: "Point") -> "Point":
        """The same elsewhere, to a hundredth of a millimetre."""
        return Point(round(self.x + by.x, 2), round(self.y + by.y, 2))


class Box(NamedTuple):
    """An upright rectangle on paper, mm."""

    left: float
    top: float
    right: float
    bottom: float

    def meets(self, other: "Box", gap: float = 0.0) -> bool:
        """Whether the two overlap or come nearer than a gap."""
        return (
            self.left < other.right + gap
            and other.left < self.right + gap
            and self.top < other.bottom + gap
            and other.top < self.bottom + gap
        )

    def holds(self, x: float, y: float) -> bool:
        """Whether a point lies inside."""
        return self.left <= x <= self.right and self.top <= y <= self.bottom

    def inside(self, other: "Box") -> bool:
        """Whether it lies wholly inside another, to a thousandth of a millimetre."""
        slack = 1e-3
        return (
            self.left >= other.left - slack
            and self.top >= other.top - slack
            and self.right <= other.right + slack
            and self.bottom <= other.bottom + slack
        )

    def grown(self, by: float) -> "Box":
        """The same with a margin all round."""
        return Box(self.left - by, self.top - by, self.right + by, self.bottom + by)


def around(boxes: Iterable[Box]) -> Box:
    """Give the smallest box that holds all of some."""
    left, top, right, bottom = zip(*boxes, strict=True)
    return Box(min(left), min(top), max(right), max(bottom))


class Stroke(NamedTuple):
    """A line through points; closed, it is a surface."""

    role: Role
    points: tuple[Point, ...]
    closed: bool = False

    @property
    def box(self) -> Box:
        """The smallest box around it."""
        return around(Box(*point, *point) for point in self.points)

    def moved(self, by: Point) -> "Stroke":
        """The same elsewhere."""
        return self._replace(points=tuple(point.moved(by) for point in self.points))


class Disc(NamedTuple):
    """A circle."""

    role: Role
    x: float
    y: float
    radius: float

    @property
    def box(self) -> Box:
        """The smallest box around it."""
        return Box(self.x, self.y, self.x, self.y).grown(self.radius)

    def moved(self, by: Point) -> "Disc":
        """The same elsewhere."""
        x, y = Point(self.x, self.y).moved(by)
        return self._replace(x=x, y=y)


class Text(NamedTuple):
    """A line of text by its baseline; turned, it is read from the right.

    Attributes:
        x: where its anchor stands.
        y: its baseline (turned: its anchor, with x as its baseline).
        text: the words or number.
        anchor: which part of it stands there.
        turned: whether it runs upwards.
        backed: whether it hides lines behind it.
    """

    x: float
    y: float
    text: str
    anchor: Anchor = "middle"
    turned: bool = False
    backed: bool = False

    @property
    def box(self) -> Box:
        """The room it takes, never less than it does."""
        width = text_width(self.text)
        before = {"start": 0.0, "middle": width / 2, "end": width}[self.anchor]
        up, down = _ASCENT * TEXT_MM, _DESCENT * TEXT_MM
        if self.turned:
            return Box(self.x - up, self.y + before - width, self.x + down, self.y + before)
        return Box(self.x - before, self.y - up, self.x - before + width, self.y + down)

    def moved(self, by: Point) -> "Text":
        """The same elsewhere."""
        x, y = Point(self.x, self.y).moved(by)
        return self._replace(x=x, y=y)


class Mark(NamedTuple):
    """The shape of an outcome; what does not conform carries its number in the list of nonconformities."""

    outcome: Outcome
    number: str
    box: Box

    def moved(self, by: Point) -> "Mark":
        """The same elsewhere."""
        left, top, right, bottom = self.box
        return self._replace(box=Box(*Point(left, top).moved(by), *Point(right, bottom).moved(by)))


_BY_CHARACTER = {character: width for width, characters in _WIDTHS.items() for character in characters}


@cache
def text_width(text: str) -> float:
    """Give a width in mm that a text in the drawing's size never exceeds."""
    return TEXT_MM * sum(map(_share, text))


def _share(character: str) -> float:
    return _BY_CHARACTER.get(character) or (_CAPITAL if character.isupper() else _OTHER)


def text_in(box: Box, text: str) -> Text:
    """Give a text in the middle of a box."""
    middle = (box.top + box.bottom) / 2 + (_ASCENT - _DESCENT) * TEXT_MM / 2
    return Text((box.left + box.right) / 2, middle, text)


TEXT_HEIGHT_MM = (_ASCENT + _DESCENT) * TEXT_MM


def rectangle(role: Role, box: Box) -> Stroke:
    """Give the outline of a box."""
    left, top, right, bottom = box
    corners = (Point(left, top), Point(right, top), Point(right, bottom), Point(left, bottom))
    return Stroke(role, corners, closed=True)
