"""Where the parts of an opening stand on the wall, in millimetres as built, seen from outside.

The origin is the lower left corner of the clear opening, y upwards. Everything stands as recorded; a part
whose size or place is not recorded stands where it would have to be, and says that it is not shown.
"""

from dataclasses import dataclass
from typing import NamedTuple

from revealbook.present.drawing_input import (
    PIECES,
    ElevationInput,
    PieceShown,
    PlinthShown,
    SupportShown,
    WindowShown,
)
from revealbook.present.drawing_shapes import Box, Point

SUPPORT_LENGTH_MM = 150.0
"""Length a support is drawn with if none is recorded; common practice, no source."""
JOINT_MM = 12.0
"""Joint around a window whose size is not recorded; for the picture only."""
PLINTH_HEIGHT_MM = 40.0
"""Height of a plinth profile that the site file does not give; for the picture only."""


class Placed(NamedTuple):
    """A part in elevation, mm; `shown` tells whether the record gives its size."""

    left: float
    bottom: float
    right: float
    top: float
    shown: bool = True
    upright: bool = False

    @property
    def middle(self) -> tuple[float, float]:
        """Its middle."""
        return (self.left + self.right) / 2, (self.bottom + self.top) / 2

    def along(self, at_mm: float) -> tuple[float, float]:
        """Give the place on its centre line at a distance from its left or lower end."""
        x, y = self.middle
        return (x, self.bottom + at_mm) if self.upright else (self.left + at_mm, y)


@dataclass(frozen=True, slots=True)
class Scene:
    """All parts of an opening in their places; supports without a recorded position are None."""

    given: ElevationInput
    pieces: dict[str, Placed]
    window: Placed
    plinth: Placed | None
    supports: tuple[Placed | None, ...]

    @property
    def opening(self) -> Placed:
        """The clear opening."""
        return Placed(0, 0, self.given.width_mm, self.given.height_mm)

    def piece(self, name: str) -> PieceShown:
        """What is known of a piece."""
        return self.given.pieces.get(name) or PieceShown()


class Paper(NamedTuple):
    """The scale 1:n; the opening's lower left corner is at (0, 0) and y goes downwards."""

    scale: int

    def at(self, x_mm: float, y_mm: float) -> Point:
        """Give the place on paper of a place on the wall."""
        return Point(x_mm / self.scale, -y_mm / self.scale)

    def box(self, part: Placed) -> Box:
        """Give the room that a part takes on paper."""
        return Box(
            part.left / self.scale, -part.top / self.scale, part.right / self.scale, -part.bottom / self.scale
        )


def scene_of(given: ElevationInput) -> Scene:
    """Put all parts of an opening in their places."""
    pieces = _pieces(given)
    window, plinth = _window_and_plinth(given)
    bottom = pieces["bottom"]
    supports = tuple(_support(bottom, one, given) for one in given.supports)
    return Scene(given, pieces, window, plinth, supports)


def _pieces(given: ElevationInput) -> dict[str, Placed]:
    known = {name: given.pieces.get(name) or PieceShown() for name in PIECES}
    wide, high = given.width_mm, given.height_mm
    left, right = known["left"], known["right"]
    left_high, right_high = left.length_mm or high, right.length_mm or high
    shown = {name: piece.length_mm is not None for name, piece in known.items()}
    across = {"bottom": _across(known["bottom"], known, wide), "top": _across(known["top"], known, wide)}
    bottom, top = across["bottom"], across["top"]
    return {
        "bottom": Placed(bottom[0], -known["bottom"].width_mm, bottom[1], 0, shown["bottom"]),
        "left": Placed(-left.width_mm, 0, 0, left_high, shown["left"], upright=True),
        "right": Placed(wide, 0, wide + right.width_mm, right_high, shown["right"], upright=True),
        "top": Placed(top[0], high, top[1], high + known["top"].width_mm, shown["top"]),
    }


def _across(piece: PieceShown, known: dict[str, PieceShown], wide: float) -> tuple[float, float]:
    """Give the ends of a bottom or top piece: from its left overlap, else its right one, else centred."""
    expected = known["left"].width_mm + wide + known["right"].width_mm
    length = piece.length_mm or expected
    if piece.overlap_left_mm is not None:
        start = -piece.overlap_left_mm
    elif piece.overlap_right_mm is not None:
        start = wide + piece.overlap_right_mm - length
    else:
        start = (wide - length) / 2
    return start, start + length


def _support(bottom: Placed, support: SupportShown, given: ElevationInput) -> Placed | None:
    if support.centre_mm is None:
        return None
    piece = given.pieces.get("bottom") or PieceShown()
    half = (support.length_mm or SUPPORT_LENGTH_MM) / 2
    centre, top = bottom.left + support.centre_mm, bottom.bottom - (support.gap_mm or 0)
    shown = support.length_mm is not None
    return Placed(centre - half, top - piece.width_mm, centre + half, top, shown)


def _window_and_plinth(given: ElevationInput) -> tuple[Placed, Placed | None]:
    window = given.window or WindowShown()
    shown = window.width_mm is not None and window.height_mm is not None
    below = _under_the_window(given.plinth)
    width = window.width_mm or given.width_mm - 2 * JOINT_MM
    height = window.height_mm or given.height_mm - 2 * JOINT_MM - below
    left, top = _joint(window, "left"), _joint(window, "top")
    start = (given.width_mm - width) / 2 if left is None else left
    spare = given.height_mm - height
    bottom = (spare - below) / 2 + below if top is None else spare - top
    placed = Placed(start, bottom, start + width, bottom + height, shown)
    return placed, _plinth(given.plinth, placed)


def _under_the_window(plinth: PlinthShown | None) -> float:
    return 0.0 if plinth is None else (plinth.height_mm or PLINTH_HEIGHT_MM) + plinth.packers_mm


def _plinth(plinth: PlinthShown | None, window: Placed) -> Placed | None:
    if plinth is None:
        return None
    length = plinth.length_mm or window.right - window.left
    start = window.middle[0] - length / 2
    height = plinth.height_mm or PLINTH_HEIGHT_MM
    return Placed(start, window.bottom - height, start + length, window.bottom, plinth.length_mm is not None)


def _joint(window: WindowShown, side: str) -> float | None:
    """Give a joint's width: in its middle if that was read, else at the first place that was."""
    widths = (window.joints_mm or {}).get(side)
    if widths is None:
        return None
    start, middle, end = widths
    return next((width for width in (middle, start, end) if width is not None), None)
