from datetime import datetime

from tests.present.judging import ENGLISH, site

from revealbook.inspection.draw import Chosen
from revealbook.inspection.sample import sample_site
from revealbook.inspection.values import positions
from revealbook.present.inspection_sheet import InspectionSheets, inspection_sheets, value, verdict

MARKS: dict[str, dict[str, object]] = {f"W-1.{number:02}": {} for number in range(1, 21)}
BEFORE = datetime.fromisoformat("2026-11-18T08:00+01:00")
AFTER = datetime.fromisoformat("2026-12-01T08:00+01:00")
SITE = site({mark: {"opening.elevation": "north" if mark < "W-1.15" else "west"} for mark in MARKS})


def sheets(at: datetime = BEFORE, *, blind: bool = True, by: tuple = ()) -> InspectionSheets:  # type: ignore[type-arg]
    return inspection_sheets(SITE, sample_site(SITE, "2.5", 3, by, Chosen()), at, ENGLISH, blind=blind)


def test_the_first_page_tells_plan_numbers_and_seed() -> None:
    found = sheets()
    assert found.verdict.startswith(
        "5 of 20 openings are measured again. The lot is accepted up to 0 nonconforming"
    )
    facts = dict(found.facts)
    assert facts["Seed"] == "3"
    assert facts["Plan"].startswith("single sampling, normal, level II, letter C; MIL-STD-105E")
    assert "SHA-256" in found.again


def test_the_consumers_risk_of_an_isolated_lot_is_told() -> None:
    found = sheets()
    assert "one isolated lot" in found.series
    assert found.risks[0] == ("1", "5\u00a0%", "75\u00a0%")


def test_a_fitters_values_are_left_out_unless_asked_for() -> None:
    rows = [row for sheet in sheets().sheets for group in sheet.groups for row in group.rows]
    assert {shown for _, _, shown in rows} == {""}
    (frame,) = (group for group in sheets(blind=False).sheets[0].groups if group.title == "Mounting frame")
    shown = {where: given for where, _, given in frame.rows}
    assert shown["left, positions of the holes"] == "175 · 750 · 1325"


def test_what_is_covered_has_no_blank_and_says_since_when() -> None:
    sheet = sheets(AFTER).sheets[0]
    assert [group.title for group in sheet.groups] == ["Window"]
    behind = dict(sheet.hidden)
    covered = positions(SITE.openings[0].record.opening)
    number = sum(one.hidden_by == "covering" and one.path[0] == "frame" for one in covered)
    assert number > 20
    assert f"Mounting frame: {number} values" in behind["behind insulation or plaster since 2026-11-23 08:10"]
    assert behind["behind tape and foam since 2026-11-20 10:20"] == "Window: 12 values"
    assert dict(sheet.facts)["Covered"] == "2026-11-23 08:10"


def test_a_divided_lot_shows_its_parts() -> None:
    assert sheets(by=("elevation",)).strata == (("north", "14", "4"), ("west", "6", "1"))
    assert sheets().strata == ()


def test_critical_rules_are_listed_for_every_opening() -> None:
    critical = {row[0]: row[2] for row in sheets().critical}
    assert critical["frame-overlap"] == "20"
    assert "frame-level" not in critical


def test_a_whole_lot_is_said_to_be_inspected() -> None:
    small = site({"W-1": {}, "W-2": {}})
    sample = sample_site(small, "1.0", 3, (), Chosen())
    assert verdict(sample, ENGLISH).startswith("Every one of 2 openings is inspected (100 %).")
    found = inspection_sheets(small, sample, BEFORE, ENGLISH)
    assert found.series == "Nothing is left to chance: every opening is inspected."
    assert {row[2] for row in found.risks} == {"0\u00a0%"}


def test_values_are_written_as_the_page_does() -> None:
    assert value((1.0, 2.5), ENGLISH) == "1 · 2.5"
    assert value(True, ENGLISH) == "yes"
    assert value("pressed", ENGLISH) == "pressed"
