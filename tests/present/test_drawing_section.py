from itertools import combinations

from tests.present.judging import ENGLISH, opening

from revealbook.present.drawing_input import found_in
from revealbook.present.drawing_section import SectionInput, section, section_input
from revealbook.present.drawing_shapes import Role
from revealbook.present.drawing_sheet import Drawing

ALL = SectionInput(
    "solid masonry", frame=True, window=True, steps=("inner tape", "foam", "trim", "outer tape")
)


def names(drawing: Drawing) -> list[str]:
    return [text.text for text in drawing.texts if text.text not in ("inside", "outside")]


def test_the_order_is_that_of_the_dates_not_of_the_list() -> None:
    backwards = list(reversed(PLAIN_EVENTS))
    given = section_input(opening({"seals.events": backwards}).record.opening)
    assert given == section_input(opening().record.opening) == ALL


PLAIN_EVENTS = [
    {"step": "inner tape", "at": "2026-11-20T10:20+01:00"},
    {"step": "foam", "at": "2026-11-20T11:00+01:00"},
    {"step": "trim", "at": "2026-11-20T15:30+01:00"},
    {"step": "outer tape", "at": "2026-11-20T15:50+01:00"},
]


def test_layers_are_named_from_inside_to_outside_with_the_number_of_their_step() -> None:
    assert names(section(ALL, ENGLISH)) == [
        "wall: solid masonry",
        "adhesive and frame piece",
        "1  inner tape",
        "window frame",
        "2  foam",
        "3  foam trimmed",
        "4  outer tape",
        "insulation",
    ]
    outside_first = ALL.__class__(
        "concrete", frame=True, window=True, steps=("outer tape", "foam", "inner tape")
    )
    assert [name for name in names(section(outside_first, ENGLISH)) if name[0].isdigit()] == [
        "3  inner tape",
        "2  foam",
        "1  outer tape",
    ]


def test_what_was_not_recorded_is_dashed_and_said() -> None:
    nothing = SectionInput(None, frame=False, window=False, steps=())
    drawing = section(nothing, ENGLISH)
    assert names(drawing) == [
        "wall: not shown",
        "adhesive and frame piece: not shown",
        "inner tape: not shown",
        "window frame: not shown",
        "foam: not shown",
        "outer tape: not shown",
        "insulation",
    ]
    dashed = [stroke for stroke in drawing.strokes if stroke.role is Role.LAYER_NOT_SHOWN]
    assert len(dashed) == 7, "wall, frame piece, window's frame and glass, foam, two tapes"
    assert "Dashed: not shown by the record." in drawing.caption
    assert "Dashed" not in section(ALL, ENGLISH).caption


def test_it_says_that_it_is_not_to_scale() -> None:
    drawing = section(ALL, ENGLISH)
    assert drawing.scale is None
    assert "not to scale" in drawing.caption
    assert drawing.title.endswith("recorded in this order: inner tape, foam, trim and outer tape.")


def test_a_seal_that_does_not_conform_is_marked_beside_its_name() -> None:
    judged = opening({"seals.events[1].air_c": 2})
    found = found_in(judged)
    drawing = section(section_input(judged.record.opening, found), ENGLISH)
    seals = [one for one in found if one.path[:2] == ("seals", "events") and one.number]
    of_foam = {one.number for one in seals if one.path[2] == 1}
    assert of_foam
    assert {mark.number for mark in drawing.marks} == {one.number for one in seals}
    foam = next(text for text in drawing.texts if "foam" in text.text)
    beside = [mark for mark in drawing.marks if foam.box.top - 1 < mark.box.top < foam.box.bottom]
    assert {mark.number for mark in beside} == of_foam
    assert all(mark.box.left > foam.box.right for mark in beside)


def test_nothing_overlaps() -> None:
    for given in (ALL, SectionInput(None, frame=False, window=False, steps=())):
        boxes = [text.box for text in section(given, ENGLISH).texts]
        assert not [1 for here, there in combinations(boxes, 2) if here.meets(there)]
