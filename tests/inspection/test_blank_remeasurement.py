from datetime import datetime

from tests.builders import full_opening

from revealbook.inspection.blank_remeasurement import blank_remeasurement
from revealbook.inspection.compare import readings_of
from revealbook.records.opening import Opening
from revealbook.records.remeasurement import Remeasurement
from revealbook.source.read import Document, read_bytes
from revealbook.source.validate import validate

BEFORE = datetime.fromisoformat("2026-11-19T08:00+01:00")
AFTER = datetime.fromisoformat("2026-12-01T08:00+01:00")


def blank(at: datetime) -> tuple[str, Remeasurement]:
    opening = Opening.model_validate(full_opening())
    text = blank_remeasurement(opening, "alder-yard", "openings/W-1.01.yaml", at)
    document = read_bytes(text.encode(), "again.yaml")
    assert isinstance(document, Document), document
    valid = validate(Remeasurement, document)
    assert isinstance(valid, Remeasurement), valid
    return text, valid


def test_a_blank_can_be_read_and_says_nothing() -> None:
    _, read = blank(BEFORE)
    assert (read.site, read.mark) == ("alder-yard", "W-1.01")
    assert readings_of(read) == {}


def test_no_value_of_the_fitter_is_copied() -> None:
    text, _ = blank(BEFORE)
    below = text.split("readings:\n")[1]
    assert not any(sign.isdigit() for sign in below)


def test_sealing_steps_are_named_so_that_each_keeps_its_place() -> None:
    _, read = blank(BEFORE)
    assert read.readings.seals is not None
    steps = [event.step for event in read.readings.seals.events or ()]
    assert steps == ["inner tape", None, None, "outer tape"]


def test_what_is_hidden_by_then_is_left_out() -> None:
    text, read = blank(AFTER)
    assert read.readings.frame is None
    assert "out_of_plumb_mm" in text
    assert "joint_widths_mm" not in text


def test_what_is_hidden_at_this_very_moment_is_left_out() -> None:
    pressed = datetime.fromisoformat("2026-11-19T09:34+01:00")
    assert "out_of_flat_mm" not in blank(pressed)[0]
    assert "out_of_flat_mm" in blank(pressed.replace(minute=33))[0]


def test_items_that_nothing_is_asked_of_keep_the_place_of_those_behind_them() -> None:
    text, read = blank(BEFORE)
    assert read.readings.seals is not None
    assert len(read.readings.seals.events or ()) == 4
    assert text.count("- {}") >= 2
    assert "  frame:\n    pieces:\n      bottom:\n" in text


def test_an_opening_without_readings_has_an_empty_sheet() -> None:
    bare = Opening.model_validate({"opening": {"mark": "W-1"}})
    assert blank_remeasurement(bare, "s", "f.yaml", BEFORE).endswith("readings:\n  {}\n")
