from datetime import datetime

import pytest
from tests.builders import full_opening

from revealbook.inspection.values import (
    hiding_moments,
    instrument_kind,
    is_number,
    positions,
    quantity_key,
    values,
    work_values,
)
from revealbook.measures.reading import Path
from revealbook.records.opening import Opening


def opening() -> Opening:
    return Opening.model_validate(full_opening())


def test_values_stand_at_their_places_and_what_is_missing_is_not_there() -> None:
    found = work_values(opening())
    assert found["survey", "widths_mm", "top"] == 2402
    assert found["frame", "pieces", "left", "holes_mm", 2] == 1325
    assert found["seals", "events", 1, "joint_width_mm"] == 12
    assert ("survey", "note") not in found
    assert not any(path[0] == "opening" for path in found)


def test_values_of_a_part_begin_where_they_are_told_to() -> None:
    survey = opening().survey
    assert survey is not None
    assert values(survey, ("survey",))["survey", "out_of_plumb_mm"] == 4


def test_yes_is_no_number() -> None:
    assert is_number(1.5)
    assert not is_number(value=True)
    assert not is_number("1.5")


def test_deviations_are_taken_with_a_level_and_lengths_with_a_tape() -> None:
    assert instrument_kind(("window", "out_of_plumb_mm")) == "deviation"
    assert instrument_kind(("survey", "widths_mm", "top")) == "length"
    assert instrument_kind(("frame", "pieces", "left", "holes_mm", 0)) == "length"
    assert instrument_kind(("frame", "bonding", 0, "air_c")) == "temperature"
    assert instrument_kind(("frame", "bonding", "rh_pct")) == "humidity"
    assert instrument_kind(("survey", "moisture_pct")) is None
    assert quantity_key(("frame", "pieces", "left", "beads", "number")) == "number"


def test_lists_of_positions_are_one_thing_to_measure() -> None:
    held = {one.path: one for one in positions(opening())}
    holes = held["frame", "pieces", "left", "holes_mm"]
    assert holes.value == (175, 750, 1325)
    assert holes.hidden_by == "covering"
    assert holes.hidden_at == datetime.fromisoformat("2026-11-23T08:10+01:00")


def test_what_no_tape_can_find_again_is_not_listed() -> None:
    held = {one.path for one in positions(opening())}
    assert ("frame", "pieces", "left", "fixings", 0, "embedment_mm") not in held
    assert ("opening", "width_mm") not in held
    assert ("survey", "straightedge_mm") not in held


def test_each_cover_hides_from_its_own_moment() -> None:
    found = hiding_moments(opening())
    assert found["frame"] == datetime.fromisoformat("2026-11-19T09:34+01:00")
    assert found["seals"] == datetime.fromisoformat("2026-11-20T10:20+01:00")
    assert found["never"] is None


def test_what_nobody_dated_is_not_said_to_be_hidden() -> None:
    found = hiding_moments(Opening.model_validate({"opening": {"mark": "W-1"}}))
    assert set(found.values()) == {None}


@pytest.mark.parametrize(
    ("path", "kind"),
    [
        (("survey", "out_of_plumb_mm"), "deviation"), (("window", "out_of_level_mm"), "deviation"),
        (("frame", "pieces", "top", "out_of_line_mm"), "deviation"), (("window", "bow_mm"), "deviation"),
        (("tests", "air_leakage", "readings", 0, "pressure_pa"), "pressure"),
        (("tests", "air_leakage", "readings", 0, "flow_m3_h"), "flow"),
        (("climate", 0, "rh_pct"), "humidity"), (("tests", "thermometry", "room_rh_pct"), "humidity"),
        (("tests", "thermometry", "surface_c"), "temperature"), (("seals", "used_m"), None),
    ],
)  # fmt: skip
def test_each_quantity_is_taken_with_its_own_kind_of_instrument(path: Path, kind: str | None) -> None:
    assert instrument_kind(path) == kind


def test_the_nearest_key_with_a_unit_names_the_quantity() -> None:
    assert quantity_key(("survey", "widths_mm", "top")) == "widths_mm"
    assert quantity_key(("window", "joint_widths_mm", "left", "start")) == "joint_widths_mm"
    assert quantity_key(("frame", "width_mm", "surface_c", 0)) == "surface_c"


def test_a_single_position_is_no_list() -> None:
    data = full_opening()
    data["frame"]["pieces"]["left"]["holes_mm"] = [175]
    held = {one.path: one for one in positions(Opening.model_validate(data))}
    assert held["frame", "pieces", "left", "holes_mm"].value == 175
    data["frame"]["pieces"]["left"]["holes_mm"] = [175, 700]
    held = {one.path: one for one in positions(Opening.model_validate(data))}
    assert held["frame", "pieces", "left", "holes_mm"].value == (175, 700)


def test_the_last_piece_pressed_on_hides_the_wall_and_the_first_seal_the_joint() -> None:
    data = full_opening()
    data["frame"]["bonding"] += [{"of": ["top"], "laid_at": "2026-11-19T12:00+01:00"}]
    data["seals"]["events"].reverse()
    found = hiding_moments(Opening.model_validate(data))
    assert found["frame"] == datetime.fromisoformat("2026-11-19T12:00+01:00")
    assert found["seals"] == datetime.fromisoformat("2026-11-20T10:20+01:00")
    assert found["covering"] == datetime.fromisoformat("2026-11-23T08:10+01:00")


def test_without_a_time_of_bonding_the_frame_hides_from_when_it_was_read() -> None:
    data = full_opening()
    data["frame"]["bonding"] = []
    found = hiding_moments(Opening.model_validate(data))
    assert found["frame"] == datetime.fromisoformat("2026-11-19T10:40+01:00")


def test_a_value_is_hidden_by_the_first_line_that_fits() -> None:
    held = {one.path: one.hidden_by for one in positions(opening())}
    assert held["survey", "out_of_plumb_mm"] == "frame"
    assert held["survey", "widths_mm", "top"] == "covering"
    assert held["window", "joint_widths_mm", "left", "start"] == "seals"
    assert held["window", "bow_mm"] == "never"
