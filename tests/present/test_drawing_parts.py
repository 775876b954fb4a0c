from tests.present import elevations

from revealbook.present.drawing_input import ElevationInput, PieceShown
from revealbook.present.drawing_parts import draw_parts, frame_box
from revealbook.present.drawing_scene import Paper, scene_of
from revealbook.present.drawing_shapes import Point, Role, Stroke
from revealbook.present.drawing_sheet import Sheet

PAPER = Paper(20)


def drawn(given: ElevationInput) -> Sheet:
    sheet = Sheet()
    draw_parts(scene_of(given), PAPER, sheet)
    return sheet


def of(sheet: Sheet, role: Role) -> list[Stroke]:
    return [stroke for stroke in sheet.strokes if stroke.role is role]


def middle(stroke: Stroke) -> tuple[float, float]:
    left, top, right, bottom = stroke.box
    return round((left + right) / 2, 6), round((top + bottom) / 2, 6)


def test_holes_are_circles_on_the_centre_line_and_fixings_crosses_where_they_were_set() -> None:
    off = PieceShown(1390, 80.0, 80.0, holes_mm=(180.0, 700.0), fixings_mm=((180.0,), (705.0,)))
    sheet = drawn(elevations.given(pieces={"bottom": off}))
    holes = [(disc.x, disc.y) for disc in sheet.discs if disc.role is Role.HOLE]
    assert holes == [(5, 2), (31, 2)]
    crosses = {middle(stroke) for stroke in of(sheet, Role.FIXING)}
    assert crosses == {(5, 2), (31.25, 2)}, "also where no hole was recorded"


def test_a_lengthwise_joint_crosses_its_piece() -> None:
    jointed = PieceShown(1390, 80.0, 80.0, joints_mm=(700.0, None))
    upright = PieceShown(1480, joints_mm=(740.0,))
    joints = of(drawn(elevations.given(pieces={"bottom": jointed, "right": upright})), Role.JOINT)
    assert [middle(joint) for joint in joints] == [(31, 2), (63.5, -37)]
    assert joints[0].points[0].x == joints[0].points[1].x
    assert joints[1].points[0].y == joints[1].points[1].y


def test_a_piece_that_is_not_shown_is_drawn_as_such() -> None:
    sheet = drawn(elevations.given(pieces={**elevations.pieces(1230, 1480), "top": None}, window=None))
    assert len(of(sheet, Role.PIECE)) == 3
    assert len(of(sheet, Role.PIECE_NOT_SHOWN)) == 1
    assert len(of(sheet, Role.WINDOW_NOT_SHOWN)) == 1
    assert of(sheet, Role.WINDOW) == of(sheet, Role.GLASS) == []


def test_a_piece_that_is_left_out_is_not_drawn_at_all() -> None:
    pieces = {**elevations.pieces(1230, 1480), "top": None}
    sheet = drawn(elevations.given(pieces=pieces, left_out=frozenset({"top"})))
    assert len(of(sheet, Role.PIECE)) == 3
    assert of(sheet, Role.PIECE_NOT_SHOWN) == []


def test_load_points_rest_on_the_bottom_piece() -> None:
    sheet = drawn(elevations.given(load_points_mm=(390.0,), supports=elevations.supports(400)))
    (triangle,) = of(sheet, Role.LOAD_POINT)
    assert triangle.points[0] == Point((390 - 80) / 20, 0)
    assert all(point.y <= 0 for point in triangle.points)
    (support,) = of(sheet, Role.SUPPORT)
    assert middle(support) == ((400 - 80) / 20, 6)


def lines(**window: object) -> list[tuple[Point, ...]]:
    given = elevations.given(window=elevations.window(1230, 1480, **window))
    return [stroke.points for stroke in of(drawn(given), Role.OPENING_LINES)]


def test_opening_lines_meet_at_the_hinges() -> None:
    (left,) = lines(opening_kind="side hung", hinge_side="left")
    (right,) = lines(opening_kind="side hung", hinge_side="right")
    assert left[1].x < left[0].x == left[2].x
    assert right[1].x > right[0].x
    assert left[1].y == (left[0].y + left[2].y) / 2
    (below,) = lines(opening_kind="bottom hung")
    assert below[1].y > below[0].y, "paper runs downwards"
    (above,) = lines(opening_kind="top hung")
    assert above[1].y < above[0].y
    assert len(lines(opening_kind="tilt and turn", hinge_side="left")) == 2


def test_no_way_of_opening_is_drawn_that_was_not_recorded() -> None:
    assert lines(opening_kind="fixed") == lines(opening_kind=None) == []
    assert lines(opening_kind="side hung", hinge_side=None) == []


def test_brackets_screws_and_packers_stand_along_the_plinth_profile() -> None:
    plinth = elevations.plinth(1230, brackets_mm=(200.0, None), screws_mm=(100.0,), packers_mm=12.0)
    sheet = drawn(elevations.given(plinth=plinth))
    (profile,), (bracket,), (packer,) = (of(sheet, role) for role in (Role.PLINTH, Role.BRACKET, Role.PACKER))
    assert round(middle(bracket)[0] - profile.box.left, 6) == 10
    assert packer.box.top == profile.box.bottom
    assert round(packer.box.bottom - packer.box.top, 6) == 0.6
    (screw,) = of(sheet, Role.PLINTH_SCREW)
    assert round(middle(screw)[0] - profile.box.left, 6) == 5


def test_fixings_of_the_window_stand_in_its_frame_along_their_side() -> None:
    sides = (("left", (150.0,)), ("bottom", (300.0,)), (None, (100.0,)))
    sheet = drawn(elevations.given(window=elevations.window(1230, 1480, fixings_mm=sides)))
    dots = [(round(disc.x, 6), round(disc.y, 6)) for disc in sheet.discs if disc.role is Role.WINDOW_FIXING]
    left, up = 12.5, 1480 - 12.5 - 1456  # the window's lower left corner, from its joints at the left and top
    assert dots == [((left + 35) / 20, -(up + 150) / 20), ((left + 300) / 20, -(up + 35) / 20)]


def test_the_wall_is_hatched_outside_the_frame_only() -> None:
    given = elevations.given()
    scene = scene_of(given)
    hatching = of(drawn(given), Role.WALL)
    frame = PAPER.box(scene.pieces["left"]).left, PAPER.box(scene.pieces["right"]).right
    assert len(hatching) > 50
    assert all(stroke.box.inside(frame_box(scene, PAPER).grown(1.001)) for stroke in hatching)
    assert not [
        one for one in hatching if frame[0] + 2 < middle(one)[0] < frame[1] - 2 and -70 < middle(one)[1] < 0
    ]
