import pytest
from tests.present import elevations

from revealbook.present.drawing_places import spot_of
from revealbook.present.drawing_scene import Scene, scene_of


@pytest.fixture
def scene() -> Scene:
    jointed = elevations.piece(1390, overlap_left_mm=80.0, overlap_right_mm=80.0, joints_mm=(700.0,))
    return scene_of(
        elevations.given(
            1230,
            1480,
            pieces={**elevations.pieces(1230, 1480), "bottom": jointed},
            supports=elevations.supports(390, 1000),
            load_points_mm=(400.0, 990.0),
            plinth=elevations.plinth(1230, screws_mm=(100.0,), joints_mm=(600.0,)),
            window=elevations.window(1230, 1480, fixings_mm=(("right", (150.0, 700.0)), ("top", (200.0,)))),
        )
    )


@pytest.mark.parametrize(
    ("path", "spot"),
    [
        (("frame", "pieces", "left", "holes_mm", 1), (-40, 180 + 1120 / 2)),
        (("frame", "pieces", "left", "fixings", 0, "at_mm", 0), (-40, 180)),
        (("frame", "pieces", "bottom", "fixings", 0, "torque_nm"), (100, -40)),
        (("frame", "pieces", "bottom", "lengthwise_joints", 0, "sealed"), (620, -40)),
        (("frame", "pieces", "bottom", "overlap_left_mm"), (-80, -40)),
        (("frame", "pieces", "bottom", "overlap_right_mm"), (1310, -40)),
        (("frame", "pieces", "right", "length_mm"), (1270, 1480)),
        (("frame", "corners", "bottom_left", "sealed"), (-40, 0)),
        (("frame", "corners", "top_right", "bead"), (1270, 1480)),
        (("frame", "ends", "top_left", "sealed"), (-80, 1520)),
        (("supports", "placed", 1, "gap_mm"), (920, -120)),
        (("supports", "load_points_mm", 1), (910, 0)),
        (("window", "joint_widths_mm", "left", "middle"), (6.25, 740 - 0.5)),
        (("window", "fixings", 0, "at_mm", 1), (1218.5, 11.5 + 700)),
        (("window", "fixings", 1, "length_mm"), (212.5, 1467.5)),
    ],
)
def test_a_finding_is_marked_where_it_was_read(
    scene: Scene, path: tuple[str | int, ...], spot: tuple[float, float]
) -> None:
    assert spot_of(path, scene) == pytest.approx(spot)


def test_what_concerns_a_whole_piece_is_marked_between_its_holes(scene: Scene) -> None:
    for key in ("beads", "seating", "out_of_line_mm", "holes_mm"):
        x, y = spot_of(("frame", "pieces", "left", key), scene) or (0, 0)
        assert x == -40
        assert all(abs(y - hole) > 100 for hole in scene.piece("left").holes_mm or ())


def test_the_plinth_profile_carries_its_own_findings(scene: Scene) -> None:
    assert scene.plinth is not None
    bracket = spot_of(("plinth", "brackets", 1, "fixed_to_wall"), scene)
    assert bracket == pytest.approx(scene.plinth.along(1030))
    assert spot_of(("plinth", "lengthwise_joints", 0, "bonded"), scene) == pytest.approx(
        scene.plinth.along(600)
    )
    packers = spot_of(("plinth", "packers"), scene)
    assert packers is not None
    assert packers[1] == scene.plinth.bottom
    assert spot_of(("plinth", "bonded_airtight"), scene) is not None


def test_seals_are_marked_in_the_joint(scene: Scene) -> None:
    x, y = spot_of(("seals", "events", 2, "air_c"), scene) or (0, 0)
    assert scene.window.right < x < scene.opening.right
    assert 0 < y < scene.opening.top


def test_what_was_surveyed_is_marked_at_the_edge_it_was_read_at(scene: Scene) -> None:
    assert spot_of(("survey", "widths_mm", "top"), scene) == pytest.approx((0, 0.92 * 1480))
    assert spot_of(("survey", "heights_mm", "right"), scene) == pytest.approx((0.92 * 1230, 1480))


@pytest.mark.parametrize(
    "path",
    [
        (),
        ("frame", "bonding", 0, "air_c"),
        ("survey", "substrate"),
        ("tests", "water_spray"),
        ("sign_offs",),
        ("frame", "corners"),
        ("covering", "at"),
    ],
)
def test_what_has_no_place_belongs_to_the_whole_opening(scene: Scene, path: tuple[str, ...]) -> None:
    assert spot_of(path, scene) is None


@pytest.mark.parametrize(
    "path",
    [
        ("frame", "pieces", "left", "holes_mm", 99),
        ("frame", "pieces", "top", "lengthwise_joints", 0, "bonded"),
        ("supports", "placed", 9, "gap_mm"),
        ("plinth", "brackets", 9, "fixed_to_wall"),
        ("window", "fixings", 9, "at_mm", 0),
    ],
)
def test_a_place_that_is_not_drawn_is_marked_on_its_part(scene: Scene, path: tuple[str | int, ...]) -> None:
    assert spot_of(path, scene) is not None
