import pytest
from tests.builders import full_opening
from tests.present.judging import ENGLISH

from revealbook.inspection.values import positions
from revealbook.measures.reading import Path
from revealbook.present.positions import position, section, whole_position
from revealbook.records.opening import Opening

OPENING = Opening.model_validate(full_opening())


@pytest.mark.parametrize(
    ("path", "said"),
    [
        (("survey", "widths_mm", "top"), "Survey, clear width, top"),
        (("frame", "pieces", "left", "holes_mm"), "Mounting frame, left, positions of the holes"),
        (("frame", "pieces", "left", "holes_mm", 1),
         "Mounting frame, left, positions of the holes, number 2"),
        (("frame", "pieces", "top", "lengthwise_joints", 0, "at_mm"),
         "Mounting frame, top, lengthwise joint 1, position"),
        (("frame", "corners", "top_left", "gap_mm"), "Mounting frame, corner, top left, gap"),
        (("supports", "placed", 1, "gap_mm"), "Supports, support 2, gap"),
        (("window", "joint_widths_mm", "left", "start"),
         "Window, joint width, left, near the left or lower end"),
        (("seals", "events", 3, "corner_overlap_mm"), "Seals, outer tape, overlap at corners"),
    ],
)  # fmt: skip
def test_a_place_is_said_from_the_larger_to_the_smaller_part(path: Path, said: str) -> None:
    assert whole_position(path, OPENING, ENGLISH) == said
    assert said == f"{section(path, ENGLISH)}, {position(path, OPENING, ENGLISH)}"


def test_every_position_that_can_be_measured_again_has_a_name_of_its_own() -> None:
    said = [whole_position(one.path, OPENING, ENGLISH) for one in positions(OPENING)]
    assert len(said) == len(set(said)) > 40
    assert not [text for text in said if "_" in text]


def test_a_sealing_event_that_is_not_there_is_said_by_its_number() -> None:
    assert "sealing event 1" in position(("seals", "events", 0, "at"), _without_steps(), ENGLISH)


def _without_steps() -> Opening:
    data = full_opening()
    data["seals"]["events"] = [{"at": "2026-11-20T10:20+01:00"}]
    return Opening.model_validate(data)
