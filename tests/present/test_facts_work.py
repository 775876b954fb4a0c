"""Facts of the work where a record lacks something."""

import json
from typing import Any

from tests.present import judging

from revealbook.present.facts_work import events, fixings, people, products, texts
from revealbook.records.opening import Opening
from revealbook.records.site import Site

SITE: Site = judging.site({"W-1": {}}).site.site


def record(**sections: Any) -> Opening:
    return Opening.model_validate_json(json.dumps({"opening": {"mark": "W-1"}, **sections}))


def test_a_record_that_says_nothing_gives_no_work() -> None:
    bare = record()
    assert (products(bare, SITE), fixings(bare, SITE), events(bare), people(bare, SITE), texts(bare)) == (
        (), (), (), (), (),
    )  # fmt: skip


def test_a_batch_without_its_product_is_kept() -> None:
    [found] = products(record(frame={"bonding": [{"batches": [{"number": "7714"}]}]}), SITE)
    assert (found.use, found.id, found.name, found.batch) == ("adhesive", None, "", "7714")


def test_every_batch_of_every_application_is_kept() -> None:
    frame = {"bonding": [{"product": "bond", "batches": [{"number": "1"}, {"number": "2"}]}]}
    anew = {"id": "NC-1", "what": "x", "correction": {"bonding": [{"batches": [{"number": "3"}]}]}}
    found = products(record(frame=frame, nonconformities=[anew]), SITE)
    assert [(one.id, one.batch) for one in found] == [("bond", "1"), ("bond", "2"), (None, "3")]


def test_every_application_is_an_event_with_the_hand_that_did_it() -> None:
    at = "2026-11-20T{}+01:00".format
    frame = {"by": "ada", "bonding": [{"laid_at": at("09:00"), "pressed_at": at("09:10"), "air_c": 8}]}
    done = {"by": "ben", "bonding": [{"laid_at": at("14:00"), "batches": [{"number": "1"}, {"number": "2"}]}]}
    anew = {"id": "NC-1", "what": "x", "correction": done}
    found = events(record(frame=frame, nonconformities=[anew]))
    assert [(one.step, one.by, one.batch, one.air_c) for one in found] == [
        ("bonding", "ada", None, 8),
        ("pressed on", "ada", None, None),
        ("bonding", "ben", "1, 2", None),
    ]


def test_a_product_that_site_yaml_does_not_name_keeps_its_id() -> None:
    [found] = products(record(seals={"events": [{"step": "foam", "product": "other-foam"}]}), SITE)
    assert (found.id, found.name) == ("other-foam", "")


def test_trimming_uses_no_product() -> None:
    assert products(record(seals={"events": [{"step": "trim", "product": "knife"}]}), SITE) == ()


def test_an_event_of_the_seals_is_by_whoever_did_the_section_if_it_names_nobody() -> None:
    seals = {"by": "ada", "events": [{"step": "foam"}, {"step": "outer tape", "by": "ben"}]}
    assert {(one.id, one.did) for one in people(record(seals=seals), SITE)} == {
        ("ada", ("seals", "foam")),
        ("ben", ("outer tape",)),
    }


def test_who_found_corrected_and_checked_a_nonconformity_is_told() -> None:
    wrong = {
        "id": "NC-1", "what": "piece out of level", "found_by": "ben",
        "correction": {"what": "reset", "by": "ada", "checked_by": "ben"},
    }  # fmt: skip
    found = record(nonconformities=[wrong])
    assert {one.id: one.did for one in people(found, SITE)} == {
        "ben": ("found NC-1", "checked NC-1"),
        "ada": ("corrected NC-1",),
    }
    assert texts(found) == ("piece out of level", "reset")


def test_positions_of_two_sets_of_the_same_fixing_are_added() -> None:
    pieces = {
        side: {"fixings": [{"product": "x", "at_mm": [100, 700]}, {"product": "x", "at_mm": [1300]}]}
        for side in ("left", "right")
    }
    [found] = fixings(record(frame={"pieces": pieces}), SITE)
    assert (found.what, found.id, found.number) == ("frame", "x", 6)
