from math import hypot
from typing import Any

import pytest
from tests.present.judging import document, site
from tests.rules.changes import shipped

from revealbook.inspection.compare import Compared, OpeningCompared, compare
from revealbook.measures.reading import Path
from revealbook.records.record import Sheet
from revealbook.records.remeasurement import Remeasurement
from revealbook.rules.finding import Outcome

TAPE = {"id": "tape-c", "measures": "length", "uncertainty": 0.75}
TAPE_1 = {"window.instruments": ["tape-1"], "frame.instruments": ["tape-1"]}
LEFT = ("window", "joint_widths_mm", "left")


def again(
    readings: dict[str, Any], changes: dict[str, Any] | None = None, tools: tuple[Any, ...] = (TAPE,)
) -> OpeningCompared:
    """Compare a re-measurement with the conforming record, the window read with tape-1 (1 mm)."""
    judged = site({"W-1.01": {**TAPE_1, **(changes or {})}})
    stated = {"site": "alder-yard", "mark": "W-1.01", "instruments": list(tools), "readings": readings}
    sheet = Sheet.of(document(stated, "again/W-1.01.yaml"))
    (found,) = compare(judged, [(Remeasurement.model_validate(stated), sheet)])
    return found


def reading(found: OpeningCompared, *path: str | int) -> Compared:
    return next(one for one in found.readings if one.path == path)


def joint(value: float, **more: Any) -> Compared:
    found = again({"window": {"joint_widths_mm": {"left": {"start": value}}}}, **more)
    return reading(found, *LEFT, "start")


@pytest.mark.parametrize(
    ("value", "agreement"),
    [(12, "agrees"), (13.25, "agrees"), (13.26, "differs"), (10.75, "agrees"), (10.74, "differs")],
)
def test_readings_agree_up_to_their_combined_uncertainty(value: float, agreement: str) -> None:
    """U = 1 and 0.75 mm: sqrt(1 + 0.5625) = 1.25 mm."""
    found = joint(value)
    assert found.agreement == agreement
    assert found.uncertainty == pytest.approx(hypot(1, 0.75)) == 1.25
    assert found.difference == pytest.approx(value - 12)


def test_without_an_instrument_of_the_clerks_own_nothing_is_judged() -> None:
    assert joint(30, tools=()).agreement == "no uncertainty"
    other = {"id": "level-c", "measures": "deviation", "uncertainty": 0.3}
    assert joint(30, tools=(other,)).agreement == "no uncertainty"


def test_the_coarsest_fitting_instrument_counts() -> None:
    rough = {"id": "stick", "measures": "length", "uncertainty": 5}
    assert joint(16, tools=(TAPE, rough)).agreement == "agrees"


def test_what_was_not_read_again_is_not_compared() -> None:
    found = again({"window": {"joint_widths_mm": {"left": {"start": 12}}}})
    assert [one.path for one in found.readings] == [(*LEFT, "start")]


def test_what_the_fitter_did_not_record_is_said_and_is_no_difference() -> None:
    found = joint(12, changes={"window.joint_widths_mm.left.start": None})
    assert (found.agreement, found.recorded) == ("not recorded", None)


def test_yes_and_counts_agree_exactly_or_not_at_all() -> None:
    found = again({"frame": {"top_edge_sealed": False, "pieces": {"left": {"beads": {"number": 2}}}}})
    assert reading(found, "frame", "top_edge_sealed").agreement == "differs"
    assert reading(found, "frame", "pieces", "left", "beads", "number").agreement == "agrees"


HOLES: Path = ("frame", "pieces", "left", "holes_mm")


def test_positions_are_compared_in_rising_order() -> None:
    found = again({"frame": {"pieces": {"left": {"holes_mm": [1325, 175, 755]}}}})
    assert [(one.path[-1], one.agreement) for one in found.readings] == [
        (0, "agrees"),
        (1, "differs"),
        (2, "agrees"),
    ]
    assert reading(found, *HOLES, 1).recorded == 750


def test_another_number_of_positions_differs_as_a_whole() -> None:
    found = again({"frame": {"pieces": {"left": {"holes_mm": [175, 1325]}}}})
    (only,) = found.readings
    assert (only.path, only.agreement) == (HOLES, "differs")
    assert (only.recorded, only.again) == ((175, 750, 1325), (175, 1325))
    assert "fixing-centres" in {one.held.id for one in found.breached}


def test_rules_are_judged_by_the_new_value() -> None:
    found = again({"frame": {"pieces": {"bottom": {"overlap_left_mm": 62}}}})
    (rule,) = (one for one in found.breached if one.held.id == "frame-overlap")
    assert rule.before is Outcome.CONFORMS
    assert found.nonconforming


def test_only_findings_that_rest_on_a_new_value_are_told() -> None:
    found = again({"window": {"out_of_plumb_mm": 1}})
    assert {one.held.id for one in found.rules} == {"window-plumb", "window-plumb-total"}


def test_a_finer_instrument_decides_what_was_undecided() -> None:
    coarse = {"window.instruments": ["level-1"], "window.out_of_plumb_mm": 2.0}
    fine = {"id": "level-c", "measures": "deviation", "uncertainty": 0.1}
    found = again({"window": {"out_of_plumb_mm": 1.9}}, coarse, (fine,))
    total = {one.held.id: (one.before, one.finding.outcome) for one in found.rules}
    assert total["window-plumb"] == (Outcome.UNDECIDED, Outcome.CONFORMS)


def test_an_opening_conforms_in_the_sample_if_all_agrees() -> None:
    found = again({"window": {"joint_widths_mm": {"left": {"start": 12.5}}}})
    assert (found.nonconforming, found.inspected) == (False, True)


def test_an_opening_in_which_nothing_was_read_was_not_inspected() -> None:
    found = again({})
    assert (found.readings, found.rules, found.inspected) == ((), (), False)


def test_a_re_measurement_of_no_opening_of_the_site_is_refused() -> None:
    stated = {"site": "alder-yard", "mark": "W-9", "readings": {}}
    sheet = Sheet.of(document(stated, "again.yaml"))
    with pytest.raises(KeyError, match="W-9"):
        compare(site({"W-1.01": {}}), [(Remeasurement.model_validate(stated), sheet)])


@pytest.mark.parametrize(("own_set", "between_columns"), [(None, True), ("common-practice", False)])
def test_what_was_read_again_is_judged_by_the_set_of_its_building(
    own_set: str | None, between_columns: bool
) -> None:
    buildings = [{"name": "A", "width_m": 22, "depth_m": 11, "height_m": 9, "rules": own_set}]
    judged = site({"W-1.01": TAPE_1}, rules=shipped("published-limits"), buildings=buildings)
    stated = {"site": "alder-yard", "mark": "W-1.01", "instruments": [TAPE],
              "readings": {"survey": {"out_of_flat_mm": 4}}}  # fmt: skip
    sheet = Sheet.of(document(stated, "again/W-1.01.yaml"))
    (found,) = compare(judged, [(Remeasurement.model_validate(stated), sheet)])
    assert ("substrate-flat-interpolated" in {one.held.id for one in found.rules}) is between_columns


def test_a_list_with_one_position_more_or_none_recorded_is_told_whole() -> None:
    found = again({"frame": {"pieces": {"left": {"holes_mm": [175, 750, 1000, 1325]}}}})
    (only,) = found.readings
    assert (only.path, only.agreement) == (HOLES, "differs")
    found = again(
        {"frame": {"pieces": {"left": {"holes_mm": [175, 750]}}}}, {"frame.pieces.left.holes_mm": None}
    )
    (only,) = found.readings
    assert (only.path, only.agreement, only.again) == (HOLES, "not recorded", (175, 750))


def test_counts_agree_exactly_however_coarse_the_tape() -> None:
    placed = {"supports": {"placed": [{"holes": 3}]}, "frame": {"bonding": [{"cartridges": 3}]}}
    found = again(placed, {"supports.instruments": ["tape-1"]}, ({**TAPE, "uncertainty": 5},))
    assert reading(found, "supports", "placed", 0, "holes").agreement == "differs"
    assert reading(found, "frame", "bonding", 0, "cartridges").agreement == "agrees"


def test_what_lies_beyond_the_end_of_a_recorded_list_was_not_recorded() -> None:
    found = again({"supports": {"placed": [{}, {}, {"gap_mm": 0}, {"gap_mm": 1}]}})
    told = {one.path: one.agreement for one in found.readings}
    assert told["supports", "placed", 3, "gap_mm"] == "not recorded"
    assert told["supports", "placed", 2, "gap_mm"] != "not recorded"


def test_a_difference_beyond_the_uncertainty_counts_in_either_direction_and_alone() -> None:
    found = again({"window": {"joint_widths_mm": {"left": {"start": 10.5}}}})
    assert (found.breached, found.nonconforming) == ((), True)
    assert [one.path for one in found.differing] == [(*LEFT, "start")]
    assert found.differing[0].difference == -1.5


def test_a_rule_broken_by_a_value_without_uncertainty_counts_alone() -> None:
    found = again({"frame": {"pieces": {"bottom": {"overlap_left_mm": 62}}}}, tools=())
    assert (found.differing, found.nonconforming, found.inspected) == ((), True, True)


def test_what_has_no_uncertainty_and_no_rule_was_not_inspected() -> None:
    found = again({"window": {"frame_depth_mm": 70}}, tools=())
    assert [one.agreement for one in found.readings] == ["no uncertainty"]
    assert found.inspected is bool(found.rules)


def test_a_finding_that_the_fitter_had_none_of_has_no_outcome_before() -> None:
    found = again({"supports": {"placed": [{}, {}, {}, {"gap_mm": 3}]}})
    assert {one.before for one in found.rules if "4" in " ".join(one.finding.subject)} == {None}
