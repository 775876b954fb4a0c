"""Whatever the opening: nothing on its drawing overlaps or leaves the paper, and positions are to scale."""

from itertools import combinations

import pytest
from hypothesis import given as for_all
from hypothesis import settings
from hypothesis import strategies as st
from tests.present import elevations

from revealbook.present.drawing import COLUMN, SCALES, elevation
from revealbook.present.drawing_input import ElevationInput, Found, PieceShown, SupportShown
from revealbook.present.drawing_shapes import Box, Role
from revealbook.present.drawing_sheet import Drawing
from revealbook.rules.finding import Outcome

PLACES = (
    ("frame", "pieces", "left", "holes_mm", 0),
    ("frame", "pieces", "left", "holes_mm", 1),
    ("frame", "pieces", "right", "out_of_line_mm"),
    ("frame", "pieces", "bottom", "overlap_left_mm"),
    ("frame", "pieces", "top", "lengthwise_joints", 0, "sealed"),
    ("frame", "corners", "bottom_left", "sealed"),
    ("frame", "ends", "top_right", "sealed"),
    ("frame", "top_edge_sealed"),
    ("frame", "bonding", 0, "air_c"),
    ("supports", "placed", 0, "gap_mm"),
    ("supports", "load_points_mm", 0),
    ("plinth", "brackets", 0, "fixed_to_wall"),
    ("window", "joint_widths_mm", "left", "middle"),
    ("window", "fixings", 0, "length_mm"),
    ("window", "out_of_plumb_mm"),
    ("seals", "events", 1, "air_c"),
    ("survey", "heights_mm", "left"),
    ("survey", "substrate"),
)


@st.composite
def a_piece(draw: st.DrawFn, length: float, *, flat: bool) -> PieceShown | None:
    if draw(st.integers(0, 9)) == 0:
        return None
    placed = tuple(sorted(draw(st.sets(st.integers(10, max(11, int(length) - 10)), max_size=14))))
    return PieceShown(
        length_mm=length if draw(st.integers(0, 9)) else None,
        overlap_left_mm=draw(st.sampled_from([None, 80.0, 62.0])) if flat else None,
        overlap_right_mm=draw(st.sampled_from([None, 80.0, 95.5])) if flat else None,
        width_mm=draw(st.sampled_from([60.0, 80.0, 120.0])),
        holes_mm=tuple(map(float, placed)),
        fixings_mm=(tuple(map(float, placed[::2])),),
        joints_mm=(length / 2,) if draw(st.booleans()) else (),
    )


@st.composite
def openings(draw: st.DrawFn) -> ElevationInput:
    width, height = draw(st.integers(400, 6000)), draw(st.integers(400, 3000))
    lengths = {"bottom": width + 160, "left": height, "right": height, "top": width + 160}
    centres = draw(st.lists(st.integers(80, width + 80), max_size=5))
    outcomes = draw(st.lists(st.tuples(st.sampled_from(PLACES), st.integers(1, 120)), max_size=16))
    found = [elevations.breach(number, *path) for path, number in outcomes]
    found += [Found(path, Outcome.NOT_SHOWN) for path in draw(st.lists(st.sampled_from(PLACES), max_size=3))]
    found += [Found(path, Outcome.UNDECIDED) for path in draw(st.lists(st.sampled_from(PLACES), max_size=3))]
    return elevations.given(
        float(width),
        float(height),
        pieces={
            name: draw(a_piece(float(length), flat=name in ("bottom", "top")))
            for name, length in lengths.items()
        },
        window=elevations.window(width, height) if draw(st.booleans()) else None,
        supports=tuple(SupportShown(float(centre), 150.0, 0.0) for centre in centres),
        load_points_mm=tuple(float(centre + 10) for centre in centres),
        plinth=elevations.plinth(width) if draw(st.booleans()) else None,
        found=tuple(found),
    )


def paper_of(drawing: Drawing) -> Box:
    return Box(0, 0, drawing.width_mm, drawing.height_mm)


@settings(max_examples=60, deadline=None)
@for_all(openings())
def test_nothing_overlaps_and_nothing_leaves_the_paper(given: ElevationInput) -> None:
    drawing = elevation(given, elevations.ENGLISH)
    texts = [(text.text, text.box) for text in drawing.texts]
    marks = [(f"mark {mark.number}", mark.box) for mark in drawing.marks]
    slack = -1e-6  # marks of one block touch
    meeting = [
        (here, there)
        for (here, box), (there, other) in combinations(texts + marks, 2)
        if box.meets(other, slack)
    ]
    assert meeting == []
    boxes = [
        one.box for group in (drawing.strokes, drawing.discs, drawing.texts, drawing.marks) for one in group
    ]
    assert [box for box in boxes if not box.inside(paper_of(drawing))] == []
    assert drawing.width_mm <= COLUMN.width_mm
    assert drawing.height_mm <= COLUMN.height_mm


@settings(max_examples=60, deadline=None)
@for_all(openings())
def test_every_hole_stands_to_scale_within_a_tenth_of_a_millimetre(given: ElevationInput) -> None:
    """Along its piece from the piece's own drawn end, for all four pieces."""
    drawing = elevation(given, elevations.ENGLISH)
    assert drawing.scale in SCALES
    drawn = [disc for disc in drawing.discs if disc.role is Role.HOLE]
    expected = [at for piece in given.pieces.values() if piece for at in piece.holes_mm or ()]
    assert len(drawn) == len(expected)
    opening = next(stroke.box for stroke in drawing.strokes if stroke.role is Role.OPENING)
    for side, x in (("left", -1), ("right", 1)):
        piece = given.pieces[side]
        for at in (piece.holes_mm or ()) if piece else ():
            edge = opening.left if x < 0 else opening.right
            across = edge + x * (piece.width_mm if piece else 0) / 2 / drawing.scale
            assert any(
                hole.x == pytest.approx(across, abs=0.1)
                and hole.y == pytest.approx(opening.bottom - at / drawing.scale, abs=0.1)
                for hole in drawn
            )


@settings(max_examples=40, deadline=None)
@for_all(openings())
def test_every_numbered_finding_is_on_the_drawing(given: ElevationInput) -> None:
    drawing = elevation(given, elevations.ENGLISH)
    assert {mark.number for mark in drawing.marks if mark.number} == {
        one.number for one in given.found if one.number
    }


@settings(max_examples=10, deadline=None)
@for_all(openings())
def test_the_same_opening_always_gives_the_same_drawing(given: ElevationInput) -> None:
    assert elevation(given, elevations.ENGLISH) == elevation(given, elevations.ENGLISH)
