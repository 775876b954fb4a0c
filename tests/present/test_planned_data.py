import json

from tests.present.setting_out import plan_of, site_of
from tests.setting_out.followed import before_work
from tests.setting_out.rules import changed, without

from revealbook.present.planned_data import cutting_data, planned_data
from revealbook.present.words import words_in
from revealbook.setting_out.site_cuts import Saw, site_cuts

EN = words_in("en")


def test_the_data_are_the_plans_own_values_and_survive_json() -> None:
    site = site_of(before_work(3600, 1480), tape=True)
    plan, data = plan_of(site), json.loads(json.dumps(planned_data(site, EN)))
    (one,) = data["openings"]
    assert [piece["length_mm"] for piece in one["pieces"]] == [piece.length_mm for piece in plan.pieces]
    assert [tuple(piece["holes_mm"]) for piece in one["pieces"]] == [piece.holes_mm for piece in plan.pieces]
    assert one["pieces"][0]["parts_mm"] == list(plan.piece("bottom").parts_mm)
    assert [support["start_mm"] for support in one["supports"]] == [s.start_mm for s in plan.supports]
    assert set(one["window"]) == {"bottom", "left", "right", "top"}
    assert len(one["plinth"]["brackets_mm"]) == 8
    assert one["guard_mm"]["one_reading"] == 1
    assert data["materials"] == one["materials"]


def test_limits_name_their_rules_and_what_the_site_changed() -> None:
    data = planned_data(site_of(rules=changed(fixing_centres="at_most: 600")), EN)
    centres = next(one for one in data["openings"][0]["limits"] if one["measure"] == "hole_centres")
    assert centres == {
        "measure": "hole_centres",
        "at_least": None,
        "at_most": 600,
        "rules": ("fixing-centres",),
        "changed_by_site": ["fixing-centres"],
    }


def test_refusals_say_why_for_people_and_machines() -> None:
    rules = without("window-fixing-centres", "plinth-brackets")
    whole, short = planned_data(site_of(before_work(1230, 1480), before_work(1230, 150), rules=rules), EN)[
        "openings"
    ]
    assert short["not_possible"]["reason"] == "piece too short"
    assert short["not_possible"]["figures"]["length_mm"] == 150
    assert whole["window"]["not_possible"]["about"] == ("window-fixing-centres",)
    assert whole["plinth"]["not_possible"]["about"] == ("plinth-brackets",)


def test_what_is_not_known_yet_is_null() -> None:
    (one,) = planned_data(site_of({**before_work(1230, 1480), "window": {}}), EN)["openings"]
    assert (one["window"], one["plinth"]) == (None, None)


def test_a_cutting_list_holds_every_cut_and_the_proved_bound() -> None:
    site = site_of(before_work(1230, 1480), before_work(1230, 150))
    around = site.openings[0].work.around
    profiles = site_cuts([("W-1", plan_of(site))], around, Saw(offcuts_mm={}))
    data = json.loads(json.dumps(cutting_data(site, profiles, EN)))
    assert data["openings"] == ["W-1"]
    assert list(data["not_possible"]) == ["W-2"]
    frame = data["profiles"][0]
    assert sum(len(bar["cuts"]) for bar in frame["bars"]) == frame["pieces"] == 6
    assert frame["bound_mm"] <= frame["bought_mm"] == 3000 * len(frame["bars"])
    assert {"length_mm": 1390, "label": "W-1 bottom"} in [cut for bar in frame["bars"] for cut in bar["cuts"]]
