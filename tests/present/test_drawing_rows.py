import pytest

from revealbook.present.drawing_rows import LINE_DEPTH_MM, OVER_MM, UNDER_MM, Row, Span, draw_row
from revealbook.present.drawing_shapes import Point, Role
from revealbook.present.drawing_sheet import Sheet


def drawn(row: Row) -> Sheet:
    sheet = Sheet()
    draw_row(row, 50, sheet)
    return sheet


def test_a_figure_stands_on_the_line_in_the_middle_of_its_span() -> None:
    sheet = drawn(Row("bottom", (Span(0, 20, "400"), Span(20, 30, "200"))))
    assert [(text.text, text.x, text.y < 50) for text in sheet.texts] == [
        ("400", 10, True),
        ("200", 25, True),
    ]
    assert not [stroke for stroke in sheet.strokes if stroke.role is Role.LEADER]


def test_a_figure_wider_than_its_span_goes_below_the_line() -> None:
    sheet = drawn(Row("bottom", (Span(0, 2, "80"), Span(2, 30, "560"))))
    assert [(text.text, text.y > 50) for text in sheet.texts] == [("80", True), ("560", False)]


def test_crowded_figures_are_led_to_their_spans() -> None:
    row = Row("bottom", tuple(Span(at, at + 1, str(100 + at)) for at in range(4)))
    sheet = drawn(row)
    assert row.left_out == 0
    assert len([stroke for stroke in sheet.strokes if stroke.role is Role.LEADER]) >= 3
    starts = {stroke.points[0] for stroke in sheet.strokes if stroke.role is Role.LEADER}
    assert starts <= {Point(at + 0.5, 50) for at in range(4)}


def test_figures_that_have_no_room_are_left_out_and_counted() -> None:
    row = Row("bottom", tuple(Span(at / 10, at / 10 + 0.1, "1000") for at in range(40)))
    sheet = drawn(row)
    assert row.left_out == 40 - len(sheet.texts) > 0
    assert sheet.left_out == row.left_out


def test_ticks_stand_at_every_end_once() -> None:
    sheet = drawn(Row("top", (Span(0, 20, "400"), Span(20, 30, "200"), Span(0, 30))))
    ticks = [stroke.box for stroke in sheet.strokes if stroke.role is Role.TICK]
    assert [round((box.left + box.right) / 2, 6) for box in ticks] == [0, 20, 30]


@pytest.mark.parametrize(
    ("side", "towards", "away"),
    [
        ("bottom", OVER_MM, UNDER_MM[0]),
        ("right", OVER_MM, UNDER_MM[0]),
        ("top", UNDER_MM[0], OVER_MM),
        ("left", UNDER_MM[0], OVER_MM),
    ],
)
def test_a_row_knows_how_far_it_reaches_towards_the_drawing(side: str, towards: float, away: float) -> None:
    both = Row(side, (Span(0, 2, "80"), Span(2, 30, "560")))  # type: ignore[arg-type]
    assert both.depths == (towards, away)
    bare = Row(side, (Span(0, 20, ""),))  # type: ignore[arg-type]
    assert bare.depths == (LINE_DEPTH_MM, LINE_DEPTH_MM)


def test_everything_of_a_row_stays_within_its_depths() -> None:
    for side, sign in (("bottom", 1), ("top", -1), ("right", 1), ("left", -1)):
        row = Row(side, tuple(Span(at, at + 1.5, "180") for at in (0, 1.5, 3, 20)))  # type: ignore[arg-type]
        towards, away = row.depths
        for text in drawn(row).texts:
            near, far = (text.box.left, text.box.right) if text.turned else (text.box.top, text.box.bottom)
            low, high = (50 - towards, 50 + away) if sign > 0 else (50 - away, 50 + towards)
            assert low - 0.1 <= near < far <= high + 0.1


def test_side_rows_are_read_from_the_right() -> None:
    assert all(text.turned for text in drawn(Row("left", (Span(0, 20, "400"),))).texts)


def test_a_named_row_has_its_name_at_its_right_end() -> None:
    sheet = drawn(Row("bottom", (Span(0, 20, "400"),), "supports"))
    name = next(text for text in sheet.texts if text.text == "supports")
    assert name.box.left > 20
