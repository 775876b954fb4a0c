from tests.present import elevations

from revealbook.present.drawing_input import Found
from revealbook.present.drawing_labels import MARK_MM, Room, draw_label, draw_list, draw_marks
from revealbook.present.drawing_shapes import Box, Disc, Point, Role, Stroke, Text
from revealbook.present.drawing_sheet import Sheet
from revealbook.rules.finding import Outcome

PAGE = Box(-50, -50, 50, 50)
HERE, MIDDLE = Point(0, 0), Point(30, 0)


def marked(sheet: Sheet, *spots: tuple[Point, Found], page: Box = PAGE) -> Sheet:
    draw_marks(spots, Room(sheet, page), sheet, MIDDLE)
    return sheet


def test_a_mark_stands_on_its_place_if_nothing_is_there() -> None:
    (mark,) = marked(Sheet(), (HERE, elevations.breach(1, "window"))).marks
    assert mark.box == Box(-MARK_MM / 2, -MARK_MM / 2, MARK_MM / 2, MARK_MM / 2)


def test_a_mark_keeps_off_symbols_and_leads_to_its_place() -> None:
    sheet = marked(Sheet(discs=[Disc(Role.HOLE, 0, 0, 0.75)]), (HERE, elevations.breach(1, "window")))
    (mark,) = sheet.marks
    assert not mark.box.meets(sheet.discs[0].box)
    assert mark.box.left > 0, "towards the middle of the drawing"
    (leader,) = [stroke for stroke in sheet.strokes if stroke.role is Role.LEADER]
    assert leader.points[0] == HERE
    assert mark.box.holds(*leader.points[1])


def test_a_leader_crosses_no_figure_if_it_can_help_it() -> None:
    sheet = Sheet(discs=[Disc(Role.HOLE, 0, 0, 0.75)])
    sheet.write(Text(4, 0.8, "12.5"))
    marked(sheet, (HERE, elevations.breach(1, "window")))
    (mark,) = sheet.marks
    assert not mark.box.meets(sheet.texts[0].box)
    assert mark.box.left < 4, "not behind the figure"


def test_findings_at_one_place_stand_in_one_block_in_order() -> None:
    spots = [(HERE, elevations.breach(number, "window")) for number in (12, 3, 3, 1, 7, 2)]
    sheet = marked(Sheet(), *spots)
    assert [mark.number for mark in sheet.marks] == ["1", "2", "3", "7", "12"]
    assert {round(mark.box.top, 3) for mark in sheet.marks[:4]} != {round(sheet.marks[4].box.top, 3)}
    assert not [
        one
        for one in sheet.marks
        for other in sheet.marks
        if one is not other and one.box.meets(other.box, -1e-6)
    ]


def test_outcomes_without_a_number_stand_behind_those_with_one() -> None:
    spots = [(HERE, Found(("window",), Outcome.UNDECIDED)), (HERE, elevations.breach(4, "window"))]
    assert [mark.outcome for mark in marked(Sheet(), *spots).marks] == [
        Outcome.DOES_NOT_CONFORM,
        Outcome.UNDECIDED,
    ]


def test_marks_stay_on_the_paper_and_are_counted_when_it_is_full() -> None:
    page = Box(-1.7, -1.7, 5, 1.7)
    spots = [
        (Point(at, 0), elevations.breach(number, "window")) for number, at in enumerate((0, 0.1, 0.2), 1)
    ]
    sheet = marked(Sheet(), *spots, page=page)
    assert all(mark.box.inside(page) for mark in sheet.marks)
    assert len(sheet.marks) + sheet.left_out == 3
    assert sheet.left_out >= 1


def test_a_full_neighbourhood_sends_a_mark_to_the_nearest_room_on_the_paper() -> None:
    sheet = Sheet()
    for row in range(-29, 30, 3):
        sheet.write(Text(0, row, "w" * 28))
    (mark,) = marked(sheet, (HERE, elevations.breach(1, "window"))).marks
    assert not any(mark.box.meets(text.box) for text in sheet.texts)


def test_a_label_hides_what_is_behind_it_and_takes_its_room() -> None:
    sheet = Sheet(strokes=[Stroke(Role.OPENING_LINES, (Point(-20, -20), Point(20, 20)))])
    room = Room(sheet, PAGE)
    draw_label("not shown", HERE, room, sheet, MIDDLE)
    draw_label("not shown", HERE, room, sheet, MIDDLE)
    first, second = sheet.texts
    assert first.backed
    assert first.box.holds(*HERE)
    assert not first.box.meets(second.box)


def test_a_list_breaks_its_lines_at_its_width() -> None:
    sheet = Sheet()
    found = [elevations.breach(number, "tests") for number in (*range(1, 15), 3)]
    draw_list("Of the whole opening:", found, Point(5, 10), 60, sheet)
    assert [mark.number for mark in sheet.marks] == [str(number) for number in range(1, 15)]
    assert len({mark.box.top for mark in sheet.marks}) == 2
    assert max(mark.box.right for mark in sheet.marks) <= 65
    assert min(mark.box.left for mark in sheet.marks) > sheet.texts[0].box.right
