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
