"""The facts of an opening: what can be looked up, written as the same bytes, read back tolerantly."""

import json
from datetime import date
from typing import Any

import pytest
from tests.present import judging
from tests.present.judging import Changes

from revealbook.present.facts import NotFacts, facts_json, facts_of, read_facts
from revealbook.present.facts_record import OpeningFacts
from revealbook.rules.finding import Outcome

SHORT = {"frame.pieces.bottom.overlap_left_mm": 62, "frame.pieces.bottom.overlap_right_mm": 102}
COLD = {"frame.bonding[0].air_c": 1}


def facts(changes: Changes | None = None, **site: Any) -> OpeningFacts:
    judged = judging.site({"W-1.01": changes or {}}, **site)
    return facts_of(judged.openings[0], judged)


def test_place_serial_and_size_are_those_of_the_record() -> None:
    found = facts()
    assert (found.site, found.mark, found.serial) == ("alder-yard", "W-1.01", "260911-04")
    assert (found.building, found.floor, found.elevation) == ("A", "1", "south-west")
    assert (found.room, found.width_mm, found.height_mm) == ("workshop kitchen", 2400, 1500)


def test_products_are_told_with_the_name_on_the_label_and_the_batch() -> None:
    bond = next(one for one in facts().products if one.use == "adhesive")
    assert (bond.id, bond.name, bond.batch) == ("frame-bond", "Example Frame Bond", "0412")


def test_tapes_are_told_by_the_side_they_are_on() -> None:
    assert {one.use for one in facts().products} >= {"inner tape", "outer tape", "foam", "frame profile"}


def test_rules_that_are_met_or_do_not_apply_are_only_named() -> None:
    found = facts(SHORT)
    [breached] = [one for one in found.rules if one.rule == "frame-overlap"]
    assert (breached.outcome, breached.grade, breached.weather) == (
        Outcome.DOES_NOT_CONFORM, "critical", False,
    )  # fmt: skip
    assert "frame-overlap" not in found.conforms
    assert "bottom-length" in found.conforms
    assert sum(found.counts.values()) == len(found.rules) + len(found.conforms) + len(found.does_not_apply)


def test_a_nonconformity_is_told_in_a_sentence_with_its_value() -> None:
    [said, *_] = facts(SHORT).nonconformities
    assert "80 mm" in said
    assert "62 mm" in said


def test_work_below_the_coldest_air_is_told_as_weather() -> None:
    assert "air-in-range" in facts(COLD).below_limit
    assert facts(SHORT).below_limit == ()


def test_weather_that_is_only_undecided_or_not_shown_is_not_below_the_limit() -> None:
    found = facts({"frame.bonding[0].air_c": None})
    assert any(one.rule == "air-in-range" and one.outcome is Outcome.NOT_SHOWN for one in found.rules)
    assert found.below_limit == ()


def test_events_stand_in_order_of_time_with_batch_and_weather() -> None:
    found = facts()
    assert [one.at for one in found.events] == sorted(one.at for one in found.events)
    bonding = next(one for one in found.events if one.step == "bonding")
    assert (bonding.by, bonding.product, bonding.batch) == ("ada", "frame-bond", "0412")
    assert (bonding.air_c, bonding.surface_c, bonding.rh_pct) == (8.5, 7.5, 70)
    assert found.first == date(2026, 11, 17)  # when the concession was given, before the work
    assert found.last == found.events[-1].at.date()


def test_people_are_told_by_name_with_all_they_did() -> None:
    ada = next(one for one in facts().people if one.id == "ada")
    assert ada.name == "Ada Laibung"
    assert "bonding" in ada.did
    assert "foam" in ada.did
    assert len(ada.did) == len(set(ada.did))


def test_an_event_without_a_time_still_tells_who_did_it() -> None:
    found = facts({"frame.bonding[0].laid_at": None})
    assert all(one.step != "bonding" for one in found.events)
    assert any("bonding" in one.did for one in found.people)


def test_fixings_are_counted_by_what_they_hold() -> None:
    by_what = {one.what: one for one in facts().fixings}
    assert by_what["frame"].id == "frame-screw-7.5"
    assert by_what["frame"].number == 18
    assert "window" in by_what


def test_a_concession_is_told_with_who_why_and_until_when() -> None:
    conceded = {
        "rule": "frame-overlap", "reason": "gas pipe beside it", "accepted_by": "cleo",
        "at": "2026-11-24T10:00+01:00", "until": "2031-11-24T00:00+01:00",
    }  # fmt: skip
    [found] = facts({**SHORT, "concessions": [conceded]}).concessions
    assert (found.rule, found.reason, found.by) == ("frame-overlap", "gas pipe beside it", "Cleo Reveal")
    assert found.until is not None
    assert found.until.year == 2031


def test_what_somebody_wrote_freely_is_kept_once() -> None:
    said = facts({"survey.note": "old paint on the lintel", "window.note": "old paint on the lintel"}).texts
    assert said.count("old paint on the lintel") == 1
    assert "two beads on the back of the bottom piece" in said


def test_the_same_site_gives_the_same_bytes_and_they_read_back_whole() -> None:
    site = judging.site({"W-1": SHORT, "W-2": COLD, "W-3": {}})
    content = facts_json(site)
    assert content == facts_json(judging.site({"W-1": SHORT, "W-2": COLD, "W-3": {}}))
    assert read_facts(content) == tuple(facts_of(one, site) for one in site.openings)


def test_an_opening_stands_on_one_line_and_takes_few_bytes() -> None:
    lines = facts_json(judging.site({"W-1": SHORT, "W-2": {}})).decode().splitlines()
    assert [json.loads(line.rstrip(","))["mark"] for line in lines[1:-1]] == ["W-1", "W-2"]
    assert max(map(len, lines[1:-1])) < 7000


def test_keys_of_a_later_version_are_left_aside() -> None:
    said = json.loads(facts_json(judging.site({"W-1": {}})))
    before = read_facts(json.dumps(said).encode())
    said["openings"][0] |= {"colour_of_sky": "grey"}
    said["openings"][0]["events"][0] |= {"wind_m_s": 3}
    assert read_facts(json.dumps({**said, "more": 1}).encode()) == before


@pytest.mark.parametrize(
    "content", [b"", b"[]", b"{}", b'{"format": "revealbook-facts-9"}', b"\xff", b'{"format": 1, "rules": 2}']
)
def test_what_holds_no_facts_is_refused(content: bytes) -> None:
    with pytest.raises(NotFacts):
        read_facts(content)


def test_facts_with_a_value_that_cannot_be_are_refused() -> None:
    said = json.loads(facts_json(judging.site({"W-1": {}})))
    said["openings"][0]["outcome"] = "splendid"
    with pytest.raises(NotFacts, match="outcome"):
        read_facts(json.dumps(said).encode())
