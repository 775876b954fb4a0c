"""Joining: a later record is a new version, and nothing is ever overwritten."""

import json
from dataclasses import replace
from pathlib import Path

import pytest
from tests.archive.archives import WHEN, content_of, outside_says_valid
from tests.archive.later_records import CLAIM, REPAIR, written
from tests.archive.plain_packs import whole_pack
from tests.site_folders import small_site

from revealbook.archive.file import Filing, file_packs
from revealbook.archive.join import join
from revealbook.archive.later import LaterRecord, read_later
from revealbook.archive.refusal import Damaged, Refused
from revealbook.archive.store import Archive

SITE = "alder-yard"


@pytest.fixture
def archive(tmp_path: Path) -> Archive:
    """An archive with one filed site."""
    site = small_site(tmp_path / "site", {"A-1": ("A", "1"), "B-1": ("B", "1")})
    archive = Archive.create(tmp_path / "archive")
    file_packs(archive, [whole_pack(site)], Filing("Ada", WHEN, photos=site / "photos"))
    return archive


@pytest.fixture
def filing(tmp_path: Path) -> Filing:
    """Who joins, with a photograph of a sill."""
    (tmp_path / "photos").mkdir()
    (tmp_path / "photos" / "sill.jpg").write_bytes(b"jpeg")
    return Filing("Edda", WHEN, photos=tmp_path / "photos")


@pytest.fixture
def claim(tmp_path: Path) -> LaterRecord:
    return read_later(written(tmp_path, CLAIM))


def test_a_claim_and_its_photograph_join_everything_that_was_there(
    archive: Archive, claim: LaterRecord, filing: Filing
) -> None:
    before = content_of(archive, SITE, 1)
    joined = join(archive, claim, filing)
    after = content_of(archive, SITE, 2)
    assert (joined.new, joined.version.number) == (True, 2)
    assert (joined.version.user, joined.version.message) == ("Edda", "claim claim-2036-1 joined A-1")
    assert after.pop("afterwards/claim-2036-1.yaml") == CLAIM.encode()
    assert after.pop("afterwards/photos/sill.jpg") == b"jpeg"
    assert {name for name in before if before[name] != after[name]} == {"filing.json"}
    assert before.keys() == after.keys()
    assert outside_says_valid(archive.path)


def test_the_filing_says_what_joined_when_and_by_whom_and_keeps_the_packs(
    archive: Archive, claim: LaterRecord, filing: Filing
) -> None:
    first = json.loads(content_of(archive, SITE, 1)["filing.json"])
    join(archive, claim, replace(filing, note="tenant rang"))
    told = json.loads(content_of(archive, SITE, 2)["filing.json"])
    assert told["packs"] == first["packs"]
    assert told["joined"] == {"file": claim.path, "photos_missing": []}
    assert (told["filed_by"], told["note"]) == ("Edda", "tenant rang")
    assert (told["version"], told["head_before"]) == (2, archive.versions(SITE)[0].head)


def test_records_join_one_after_the_other(
    archive: Archive, claim: LaterRecord, filing: Filing, tmp_path: Path
) -> None:
    join(archive, claim, filing)
    join(archive, read_later(written(tmp_path, REPAIR)), filing)
    held = content_of(archive, SITE, 3)
    assert {name for name in held if name.startswith("afterwards/")} == {
        "afterwards/claim-2036-1.yaml", "afterwards/photos/sill.jpg", "afterwards/repair-2036-1.yaml",
    }  # fmt: skip


def test_the_same_record_again_changes_nothing(archive: Archive, claim: LaterRecord, filing: Filing) -> None:
    join(archive, claim, filing)
    again = join(archive, claim, filing)
    assert (again.new, again.version.number) == (False, 2)


def test_a_record_that_is_there_is_never_overwritten(
    archive: Archive, claim: LaterRecord, filing: Filing
) -> None:
    join(archive, claim, filing)
    other = replace(claim, content=claim.content + b"note: no, on the right\n")
    with pytest.raises(Refused, match=r"afterwards/claim-2036-1\.yaml is in the archive with other content"):
        join(archive, other, filing)
    assert len(archive.versions(SITE)) == 2


def test_a_photograph_that_is_there_is_never_overwritten(
    archive: Archive, claim: LaterRecord, filing: Filing
) -> None:
    join(archive, claim, filing)
    assert filing.photos is not None
    (filing.photos / "sill.jpg").write_bytes(b"another picture")
    with pytest.raises(Refused, match=r"afterwards/photos/sill\.jpg is in the archive with other content"):
        join(archive, replace(claim, id="claim-2036-2"), filing)


def test_a_photograph_that_lacks_is_refused_unless_asked(
    archive: Archive, claim: LaterRecord, filing: Filing, tmp_path: Path
) -> None:
    with pytest.raises(Refused, match=r"sill\.jpg, which cannot be filed \(no folder"):
        join(archive, claim, replace(filing, photos=None))
    with pytest.raises(Refused, match=r"sill\.jpg, which cannot be filed \(not in .*nowhere\)"):
        join(archive, claim, replace(filing, photos=tmp_path / "nowhere"))
    assert join(archive, claim, replace(filing, photos=None, without_photos=True)).new
    told = json.loads(content_of(archive, SITE, 2)["filing.json"])
    assert told["joined"]["photos_missing"] == ["sill.jpg"]
    assert "afterwards/photos/sill.jpg" not in archive.versions(SITE)[1].state


def test_a_photograph_that_lacked_can_be_given_later(
    archive: Archive, claim: LaterRecord, filing: Filing
) -> None:
    join(archive, claim, replace(filing, without_photos=True, photos=None))
    assert join(archive, claim, filing).version.number == 3
    assert content_of(archive, SITE, 3)["afterwards/photos/sill.jpg"] == b"jpeg"


def test_an_unknown_site_or_opening_is_refused_with_the_nearest(
    archive: Archive, claim: LaterRecord, filing: Filing
) -> None:
    with pytest.raises(Refused, match="The archive holds no site 'alder'"):
        join(archive, replace(claim, site="alder"), filing)
    with pytest.raises(Refused, match=r"alder-yard has no opening A-11\. Did you mean A-1\?"):
        join(archive, replace(claim, mark="A-11"), filing)
    with pytest.raises(Refused, match=r"alder-yard has no opening zzz\.$"):
        join(archive, replace(claim, mark="zzz"), filing)
    assert archive.sites() == (SITE,)


def test_findings_that_cannot_be_read_are_damage(
    archive: Archive, claim: LaterRecord, filing: Filing
) -> None:
    file = archive.content(SITE, 1, "findings/alder-yard.json")
    file.write_bytes(b"{")
    with pytest.raises(Damaged, match=r"findings/alder-yard\.json of alder-yard cannot be read"):
        join(archive, claim, filing)
