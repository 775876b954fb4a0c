from typing import Any

from tests.setting_out.followed import SITE, around, before_work, work_on
from tests.setting_out.rules import PRACTICE

from revealbook.records.opening import Identity, Opening
from revealbook.setting_out.plan import OpeningPlan, set_out
from revealbook.setting_out.prefill import planned, prefilled
from revealbook.source.read import Document, read_bytes
from revealbook.source.validate import validate

IDENTITY = Identity(mark="W-1.01", floor="2", width_mm=1230, height_mm=1480)


def plan(record: dict[str, Any] | None = None) -> OpeningPlan:
    surroundings = around(PRACTICE, {**SITE, "instruments": []})
    found = set_out(work_on(record or before_work(1230, 1480), surroundings), PRACTICE)
    assert isinstance(found, OpeningPlan), found
    return found


def test_a_plan_is_no_evidence_nothing_but_identity_and_nominal_sizes_is_entered() -> None:
    document = read_bytes(prefilled(IDENTITY, plan()).encode(), "W-1.01.yaml")
    assert isinstance(document, Document), document
    record = validate(Opening, document)
    assert isinstance(record, Opening), record
    blank = read_bytes(prefilled(IDENTITY, None).encode(), "W-1.01.yaml")
    assert isinstance(blank, Document)
    assert record == validate(Opening, blank)
    assert record.opening == IDENTITY


def test_planned_values_stand_in_comments_beside_the_empty_keys() -> None:
    lines = prefilled(IDENTITY, plan()).splitlines()
    frame = lines[next(n for n, line in enumerate(lines) if line.startswith("frame:")) :]
    length = next(line for line in frame if line.strip().startswith("length_mm:"))
    key, _, comment = length.partition("#")
    assert key.strip() == "length_mm:"
    assert comment.startswith(" planned 1390. Length as cut")
    assert any("# planned 175, 695, 1215. Positions of all holes" in line for line in frame)


def test_without_a_plan_the_record_is_blank() -> None:
    assert "planned" not in prefilled(IDENTITY, None)


def test_everything_planned_has_its_key() -> None:
    said = planned(plan(before_work(3600, 1480)))
    assert said["frame", "pieces", "bottom", "length_mm"] == "3760"
    assert said["frame", "pieces", "bottom", "lengthwise_joints"] == "1880"
    assert said["frame", "pieces", "left", "lengthwise_joints"] == "none"
    assert said["frame", "pieces", "bottom", "overlap_left_mm"] == "80"
    assert ("frame", "pieces", "top", "overlap_left_mm") not in said
    assert said["supports", "placed"].startswith("2, middle at ")
    assert "the drawing governs" in said["supports", "load_points_mm"]
    assert said["plinth", "length_mm"] == "3576"
    assert said["plinth", "brackets"].startswith("8, at ")
    assert said["window", "fixings"].startswith("bottom ")


def test_load_points_that_the_record_has_are_not_said_again() -> None:
    record = before_work(1230, 1480, supports={"called_for": True, "load_points_mm": [400, 1000]})
    assert ("supports", "load_points_mm") not in planned(plan(record))


def test_what_is_not_set_out_is_not_said() -> None:
    said = planned(plan({**before_work(1230, 1480, supports={"called_for": False}), "window": {}}))
    assert not any(path[0] in {"supports", "plinth", "window"} for path in said)
