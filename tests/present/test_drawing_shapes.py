import fontpkg_fira_sans
import pytest
from fontTools.ttLib import TTFont

from revealbook.present.drawing_shapes import (
    TEXT_MM,
    Box,
    Disc,
    Mark,
    Point,
    Role,
    Stroke,
    Text,
    around,
    rectangle,
    text_in,
    text_width,
)
from revealbook.rules.finding import Outcome


def test_no_character_is_wider_than_the_drawing_reckons() -> None:
    """Against the advance widths of the typeface that pages are set in: all of Latin, dashes and signs."""
    font = TTFont(fontpkg_fira_sans.ROOT / "files" / "FiraSans-Regular.ttf")
    glyphs, advances, units = font.getBestCmap(), font["hmtx"], font["head"].unitsPerEm
    shown = [*range(0x20, 0x7F), *range(0xA0, 0x180), *map(ord, "–−×°²³…≤≥’“”")]
    wider = {
        chr(code): (advances[glyphs[code]][0] / units, text_width(chr(code)) / TEXT_MM)
        for code in shown
        if code in glyphs and advances[glyphs[code]][0] / units > text_width(chr(code)) / TEXT_MM
    }
    assert wider == {}
    assert text_width("0123456789") < 1.2 * TEXT_MM * sum(
        advances[glyphs[ord(digit)]][0] / units for digit in "0123456789"
    ), "wide, but not wasteful"


def test_a_turned_text_takes_the_room_of_the_upright_one_on_end() -> None:
    upright, turned = Text(10, 10, "length 1480"), Text(10, 10, "length 1480", turned=True)
    assert upright.box.right - upright.box.left == pytest.approx(turned.box.bottom - turned.box.top)
    assert turned.box.right - turned.box.left < 3
    assert turned.box.holds(10, 10)


def test_a_text_starts_ends_or_centres_at_its_anchor() -> None:
    assert Text(5, 0, "80", "start").box.left == 5
    assert Text(5, 0, "80", "end").box.right == 5
    assert sum(Text(5, 0, "80").box[::2]) == 10


def test_boxes_meet_only_if_they_share_room_or_come_nearer_than_the_gap() -> None:
    box = Box(0, 0, 10, 10)
    assert box.meets(Box(9, 9, 12, 12))
    assert not box.meets(Box(10, 0, 12, 10))
    assert box.meets(Box(10.3, 0, 12, 10), 0.4)
    assert Box(1, 1, 10, 10).inside(box)
    assert not Box(1, 1, 10.1, 10).inside(box)


def test_shapes_move_whole() -> None:
    by = Point(3, -2)
    mark = Mark(Outcome.DOES_NOT_CONFORM, "1", Box(0, 0, 3, 3))
    for shape in (
        Stroke(Role.TICK, (Point(0, 0), Point(1, 4))),
        Disc(Role.HOLE, 1, 1, 2),
        Text(4, 4, "a"),
        mark,
    ):
        old, new = shape.box, shape.moved(by).box
        assert [round(there - here, 9) for here, there in zip(old, new, strict=True)] == [3, -2, 3, -2]


def test_the_smallest_box_around_boxes() -> None:
    assert around([Box(0, 5, 1, 6), Box(-2, 5.5, 0, 9)]) == Box(-2, 5, 1, 9)
    assert rectangle(Role.PIECE, Box(0, 5, 1, 6)).box == Box(0, 5, 1, 6)


def test_a_text_in_a_box_stands_in_its_middle() -> None:
    box = Box(0, 0, 20, 6)
    room = text_in(box, "not shown").box
    assert room.left - box.left == box.right - room.right
    assert abs((room.top - box.top) - (box.bottom - room.bottom)) < 1e-9
