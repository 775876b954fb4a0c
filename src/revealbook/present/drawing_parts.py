"""The parts of an opening as strokes and discs on paper: wall, frame, supports, window, plinth profile."""

from collections.abc import Iterator

from revealbook.present.drawing_input import PIECES
from revealbook.present.drawing_scene import Paper, Placed, Scene
from revealbook.present.drawing_shapes import (
    Box,
    Disc,
    Point,
    Role,
    Stroke,
    around,
    rectangle,
)
from revealbook.present.drawing_sheet import Sheet

HATCH_MM = 1.0
"""Width of the hatched band of wall around the frame, mm of paper."""
_HATCH_STEP_MM = 3.5
_SYMBOL_MM = 0.75
"""Radius that a hole is drawn with, mm of paper: to scale it could not be seen."""
_MEMBER_MM = 70.0
"""Width a member of the window's frame is drawn with; for the picture only."""
_SCREW_MM = 0.6


def draw_parts(scene: Scene, paper: Paper, sheet: Sheet) -> None:
    """Draw everything that was built."""
    sheet.strokes += _wall(scene, paper)
    sheet.strokes.append(rectangle(Role.OPENING, paper.box(scene.opening)))
    sheet.strokes += _pieces(scene, paper)
    sheet.strokes += _supports(scene, paper)
    sheet.strokes += _window(scene, paper)
    sheet.strokes += _plinth(scene, paper)
    for name in PIECES:
        sheet.discs += _holes(scene, paper, name)
        sheet.strokes += _fixings(scene, paper, name)
    sheet.strokes += _load_points(scene, paper)
    sheet.discs += _window_fixings(scene, paper)


def frame_box(scene: Scene, paper: Paper) -> Box:
    """Give the room that frame and supports take on paper, with the band of wall around the frame."""
    frame = around(paper.box(piece) for piece in scene.pieces.values()).grown(HATCH_MM)
    return around([frame, *(paper.box(one) for one in scene.supports if one)])


def _wall(scene: Scene, paper: Paper) -> Iterator[Stroke]:
    """Hatch a narrow band of wall along the four outer edges of the frame."""
    left, top, right, bottom = around(paper.box(piece) for piece in scene.pieces.values())
    wide, high = right - left, bottom - top
    for index in range(int(wide / _HATCH_STEP_MM) + 1):
        x = left + index * _HATCH_STEP_MM
        yield _slant(x, top)
        yield _slant(min(x + HATCH_MM, right), bottom + HATCH_MM)
    for index in range(1, int(high / _HATCH_STEP_MM) + 1):
        y = top + index * _HATCH_STEP_MM
        yield _slant(left - HATCH_MM, y)
        yield _slant(right, y)


def _slant(x: float, y: float) -> Stroke:
    return Stroke(Role.WALL, (Point(x, y), Point(x + HATCH_MM, y - HATCH_MM)))


def _pieces(scene: Scene, paper: Paper) -> Iterator[Stroke]:
    for name in PIECES:
        if name in scene.given.left_out:
            continue
        placed = scene.pieces[name]
        yield rectangle(Role.PIECE if placed.shown else Role.PIECE_NOT_SHOWN, paper.box(placed))
        for at in scene.piece(name).joints_mm:
            if at is not None:
                yield _across(Role.JOINT, placed, at, paper)


def _across(role: Role, placed: Placed, at_mm: float, paper: Paper, beyond: float = 0.7) -> Stroke:
    """Give a line across a part at a position along it, a little longer than the part is wide."""
    left, top, right, bottom = paper.box(placed)
    x, y = paper.at(*placed.along(at_mm))
    if placed.upright:
        return Stroke(role, (Point(left - beyond, y), Point(right + beyond, y)))
    return Stroke(role, (Point(x, top - beyond), Point(x, bottom + beyond)))


def _supports(scene: Scene, paper: Paper) -> Iterator[Stroke]:
    for placed in scene.supports:
        if placed is not None:
            yield rectangle(Role.SUPPORT if placed.shown else Role.PIECE_NOT_SHOWN, paper.box(placed))


def _holes(scene: Scene, paper: Paper, name: str) -> Iterator[Disc]:
    for at in scene.piece(name).holes_mm or ():
        yield Disc(Role.HOLE, *paper.at(*scene.pieces[name].along(at)), _SYMBOL_MM)


def _fixings(scene: Scene, paper: Paper, name: str) -> Iterator[Stroke]:
    """Draw a cross at every recorded fixing, whether a hole was recorded there or not."""
    for at in sorted({at for one in scene.piece(name).fixings_mm for at in one}):
        x, y = paper.at(*scene.pieces[name].along(at))
        reach = _SYMBOL_MM + 0.35
        yield Stroke(Role.FIXING, (Point(x - reach, y), Point(x + reach, y)))
        yield Stroke(Role.FIXING, (Point(x, y - reach), Point(x, y + reach)))


def _load_points(scene: Scene, paper: Paper) -> Iterator[Stroke]:
    bottom = scene.pieces["bottom"]
    for at in scene.given.load_points_mm:
        x, y = paper.at(bottom.left + at, bottom.top)
        corners = (Point(x, y), Point(x - 0.9, y - 1.9), Point(x + 0.9, y - 1.9))
        yield Stroke(Role.LOAD_POINT, corners, closed=True)


def glass_of(scene: Scene) -> Placed:
    """Give the glass inside the window's frame, with members of a usual width."""
    window = scene.window
    width, height = window.right - window.left, window.top - window.bottom
    member = max(0.0, min(_MEMBER_MM, width / 4, height / 4))
    return Placed(
        window.left + member, window.bottom + member, window.right - member, window.top - member, window.shown
    )


def _window(scene: Scene, paper: Paper) -> Iterator[Stroke]:
    role = Role.WINDOW if scene.window.shown else Role.WINDOW_NOT_SHOWN
    yield rectangle(role, paper.box(scene.window))
    if scene.window.shown:
        glass = paper.box(glass_of(scene))
        yield rectangle(Role.GLASS, glass)
        yield from _opening_lines(scene, glass)


def _opening_lines(scene: Scene, glass: Box) -> Iterator[Stroke]:
    """Draw the way of opening: the two lines of a casement meet at its hinges."""
    window = scene.given.window
    kind = window.opening_kind if window else None
    left, top, right, bottom = glass
    x, y = (left + right) / 2, (top + bottom) / 2
    meeting: list[tuple[Point, Point, Point]] = []
    if kind in ("side hung", "tilt and turn") and window and window.hinge_side:
        hinge, free = (left, right) if window.hinge_side == "left" else (right, left)
        meeting.append((Point(free, top), Point(hinge, y), Point(free, bottom)))
    if kind in ("bottom hung", "tilt and turn"):
        meeting.append((Point(left, top), Point(x, bottom), Point(right, top)))
    if kind == "top hung":
        meeting.append((Point(left, bottom), Point(x, top), Point(right, bottom)))
    if kind == "sliding":
        reach = (right - left) / 5
        meeting.append((Point(x + reach - 2, y - 1), Point(x + reach, y), Point(x + reach - 2, y + 1)))
        yield Stroke(Role.OPENING_LINES, (Point(x - reach, y), Point(x + reach, y)))
    for points in meeting:
        yield Stroke(Role.OPENING_LINES, points)


def _plinth(scene: Scene, paper: Paper) -> Iterator[Stroke]:
    placed, given = scene.plinth, scene.given.plinth
    if placed is None or given is None:
        return
    yield rectangle(Role.PLINTH if placed.shown else Role.PIECE_NOT_SHOWN, paper.box(placed))
    _, top, _, bottom = paper.box(placed)
    for at in given.brackets_mm:
        if at is not None:
            x, _ = paper.at(*placed.along(at))
            yield rectangle(Role.BRACKET, Box(x - 0.6, top, x + 0.6, bottom))
            if given.packers_mm:
                packer = Placed(
                    placed.left + at - 60,
                    placed.bottom - given.packers_mm,
                    placed.left + at - 20,
                    placed.bottom,
                )
                yield rectangle(Role.PACKER, paper.box(packer))
    for at in given.screws_mm:
        x, _ = paper.at(*placed.along(at))
        yield Stroke(Role.PLINTH_SCREW, (Point(x, top - _SCREW_MM), Point(x, top + _SCREW_MM)))
    for joint in given.joints_mm:
        if joint is not None:
            yield _across(Role.JOINT, placed, joint, paper)


def _window_fixings(scene: Scene, paper: Paper) -> Iterator[Disc]:
    window, half = scene.window, (glass_of(scene).left - scene.window.left) / 2
    if not (window.shown and scene.given.window):
        return
    for side, positions in scene.given.window.fixings_mm:
        for at in positions:
            place = {
                "left": (window.left + half, window.bottom + at),
                "right": (window.right - half, window.bottom + at),
                "bottom": (window.left + at, window.bottom + half),
                "top": (window.left + at, window.top - half),
            }.get(side or "")
            if place is not None:
                yield Disc(Role.WINDOW_FIXING, *paper.at(*place), 0.4)
