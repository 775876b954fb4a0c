import pytest
from tests.present import elevations

from revealbook.present.drawing_input import PieceShown
from revealbook.present.drawing_scene import Paper, Placed, scene_of
from revealbook.present.drawing_shapes import Box, Point


def test_the_frame_stands_around_the_clear_opening() -> None:
    pieces = scene_of(elevations.given(1230, 1480)).pieces
    assert pieces["bottom"][:4] == (-80, -80, 1310, 0)
    assert pieces["left"][:4] == (-80, 0, 0, 1480)
    assert pieces["right"][:4] == (1230, 0, 1310, 1480)
    assert pieces["top"][:4] == (-80, 1480, 1310, 1560)


def test_a_piece_stands_as_recorded_even_where_it_does_not_fit() -> None:
    short = {**elevations.pieces(1230, 1480), "bottom": elevations.piece(1300, overlap_left_mm=40.0)}
    bottom = scene_of(elevations.given(1230, 1480, pieces=short)).pieces["bottom"]
    assert (bottom.left, bottom.right) == (-40, 1260)
    from_right = {**short, "bottom": elevations.piece(1300, overlap_right_mm=80.0)}
    bottom = scene_of(elevations.given(1230, 1480, pieces=from_right)).pieces["bottom"]
    assert (bottom.left, bottom.right) == (10, 1310)


def test_a_piece_without_a_length_stands_where_it_should_and_is_not_shown() -> None:
    for absent in (None, PieceShown(holes_mm=(180.0,))):
        pieces = scene_of(elevations.given(pieces={**elevations.pieces(1230, 1480), "left": absent})).pieces
        assert not pieces["left"].shown
        assert pieces["left"][:4] == (-80, 0, 0, 1480)
        assert pieces["right"].shown


def test_positions_run_along_a_piece_from_its_left_or_lower_end() -> None:
    pieces = scene_of(elevations.given(1230, 1480)).pieces
    assert pieces["bottom"].along(180) == (100, -40)
    assert pieces["left"].along(180) == (-40, 180)


def test_supports_hang_below_the_bottom_piece_from_its_left_end_on() -> None:
    scene = scene_of(elevations.given(supports=elevations.supports(390, None)))
    support, unplaced = scene.supports
    assert support is not None
    assert (support.left, support.right, support.top) == (-80 + 390 - 75, -80 + 390 + 75, -80)
    assert unplaced is None


def test_the_window_stands_at_its_recorded_joints() -> None:
    joints = {"left": (9.0, 10.0, 11.0), "top": (None, 14.0, None)}
    window = scene_of(elevations.given(window=elevations.window(1230, 1480, joints_mm=joints))).window
    assert (window.left, window.right) == (10, 10 + 1206)
    assert window.top == 1480 - 14
    centred = scene_of(elevations.given(window=elevations.window(1230, 1480, joints_mm={}))).window
    assert centred[:4] == (12, 12, 1218, 1468)


def test_without_a_window_its_place_is_kept_and_not_shown() -> None:
    window = scene_of(elevations.given(window=None)).window
    assert not window.shown
    assert window[:4] == (12, 12, 1218, 1468)


def test_the_plinth_profile_lies_under_the_window() -> None:
    scene = scene_of(elevations.given(plinth=elevations.plinth(1230)))
    assert scene.plinth is not None
    assert scene.plinth.top == scene.window.bottom
    assert scene.plinth.top - scene.plinth.bottom == 30
    assert scene.plinth.right - scene.plinth.left == 1204


@pytest.mark.parametrize("scale", [5, 20, 50])
def test_paper_is_the_wall_at_scale_upside_down(scale: int) -> None:
    paper = Paper(scale)
    assert paper.at(100, 200) == Point(100 / scale, -200 / scale)
    assert paper.box(Placed(0, 0, 100, 200)) == Box(0, -200 / scale, 100 / scale, 0)
