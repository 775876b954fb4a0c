import pytest
from tests.present.setting_out import plan_of, site_of
from tests.setting_out.followed import before_work
from tests.setting_out.rules import changed, without

from revealbook.present.planned import PlannedSheet, material_rows, planned_site
from revealbook.present.words import words_in
from revealbook.setting_out.materials import Quantity
from revealbook.setting_out.site import SetOutSite

EN = words_in("en")
SURVEY = {"widths_mm": {"bottom": 1232, "top": 1231}, "heights_mm": {"left": 1481, "right": 1480}}


def sheet(site: SetOutSite) -> PlannedSheet:
    return planned_site(site, EN).sheets[0]


def test_pieces_show_length_parts_joints_and_holes() -> None:
    site = site_of(before_work(3600, 1480))
    rows = {row[0]: row[1:] for row in sheet(site).pieces}
    plan = plan_of(site)
    holes = " · ".join(EN.number(at) for at in plan.piece("bottom").holes_mm)
    assert rows["bottom"] == ("frame-profile", "3760", "1880 + 1880", "1880", holes)
    assert rows["left"] == ("frame-profile", "1480", "in one length", "–", "175 · 740 · 1305")


def test_an_opening_of_nominal_sizes_says_to_measure_before_cutting() -> None:
    assert any("Measure the opening" in caution for caution in sheet(site_of()).cautions)
    assert sheet(site_of(before_work(1230, 1480, survey=SURVEY))).cautions == ()


def test_sizes_say_where_they_come_from() -> None:
    facts = dict(sheet(site_of(before_work(1230, 1480, survey={"widths_mm": {"top": 1231}}))).facts)
    assert facts["Width, head"].replace("\u00a0", " ") == "1231 mm (surveyed)"
    assert facts["Width, sill"].replace("\u00a0", " ") == "1230 mm (nominal)"


@pytest.mark.parametrize(
    ("supports", "says", "number"),
    [
        ({"called_for": True, "load_points_mm": [400, 990]}, "those of the record", 2),
        ({"called_for": True}, "quarter points stand in", 2),
        ({}, "does not say whether the drawing calls", 2),
        ({"called_for": False}, "calls for none", 0),
    ],
)
def test_supports_say_what_their_load_points_rest_on(
    supports: dict[str, object], says: str, number: int
) -> None:
    found = sheet(site_of(before_work(1230, 1480, supports=supports)))
    assert says in found.supports_note
    assert len(found.supports) == number


def test_supports_are_numbered_with_load_point_ends_and_holes() -> None:
    record = before_work(1230, 1480, supports={"called_for": True, "load_points_mm": [400]})
    assert sheet(site_of(record)).supports == (("1", "400", "325", "475", "360 · 440"),)


def test_the_windows_fixings_or_why_there_are_none() -> None:
    found = sheet(site_of())
    assert [row[0] for row in found.window] == ["bottom", "left", "right", "top"]
    assert "supplier governs" in found.window_note
    unsized = sheet(site_of({**before_work(1230, 1480), "window": {}}))
    assert unsized.window == ()
    assert "not recorded yet" in unsized.window_note
    refused = sheet(site_of(rules=without("window-fixing-centres")))
    assert "window-fixing-centres" in refused.window_note


def test_the_plinths_brackets_or_why_there_are_none() -> None:
    facts = dict(sheet(site_of(before_work(3600, 1480))).plinth)
    assert facts["Length"].replace("\u00a0", " ") == "3576 mm = 1788 + 1788"
    assert facts["Brackets at"]
    assert "plinth-brackets" in dict(sheet(site_of(rules=without("plinth-brackets"))).plinth)["Not set out"]
    assert sheet(site_of(before_work(1230, 1480, plinth={"used": False}))).plinth == ()


def test_an_opening_that_cannot_be_set_out_says_why_and_nothing_else() -> None:
    site = planned_site(site_of(before_work(1230, 1480), before_work(1230, 150)), EN)
    assert [one.mark for one in site.refused] == ["W-2"]
    assert "too short" in site.refused[0].refused
    assert site.refused[0].pieces == ()
    assert [row[0] for row in site.register] == ["W-1"]


def test_one_opening_needs_no_register_and_no_sum() -> None:
    alone, two = (
        planned_site(site_of(), EN),
        planned_site(site_of(before_work(1230, 1480), before_work(885, 900)), EN),
    )
    assert (alone.register, alone.materials) == ((), ())
    assert two.register[1] == ("W-2", "", "885 × 900", "nominal", "1045", "900", "900", "1045")
    assert len(two.materials) >= 4


def test_rules_that_the_site_changed_are_listed_once_for_all_openings() -> None:
    rules = changed(fixing_centres="at_most: 600")
    site = planned_site(site_of(before_work(1230, 1480), before_work(885, 900), rules=rules), EN)
    assert [line.rule_id for line in site.changed] == ["fixing-centres"]


def test_materials_stand_in_the_order_of_the_work_with_whole_packs() -> None:
    rows = material_rows(
        [
            Quantity("foam", "joint-foam", 4.56, 5.47, "l", 1),
            Quantity("adhesive", "frame-bond", 567.4, 624.1, "ml", 3),
            Quantity("frame fixings", None, 14, 15, "number", None),
        ],
        EN,
    )
    plain = [tuple(cell.replace("\u00a0", " ") for cell in row) for row in rows]
    assert plain == [
        ("adhesive", "frame-bond", "567 ml", "624 ml", "3 cartridges"),
        ("fixings of the frame pieces", "–", "14", "15", "–"),
        ("foam, set", "joint-foam", "4.6 l", "5.5 l", "1 can"),
    ]


def test_what_materials_are_reckoned_with_is_said() -> None:
    said = dict(planned_site(site_of(), EN).allowances)
    assert said["Waste of adhesive"].replace("\u00a0", " ") == "10 %"
    assert said["Beads"].replace("\u00a0", " ") == "triangles of 9 × 9 mm"
