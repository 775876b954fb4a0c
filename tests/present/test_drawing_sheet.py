from revealbook.present.drawing_shapes import Box, Disc, Point, Role, Stroke, Text
from revealbook.present.drawing_sheet import Sheet, finished


def test_a_text_that_meets_another_is_left_out_and_counted() -> None:
    sheet = Sheet()
    assert sheet.write(Text(0, 0, "180"))
    assert not sheet.write(Text(1, 0, "515"))
    assert sheet.write(Text(8, 0, "515"))
    assert [text.text for text in sheet.texts] == ["180", "515"]
    assert sheet.left_out == 1


def test_a_finished_drawing_is_cut_to_what_stands_on_it() -> None:
    sheet = Sheet(strokes=[Stroke(Role.PIECE, (Point(-30, -40), Point(20, 10)))])
    drawing = finished(sheet, 20, "title", "caption", margin_mm=1)
    assert (drawing.width_mm, drawing.height_mm) == (52, 52)
    assert drawing.strokes[0].box == Box(1, 1, 51, 51)


def test_shapes_are_drawn_role_by_role_with_dimensions_above_parts() -> None:
    here = (Point(0, 0), Point(1, 1))
    sheet = Sheet(
        strokes=[Stroke(Role.DIMENSION, here), Stroke(Role.PIECE, here), Stroke(Role.DIMENSION, here)],
        discs=[Disc(Role.HOLE, 0, 0, 1)],
    )
    drawn = finished(sheet, 20, "", "").by_role
    assert [(role, len(strokes), len(discs)) for role, strokes, discs in drawn] == [
        (Role.PIECE, 1, 0),
        (Role.HOLE, 0, 1),
        (Role.DIMENSION, 2, 0),
    ]
