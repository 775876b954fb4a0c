"""The step: what an elevation shows, to a drawing to scale, in millimetres of paper."""

from typing import NamedTuple

from revealbook.present.drawing_dimensions import draw_dimensions
from revealbook.present.drawing_input import ElevationInput, Found
from revealbook.present.drawing_labels import Room, draw_label, draw_list, draw_marks
from revealbook.present.drawing_parts import draw_parts, frame_box
from revealbook.present.drawing_places import spot_of
from revealbook.present.drawing_scene import Paper, Scene, scene_of
from revealbook.present.drawing_shapes import Box, Point, Role, around
from revealbook.present.drawing_sheet import Drawing, Sheet, finished
from revealbook.present.words import N_, Words
from revealbook.rules.finding import Outcome

SCALES = (5, 10, 20, 25, 50, 100, 200)
"""Scales 1:n in use (ISO 5455, and 1:25 of the trade); the last two only if nothing else fits."""
_MARGIN_MM = 0.3
_LIST_GAP_MM = 1.5
_LIST_WIDTH_MM = 80.0


class PaperSize(NamedTuple):
    """The room for a drawing on a page, mm: the text column of A4, which Letter has too."""

    width_mm: float = 169.0
    height_mm: float = 150.0


COLUMN = PaperSize()


def elevation(given: ElevationInput, words: Words, size: PaperSize = COLUMN) -> Drawing:
    """Draw an opening in elevation, seen from outside, at the largest scale that its paper holds.

    Args:
        given: what is to be shown, from a record or a plan.
        words: the reader's language.
        size: the paper there is.

    Raises:
        ValueError: the opening fits the paper at no scale (more than about 25 m).
    """
    scene = scene_of(given)
    for scale in SCALES:
        paper = Paper(scale)
        bare = frame_box(scene, paper)
        wide, high = size.width_mm - 2 * _MARGIN_MM, size.height_mm - 2 * _MARGIN_MM
        if bare.right - bare.left > wide or bare.bottom - bare.top > high:
            continue
        sheet = Sheet()
        draw_parts(scene, paper, sheet)
        draw_dimensions(scene, paper, sheet, words)
        _list_of_the_rest(scene, sheet, words)
        taken = around(sheet.boxes())
        if taken.right - taken.left <= wide and taken.bottom - taken.top <= high:
            _mark(
                scene,
                paper,
                sheet,
                Box(taken.left, taken.top, taken.left + wide, taken.top + high),
                words,
            )
            return finished(
                sheet, scale, _title(scene, scale, words), _caption(scene, sheet, scale, words), _MARGIN_MM
            )
    raise ValueError(f"{given.mark}: no scale brings {given.width_mm} x {given.height_mm} mm onto the paper.")


def _list_of_the_rest(scene: Scene, sheet: Sheet, words: Words) -> None:
    """List below the drawing the nonconformities that belong to no place on it."""
    rest = [one for one in scene.given.found if one.number and spot_of(one.path, scene) is None]
    if rest:
        taken = around(sheet.boxes())
        width = max(taken.right - taken.left, _LIST_WIDTH_MM)
        lead = words.say(N_("Of the whole opening:"))
        draw_list(lead, rest, Point(taken.left, taken.bottom + _LIST_GAP_MM), width, sheet)


def _mark(scene: Scene, paper: Paper, sheet: Sheet, page: Box, words: Words) -> None:
    room, middle = Room(sheet, page), paper.at(*scene.window.middle)
    for name, placed in scene.pieces.items():
        if not placed.shown:
            said = N_("length not shown") if scene.given.pieces.get(name) else N_("not shown")
            draw_label(words.say(said), paper.at(*placed.middle), room, sheet, middle)
    if not scene.window.shown:
        draw_label(words.say(N_("window: not shown")), middle, room, sheet, middle)
    spots = [
        (paper.at(*spot), found)
        for found in scene.given.found
        if not _said_already(found, scene)
        if (spot := spot_of(found.path, scene)) is not None
    ]
    draw_marks(spots, room, sheet, middle)


def _said_already(found: Found, scene: Scene) -> bool:
    """Whether the part itself says that it is not shown; a mark for each of its readings tells no more."""
    if found.outcome is not Outcome.NOT_SHOWN:
        return False
    match found.path:
        case ("frame", "pieces", str(name), *_):
            return not scene.given.pieces.get(name)
        case ("frame", *_):
            return not any(scene.given.pieces.values())
        case ("window" | "seals", *_):
            return scene.given.window is None
    return False


def _title(scene: Scene, scale: int, words: Words) -> str:
    """Say to a reader who cannot see it what the drawing shows."""
    given = scene.given
    shown = [piece for piece in given.pieces.values() if piece]
    said = words.say(
        N_(
            "Elevation of opening {mark} seen from outside, scale 1:{scale}: {width} × {height}, "
            "{pieces} frame pieces with {holes} holes, {supports} supports, {brackets} plinth brackets."
        ),
        mark=given.mark,
        scale=scale,
        width=words.quantity(given.width_mm, "mm"),
        height=words.quantity(given.height_mm, "mm"),
        pieces=len(shown),
        holes=sum(len(piece.holes_mm or ()) for piece in shown),
        supports=len(given.supports),
        brackets=len(given.plinth.brackets_mm) if given.plinth else 0,
    )
    numbers = sorted({int(one.number) for one in given.found if one.number})
    if not numbers:
        return said
    marked = words.listed([str(number) for number in numbers])
    return said + " " + words.say(N_("Marked nonconformities: {numbers}."), numbers=marked)


_MEET = N_("Opening lines meet at the hinges.")
_SYMBOLS = {"sliding": N_("The arrow shows which way it may slide.")}


def _caption(scene: Scene, sheet: Sheet, scale: int, words: Words) -> str:
    """Say the scale, and how to read what is on the drawing and only that."""
    window = scene.given.window
    said = [words.say(N_("Seen from outside, scale 1:{scale}, lengths in mm."), scale=scale)]
    if any(disc.role is Role.HOLE for disc in sheet.discs):
        said.append(words.say(N_("Circle: hole; cross: fixing.")))
    if scene.given.load_points_mm:
        said.append(words.say(N_("Triangle: load point.")))
    if window and window.joints_mm and scene.window.shown:
        said.append(words.say(N_("Figures inside the glass are joint widths.")))
    if any(stroke.role is Role.OPENING_LINES for stroke in sheet.strokes):
        said.append(words.say(_SYMBOLS.get(window.opening_kind or "" if window else "", _MEET)))
    outcomes = {mark.outcome for mark in sheet.marks}
    if Outcome.DOES_NOT_CONFORM in outcomes:
        said.append(words.say(N_("A number in a black square is that of the nonconformity.")))
    if Outcome.UNDECIDED in outcomes:
        said.append(words.say(N_("Half-filled diamond: undecided.")))
    if Outcome.NOT_SHOWN in outcomes:
        said.append(words.say(N_("Dashed square: not shown by the record.")))
    if sheet.left_out:
        said.append(
            words.say(N_("{number} figures had no room; the record has them."), number=sheet.left_out)
        )
    return " ".join(said)
