from math import inf, sqrt
from typing import Any

import pytest
from tests.builders import build, details, reading, taken, value, values

from revealbook.measures.method import Method
from revealbook.measures.reading import Reading
from revealbook.measures.work import Work

TAPE = {
    "instruments": [
        {"id": "tape-1", "measures": "length", "uncertainty": 1},
        {"id": "level-1", "measures": "deviation", "uncertainty": 0.4},
    ],
    "products": {"profiles": [{"id": "p80", "width_mm": 80}, {"id": "unknown width"}]},
}


def piece(**keys: Any) -> Work:
    """Give the work with one left piece, so that the three others are missing."""
    return build({"frame": {"pieces": {"left": keys}, "instruments": ["tape-1", "level-1"]}}, TAPE)


def left(work: Work, name: str) -> dict[tuple[str, ...], Any]:
    return {subject[1:]: value for subject, value in values(work, name).items() if subject[0] == "left"}


def test_overlaps_are_of_the_bottom_piece() -> None:
    work = build({"frame": {"pieces": {"bottom": {"overlap_left_mm": 62}, "top": {"overlap_right_mm": 80}}}})
    assert values(work, "frame_overlap") == {
        ("bottom", "left"): 62,
        ("bottom", "right"): "missing overlap_right_mm at frame.pieces.bottom.overlap_right_mm",
    }


def test_the_bottom_piece_is_held_against_the_width_at_the_sill() -> None:
    opening = {
        "opening": {"mark": "A", "width_mm": 1230},
        "survey": {"widths_mm": {"top": 1200, "bottom": 1231}, "instruments": ["tape-1"]},
        "frame": {"pieces": {"bottom": {"length_mm": 1391}}, "instruments": ["tape-1"]},
    }
    found = reading(build(opening, TAPE), "bottom_surplus")
    assert found.value == 160
    assert found.path == ("frame", "pieces", "bottom", "length_mm")
    assert found.uncertainty == pytest.approx(sqrt(2))
    assert details(found) == {"length_mm": 1391, "clear_size_mm": 1231}


def test_the_nominal_width_is_no_stand_in_for_one_that_was_not_surveyed() -> None:
    work = build(
        {"opening": {"mark": "A", "width_mm": 1230}, "frame": {"pieces": {"bottom": {"length_mm": 1390}}}}
    )
    assert value(work, "bottom_surplus") == "missing bottom at survey.widths_mm.bottom"


def test_without_a_length_there_is_no_surplus() -> None:
    work = build({"survey": {"widths_mm": {"bottom": 1231}}})
    assert value(work, "bottom_surplus") == "missing length_mm at frame.pieces.bottom.length_mm"


def top_on(
    method: Method | None = None,
    length_mm: float | None = 1385,
    span_mm: float | None = None,
    **right: str | None,
) -> Work:
    """A top piece over side pieces 80 mm wide, at an opening of 1232 mm."""
    pieces = {
        "top": {"length_mm": length_mm},
        "left": {"profile": "p80"},
        "right": {"profile": "p80"} | right,
    }
    frame = {"pieces": pieces, "span_over_sides_mm": span_mm}
    return build({"survey": {"widths_mm": {"top": 1232}}, "frame": frame}, TAPE, method)


@pytest.mark.parametrize(("length", "reach"), [(1412, 0), (1385, -27), (1420, 8)])
def test_the_top_piece_spans_the_side_pieces_where_they_stand(length: float, reach: float) -> None:
    # each side piece stands 10 mm off its jamb: 1232 + 2 x (80 + 10) mm from outer edge to outer edge
    found = reading(top_on(length_mm=length, span_mm=1412), "top_reach")
    assert found.value == reach
    assert details(found) == {"length_mm": length, "span_mm": 1412}


def test_a_span_that_nobody_measured_is_not_computed() -> None:
    assert value(top_on(), "top_reach") == "missing span_over_sides_mm at frame.span_over_sides_mm"
    short = top_on(length_mm=None, span_mm=1412)
    assert value(short, "top_reach") == "missing length_mm at frame.pieces.top.length_mm"


def test_the_first_edition_computed_the_span_as_if_side_pieces_touched_the_jambs() -> None:
    found = reading(top_on(Method(computations=1), span_mm=1412), "top_reach")
    assert found.value == 1385 - 1232 - 160
    assert details(found)["side_pieces_mm"] == 160
    assert found.uncertainty == pytest.approx(sqrt(2))  # two lengths of 1 mm each, with no tape named


@pytest.mark.parametrize("right", [None, "unknown width"])
def test_the_first_edition_needs_both_profiles(right: str | None) -> None:
    work = top_on(Method(computations=1), profile=right)
    assert value(work, "top_reach") == "missing profile_width_mm at frame.pieces.right.profile"


def test_each_side_piece_is_held_against_the_height_on_its_side() -> None:
    work = build(
        {
            "survey": {"heights_mm": {"left": 1482, "right": 1480}},
            "frame": {"pieces": {"left": {"length_mm": 1480}, "right": {"length_mm": 1480}}},
        }
    )
    assert values(work, "side_length_difference") == {("left",): -2, ("right",): 0}


def test_the_first_and_last_hole_are_found_in_any_order() -> None:
    work = piece(holes_mm=[815, 1300, 180], length_mm=1480)
    assert left(work, "hole_end_distance") == {("first_end",): 180, ("last_end",): 180}
    first, last = (one for one in taken(work, "hole_end_distance") if one.subject[0] == "left")
    assert first.path == ("frame", "pieces", "left", "holes_mm", 2)
    assert last.path == ("frame", "pieces", "left", "holes_mm", 1)
    assert (first.uncertainty, last.uncertainty) == (1, pytest.approx(sqrt(2)))  # type: ignore[union-attr]


def test_a_hole_beyond_the_end_of_its_piece_lies_below_zero() -> None:
    assert left(piece(holes_mm=[180, 1500], length_mm=1480), "hole_end_distance")["last_end",] == -20


def test_without_a_length_only_the_first_end_is_known() -> None:
    assert left(piece(holes_mm=[180, 1300]), "hole_end_distance") == {
        ("first_end",): 180,
        ("last_end",): "missing length_mm at frame.pieces.left.length_mm",
    }


def test_a_piece_without_holes_has_its_first_hole_endlessly_far() -> None:
    work = piece(holes_mm=[], length_mm=1480)
    assert left(work, "hole_end_distance") == {("first_end",): inf}
    assert left(work, "hole_centres") == {(): inf}


def test_holes_that_were_not_recorded_are_missing() -> None:
    for name in ("hole_end_distance", "hole_centres"):
        assert left(piece(), name) == {(): "missing holes_mm at frame.pieces.left.holes_mm"}
        assert len(taken(build(), name)) == 4


def test_centres_are_between_neighbours_in_order_of_position() -> None:
    work = piece(holes_mm=[1450, 180, 815])
    assert left(work, "hole_centres") == {("hole 1-2",): 635, ("hole 2-3",): 635}
    second = next(one for one in taken(work, "hole_centres") if one.subject == ("left", "hole 2-3"))
    assert second.path == ("frame", "pieces", "left", "holes_mm", 0)
    assert details(second) == {"from_mm": 815, "to_mm": 1450}


def test_a_hole_written_twice_does_not_shorten_the_distance_to_the_next() -> None:
    assert left(piece(holes_mm=[180, 180, 1300]), "hole_centres") == {("hole 1-2",): 0, ("hole 2-3",): 1120}


def test_a_joint_has_a_fixing_on_both_sides() -> None:
    work = piece(holes_mm=[180, 900, 1150, 1300], lengthwise_joints=[{"at_mm": 1000}])
    assert left(work, "joint_fixing_distance") == {("joint 1", "before"): 100, ("joint 1", "after"): 150}


def test_a_hole_in_the_joint_itself_counts_for_neither_side() -> None:
    work = piece(holes_mm=[180, 1000], lengthwise_joints=[{"at_mm": 1000}])
    assert left(work, "joint_fixing_distance") == {("joint 1", "before"): 820, ("joint 1", "after"): inf}
    after = next(one for one in taken(work, "joint_fixing_distance") if one.subject[-1] == "after")
    assert after.uncertainty is None  # type: ignore[union-attr]


@pytest.mark.parametrize(
    ("keys", "said"),
    [
        ({}, {(): "missing lengthwise_joints at frame.pieces.left.lengthwise_joints"}),
        ({"lengthwise_joints": []}, {}),
        (
            {"lengthwise_joints": [{}], "holes_mm": [180]},
            {("joint 1",): "missing at_mm at frame.pieces.left.lengthwise_joints.0.at_mm"},
        ),
        (
            {"lengthwise_joints": [{"at_mm": 1000}]},
            {("joint 1",): "missing holes_mm at frame.pieces.left.holes_mm"},
        ),
    ],
)
def test_joints_without_their_position_or_holes_are_not_shown(
    keys: dict[str, Any], said: dict[Any, str]
) -> None:
    assert left(piece(**keys), "joint_fixing_distance") == said


def test_each_joint_is_bonded_screwed_and_sealed_by_itself() -> None:
    work = piece(lengthwise_joints=[{"bonded": True}, {"bonded": False}, {}])
    assert left(work, "joint_bonded") == {
        ("joint 1",): True,
        ("joint 2",): False,
        ("joint 3",): "missing bonded at frame.pieces.left.lengthwise_joints.2.bonded",
    }
    assert left(piece(), "joint_sealed") == {
        (): "missing lengthwise_joints at frame.pieces.left.lengthwise_joints"
    }
    assert left(piece(lengthwise_joints=[]), "joint_screwed") == {}


def test_slopes_are_per_metre_of_the_piece() -> None:
    work = piece(out_of_line_mm=1.5, length_mm=1500)
    assert values(work, "frame_plumb") == {
        ("left",): 1.0,
        ("right",): "missing out_of_line_mm at frame.pieces.right.out_of_line_mm",
    }
    found = taken(work, "frame_plumb")[0]
    assert found.uncertainty == pytest.approx(0.4 / 1.5)  # type: ignore[union-attr]
    assert set(values(work, "frame_level")) == {("bottom",), ("top",)}


def test_a_short_piece_slopes_over_the_metre_that_a_level_can_read() -> None:
    pieces = {
        "left": {"length_mm": 750, "out_of_line_mm": 1},
        "right": {"length_mm": 1250, "out_of_line_mm": 1},
    }
    left, right = taken(build({"frame": {"pieces": pieces}}), "frame_plumb")
    assert isinstance(left, Reading)
    assert (left.value, left.uncertainty, details(left)["slope_over_mm"]) == (1, 0.5, 1000)
    assert isinstance(right, Reading)
    assert (right.value, details(right).get("slope_over_mm")) == (0.8, None)


def test_a_slope_needs_the_length() -> None:
    work = piece(out_of_line_mm=1.5)
    assert values(work, "frame_plumb")["left",] == "missing length_mm at frame.pieces.left.length_mm"
    assert values(work, "frame_out_of_line")["left",] == 1.5


def test_every_piece_answers_for_itself() -> None:
    work = piece(beads={"number": 2, "continuous": False}, seating="pressed")
    assert left(work, "bead_number") == {(): 2}
    assert left(work, "beads_continuous") == {(): False}
    assert left(work, "seating") == {(): "pressed"}
    assert values(work, "bead_number")["top",] == "missing number at frame.pieces.top.beads.number"
    assert len(taken(work, "cut_squareness")) == 4


def test_every_corner_answers_for_itself() -> None:
    corners = {"bottom_left": {"sealed": True, "gap_mm": 0.5}, "top_right": {"sealed": False}}
    work = build({"frame": {"corners": corners, "instruments": ["tape-1"]}}, TAPE)
    assert values(work, "corner_sealed") == {
        ("bottom_left",): True,
        ("bottom_right",): "missing sealed at frame.corners.bottom_right.sealed",
        ("top_left",): "missing sealed at frame.corners.top_left.sealed",
        ("top_right",): False,
    }
    assert taken(work, "corner_gap")[0].uncertainty == 1  # type: ignore[union-attr]
    assert set(values(work, "end_sealed").values()) == {
        f"missing sealed at frame.ends.{corner}.sealed"
        for corner in ("bottom_left", "bottom_right", "top_left", "top_right")
    }
