from dataclasses import replace
from datetime import datetime

from tests.present.judging import ENGLISH, site

from revealbook.present.evidence import evidence, fingerprint
from revealbook.present.present import Pack, present
from revealbook.rules.finding import Outcome

BREACH = {"frame.pieces.bottom.overlap_left_mm": 62, "frame.pieces.bottom.overlap_right_mm": 102}
CONCEDED = {**BREACH, "concessions[0]": {"rule": "frame-overlap", "accepted_by": "cleo"}}
OPEN = {"survey.sound": None}
SITE = site({"A-1": {}, "A-2": BREACH, "A-3": CONCEDED, "A-4": OPEN})
PACK: Pack = present(SITE, ENGLISH)


def test_a_pack_has_a_sheet_and_a_row_for_every_opening() -> None:
    assert [sheet.mark for sheet in PACK.sheets] == ["A-1", "A-2", "A-3", "A-4"]
    assert [row.mark for row in PACK.register] == ["A-1", "A-2", "A-3", "A-4"]
    assert PACK.verdict.sentence == "2 of 4 openings do not conform, in 2 points."


def test_every_nonconformity_and_every_open_point_is_listed() -> None:
    assert [one.number for one in PACK.nonconformities] == ["A-2/1", "A-3/1"]
    assert [one.number for one in PACK.conceded] == ["A-3/1"]
    listed = {mark: [one.rule_id for one in entries] for mark, entries in PACK.to_do}
    assert listed["A-4"] == ["substrate-sound"]
    assert "A-1" not in listed


def test_openings_and_rules_are_counted_apart() -> None:
    assert {str(outcome): number for outcome, _, number in PACK.tally}["does not conform"] == 2
    assert sum(number for *_, number in PACK.tally) == 4
    by_rule = {count.outcome: count.number for count in PACK.rule_counts}
    assert by_rule[Outcome.DOES_NOT_CONFORM] == 2
    assert sum(by_rule.values()) == 4 * len(SITE.rule_set.rules)


def test_the_fingerprint_is_that_of_what_the_pack_carries() -> None:
    assert PACK.carried == evidence(SITE)
    assert PACK.fingerprint == fingerprint(PACK.carried)
    assert PACK.fingerprint.startswith(PACK.short_fingerprint.replace(" ", ""))
    assert [(path, digest) for path, digest, _ in PACK.inside] == [
        (one.path, one.digest) for one in PACK.carried
    ]
    assert PACK.inside[0][2] == str(len(PACK.carried[0].content))


def test_the_contents_name_every_part_and_every_opening() -> None:
    openings = [(anchor, title) for anchor, title, under in PACK.contents if under]
    assert openings[:2] == [("opening-1", "Opening A-1"), ("opening-2", "Opening A-2")]
    parts = [anchor for anchor, _, under in PACK.contents if not under]
    assert {"register", "nonconformities", "to-do", "concessions", "sources", "people", "inside"} <= set(
        parts
    )


def test_records_run_up_to_the_last_thing_that_happened() -> None:
    late = site({"A": {"covering.at": "2026-12-01T08:00+01:00"}, "B": {}})
    assert present(late, ENGLISH).last_entry == datetime.fromisoformat("2026-12-01T08:00+01:00")


def test_how_long_a_concession_runs_is_nothing_that_happened() -> None:
    concession = {"rule": "frame-overlap", "at": "2026-11-24T10:00+01:00", "until": "2031-11-24T00:00+01:00"}
    last = present(site({"A": {"concessions[0]": concession}}), ENGLISH).last_entry
    assert last == datetime.fromisoformat("2026-11-24T10:00+01:00")


def test_a_site_without_openings_has_a_pack_all_the_same() -> None:
    empty = present(site({}), ENGLISH)
    assert (empty.sheets, empty.last_entry) == ((), None)
    assert empty.verdict.sentence == "No opening was recorded."


def test_people_stand_with_their_roles_and_firm() -> None:
    assert ("Cleo Reveal", "clerk of works", "Office of Cleo Reveal (invented)") in PACK.people
    two = site({}, people=[{"id": "x", "name": "X", "roles": ["installer", "foreman"]}])
    assert present(two, ENGLISH).people == (("X", "installer and foreman", ""),)


def test_facts_of_the_site_are_told_as_far_as_stated() -> None:
    facts = dict(present(site({}, client="C", place="P", firm=None), ENGLISH).facts)
    assert facts["Client"] == "C"
    assert facts["Place"] == "P"
    assert "Installed by" not in facts


def test_without_sheets_the_rest_is_as_it_is_with_them() -> None:
    parts = tuple(entry for entry in PACK.contents if not entry[2])
    assert present(SITE, ENGLISH, with_sheets=False) == replace(PACK, sheets=(), contents=parts)
