from tests.present import elevations

from revealbook.present.drawing_dimensions import draw_dimensions
from revealbook.present.drawing_input import ElevationInput, PieceShown
from revealbook.present.drawing_parts import draw_parts, frame_box
from revealbook.present.drawing_scene import Paper, scene_of
from revealbook.present.drawing_shapes import Box, Text
from revealbook.present.drawing_sheet import Sheet

PAPER = Paper(20)


def drawn(given: ElevationInput) -> tuple[Box, list[Text]]:
    sheet, scene = Sheet(), scene_of(given)
    draw_parts(scene, PAPER, sheet)
    draw_dimensions(scene, PAPER, sheet, elevations.ENGLISH)
    return frame_box(scene, PAPER), sheet.texts


def at_side(given: ElevationInput, side: str) -> list[str]:
    frame, texts = drawn(given)
    outside = {
        "bottom": Box(-500, frame.bottom, 500, 500),
        "top": Box(-500, -500, 500, frame.top),
        "left": Box(-500, -500, frame.left, 500),
        "right": Box(frame.right, -500, 500, 500),
    }[side]
    return [text.text for text in texts if text.box.inside(outside)]


def test_below_stand_holes_then_overlaps_with_the_opening_then_the_length() -> None:
    assert at_side(elevations.given(), "bottom") == [
        "180", "515", "515", "180", "80", "opening 1230", "80", "length 1390",
    ]  # fmt: skip


def test_above_stand_holes_overlaps_and_the_length() -> None:
    assert at_side(elevations.given(), "top") == ["180", "515", "515", "180", "80", "80", "length 1390"]


def test_the_left_carries_the_opening_beside_the_length_of_its_piece() -> None:
    left = at_side(elevations.given(), "left")
    assert left == ["180", "560", "560", "180", "length 1480", "opening 1480"]
    assert at_side(elevations.given(), "right")[-1] == "length 1480"


def test_a_side_piece_that_is_not_as_long_as_the_opening_has_a_row_of_its_own() -> None:
    short = {**elevations.pieces(1230, 1480), "left": elevations.piece(1400)}
    _, texts = drawn(elevations.given(pieces=short))
    length, clear = (
        next(one for one in texts if one.text == said) for said in ("length 1400", "opening 1480")
    )
    assert abs(length.x - clear.x) > 2


def test_supports_and_brackets_are_named_rows() -> None:
    given = elevations.given(supports=elevations.supports(400, 1000), plinth=elevations.plinth(1230))
    below = at_side(given, "bottom")
    assert below[4:7] == ["400", "600", "supports"]
    assert below[7:10] == ["150", "880", "brackets"]


def test_without_a_length_the_chain_ends_at_the_last_hole() -> None:
    no_length = {**elevations.pieces(1230, 1480), "bottom": PieceShown(holes_mm=(180.0, 700.0))}
    assert at_side(elevations.given(pieces=no_length), "bottom") == ["180", "520", "opening 1230"]


def test_a_piece_that_is_not_shown_has_no_dimension() -> None:
    assert at_side(elevations.given(pieces={}), "top") == []
    assert at_side(elevations.given(pieces={}), "right") == []
    assert at_side(elevations.given(pieces={}), "left") == ["opening 1480"]


def test_joint_widths_stand_in_the_glass_near_their_place() -> None:
    _, texts = drawn(elevations.given())
    inside = [text for text in texts if text.backed]
    assert len(inside) == 12
    left = [text for text in inside if text.anchor == "start"]
    assert [text.text for text in sorted(left, key=lambda text: -text.y)] == ["12", "12.5", "11"]
