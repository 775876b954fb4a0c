"""What is filed of a site, opening by opening, over its versions."""

from pathlib import Path

import pytest
from tests.archive import archives
from tests.lookup.filings import SHORT, facts_file, file_site, join_claim, new_archive
from tests.made import Made

from revealbook.archive.refusal import Damaged
from revealbook.lookup.filed import digest_of, filed_openings


def test_an_opening_that_did_not_change_is_one_entry(tmp_path: Path) -> None:
    archive = new_archive(tmp_path)
    file_site(archive, "elm", {"W-1": {}, "W-2": SHORT})
    file_site(archive, "elm", {"W-1": {}, "W-2": {}})
    filed = filed_openings(archive, "elm")
    spans = [(one.facts.mark, one.since, one.until, one.latest) for one in filed.entries]
    assert spans == [("W-1", 1, 2, True), ("W-2", 1, 1, False), ("W-2", 2, 2, True)]
    assert (filed.site, filed.versions) == ("elm", 2)


def test_a_claim_joins_the_last_state_of_its_opening_alone(tmp_path: Path) -> None:
    archive = new_archive(tmp_path)
    file_site(archive, "elm", {"W-1": {}, "W-2": SHORT})
    file_site(archive, "elm", {"W-1": {}, "W-2": {}})
    join_claim(archive, "elm", "W-2")
    later = [[one.id for one in entry.later] for entry in filed_openings(archive, "elm").entries]
    assert later == [[], [], ["claim-1"]]


def test_the_digest_changes_with_every_filing(tmp_path: Path) -> None:
    archive = new_archive(tmp_path)
    assert digest_of(archive, "elm") == ""
    file_site(archive, "elm", {"W-1": {}})
    before = digest_of(archive, "elm")
    join_claim(archive, "elm", "W-1")
    assert digest_of(archive, "elm") not in ("", before)


def test_of_several_packs_that_with_the_fewest_openings_holds_an_opening(tmp_path: Path) -> None:
    archive = new_archive(tmp_path)
    whole = b'{"openings":[{"mark":"W-1"},{"mark":"W-2"}]}'
    archives.add(
        archive,
        {
            "facts.json": facts_file("elm", {"W-1": {}, "W-2": {}}),
            "packs/elm.pdf": b"%PDF index", "findings/elm.json": whole,
            "packs/elm-1.pdf": b"%PDF one", "findings/elm-1.json": b'{"openings":[{"mark":"W-1"}]}',
        },
        "elm",
    )  # fmt: skip
    held = {one.facts.mark: one.pack for one in filed_openings(archive, "elm").entries}
    assert held == {"W-1": "elm-1.pdf", "W-2": "elm.pdf"}


def test_without_facts_the_packs_are_judged_and_one_that_is_none_is_damage(tmp_path: Path) -> None:
    archive = new_archive(tmp_path)
    archives.add(archive, {"packs/elm.pdf": b"%PDF"}, "elm")
    with pytest.raises(Damaged, match="version 1"):
        filed_openings(archive, "elm")


def test_a_pack_filed_without_facts_gives_the_same_openings(tmp_path: Path, conforming_pack: Made) -> None:
    archive = new_archive(tmp_path)
    archives.add(archive, {"packs/a.pdf": conforming_pack.pdf}, "alder-yard")
    [entry] = filed_openings(archive, "alder-yard").entries
    assert (entry.facts.mark, entry.facts.serial, entry.pack) == ("W-1.01", "260911-04", "a.pdf")
