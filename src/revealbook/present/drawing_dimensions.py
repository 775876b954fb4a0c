"""Which dimensions an elevation carries: holes along each piece, supports, overlaps, lengths, the opening."""

from collections.abc import Iterable, Iterator
from itertools import pairwise

from revealbook.present.drawing_parts import HATCH_MM, frame_box, glass_of
from revealbook.present.drawing_rows import Row, Side, Span, draw_row
from revealbook.present.drawing_scene import Paper, Placed, Scene
from revealbook.present.drawing_shapes import Box, Role, Text
from revealbook.present.drawing_sheet import Sheet
from revealbook.present.words import N_, Words

_FIRST_GAP_MM = 0.5
_ROW_GAP_MM = 0.7
"""Room between rows above and below; at the sides there is none to spare."""
_SAME_MM = 0.15
"""Two lengths whose ends lie nearer than this on paper share a row."""
_ASIDE_MM = 2.6
"""How far the figure of a joint's middle keeps off the point where opening lines meet."""


def draw_dimensions(scene: Scene, paper: Paper, sheet: Sheet, words: Words) -> None:
    """Draw all rows around the frame, from the inside outwards, and the joint widths in the window."""
    outside = frame_box(scene, paper)
    for side in ("bottom", "top", "left", "right"):
        edge = {"bottom": outside.bottom, "top": outside.top, "left": outside.left, "right": outside.right}[
            side
        ]
        outwards = 1 if side in ("bottom", "right") else -1
        reach = _FIRST_GAP_MM
        for row in _rows(side, scene, paper, words):
            inner, outer = row.depths
            draw_row(row, edge + outwards * (reach + inner), sheet)
            reach += inner + outer + (_ROW_GAP_MM if side in ("bottom", "top") else 0.0)
    _joint_widths(scene, paper, sheet, words)


def _rows(side: Side, scene: Scene, paper: Paper, words: Words) -> Iterator[Row]:
    placed = scene.pieces[side]
    yield from _some(side, _chain(scene.piece(side).holes_mm or (), placed, paper, words, to_end=True))
    if side in ("left", "right"):
        yield from _heights(side, scene, paper, words)
        return
    if side == "bottom":
        centres = [one.centre_mm for one in scene.given.supports if one.centre_mm is not None]
        yield from _some(side, _chain(centres, placed, paper, words, to_end=False), words.say(N_("supports")))
        yield from _brackets(scene, paper, words)
    yield from _some(side, _overlaps(side, scene, paper, words))
    if placed.shown:
        yield Row(side, (_span(placed, (placed.left, placed.right), paper, words, N_("length {size}")),))


def _some(side: Side, spans: Iterable[Span], name: str = "") -> Iterator[Row]:
    """Give a row if there is anything to write in it."""
    written = tuple(spans)
    if written:
        yield Row(side, written, name)


def _chain(
    positions: Iterable[float], placed: Placed, paper: Paper, words: Words, *, to_end: bool
) -> Iterator[Span]:
    """Give the distances from a part's first end over some places, and on to its last end if it is shown."""
    stops = sorted(set(positions))
    if not stops:
        return
    start = placed.bottom if placed.upright else placed.left
    length = (placed.top if placed.upright else placed.right) - start
    ends = [length] if to_end and placed.shown and length > stops[-1] else []
    for here, there in pairwise([0.0, *stops, *ends]):
        yield _span(placed, (start + here, start + there), paper, words)


def _span(placed: Placed, ends: tuple[float, float], paper: Paper, words: Words, form: str = "") -> Span:
    """Give a distance along a part between two places in mm as built."""
    start, end = ends
    size = words.number(end - start)
    text = words.say(form, size=size) if form else size
    first, last = start / paper.scale, end / paper.scale
    return Span(-last, -first, text) if placed.upright else Span(first, last, text)


def _heights(side: Side, scene: Scene, paper: Paper, words: Words) -> Iterator[Row]:
    """Give a side piece's length and, at the left, the opening's height; in one row if they end together."""
    placed, opening = scene.pieces[side], scene.opening
    length = _span(placed, (placed.bottom, placed.top), paper, words, N_("length {size}"))
    if side == "right":
        yield from _some(side, (length,) if placed.shown else ())
        return
    clear = _span(placed, (opening.bottom, opening.top), paper, words, N_("opening {size}"))
    if not placed.shown:
        yield Row(side, (clear,))
    elif abs(length.start - clear.start) < _SAME_MM:
        yield Row(side, (length, clear._replace(start=length.start)))
    else:
        yield Row(side, (length,))
        yield Row(side, (clear,))


def _brackets(scene: Scene, paper: Paper, words: Words) -> Iterator[Row]:
    if scene.plinth is not None and scene.given.plinth is not None:
        places = [at for at in scene.given.plinth.brackets_mm if at is not None]
        yield from _some(
            "bottom", _chain(places, scene.plinth, paper, words, to_end=False), words.say(N_("brackets"))
        )


def _overlaps(side: Side, scene: Scene, paper: Paper, words: Words) -> Iterator[Span]:
    """Give overlap, opening and overlap of the bottom piece; of the top piece the overlaps alone."""
    placed, piece, opening = scene.pieces[side], scene.piece(side), scene.opening
    left, right = piece.overlap_left_mm, piece.overlap_right_mm
    if left is not None and left > 0:
        yield _span(placed, (-left, 0), paper, words)
    if side == "bottom":
        yield _span(placed, (0, opening.right), paper, words, N_("opening {size}"))
    if right is not None and right > 0:
        yield _span(placed, (opening.right, opening.right + right), paper, words)


def _joint_widths(scene: Scene, paper: Paper, sheet: Sheet, words: Words) -> None:
    """Write the joint widths just inside the glass, near the place where each was read."""
    window = scene.given.window
    if window is None or not scene.window.shown:
        return
    glass = paper.box(glass_of(scene)).grown(-HATCH_MM / 2)
    taken = [disc.box for disc in sheet.discs if disc.role is Role.HOLE]
    taken += [stroke.box for stroke in sheet.strokes if stroke.role is Role.LOAD_POINT]
    for side, widths in sorted((window.joints_mm or {}).items()):
        for share, aside, width in zip((0.14, 0.5, 0.86), (0, _ASIDE_MM, 0), widths, strict=True):
            if width is None:
                continue
            text = _beside(glass, side, (share, aside), words.number(width))
            if not text.box.inside(glass.grown(0.2)) or any(text.box.meets(other, 0.3) for other in taken):
                sheet.left_out += 1
            else:
                sheet.write(text)


def _beside(glass: Box, side: str, where: tuple[float, float], text: str) -> Text:
    """Give the figure of a joint at a share of its side's length, moved aside by some mm."""
    share, aside = where
    x = glass.left + share * (glass.right - glass.left) + aside
    y = glass.bottom - share * (glass.bottom - glass.top) + 0.8 - aside
    if side in ("left", "right"):
        place = glass.left if side == "left" else glass.right
        return Text(place, y, text, "start" if side == "left" else "end", backed=True)
    return Text(x, glass.top + 1.8 if side == "top" else glass.bottom - 0.6, text, backed=True)
