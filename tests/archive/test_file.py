"""Filing: what lies in a version, what is refused and why, what makes nothing new."""

import json
from collections.abc import Sequence
from dataclasses import replace
from pathlib import Path
from typing import Any

import pikepdf
import pytest
from tests.archive.archives import WHEN, content_of, outside_says_valid
from tests.archive.plain_packs import in_volumes, variants, whole_pack
from tests.made import changed
from tests.site_folders import change, small_site

from revealbook import __version__
from revealbook.archive.chain import BEFORE_THE_FIRST
from revealbook.archive.file import Filing, file_packs
from revealbook.archive.refusal import Refused
from revealbook.archive.store import Archive, Filed
from revealbook.present.evidence import fingerprint
from revealbook.present.facts import read_facts
from revealbook.present.present import present
from revealbook.present.words import words_in

PLACES = {"A-1": ("A", "1"), "B-1": ("B", "1")}
SITE = "alder-yard"


@pytest.fixture
def site(tmp_path: Path) -> Path:
    return small_site(tmp_path / "site", PLACES)


@pytest.fixture
def archive(tmp_path: Path) -> Archive:
    return Archive.create(tmp_path / "archive")


@pytest.fixture
def filing(site: Path) -> Filing:
    return Filing("Ada", WHEN, photos=site / "photos")


def told(archive: Archive, filed: Filed) -> dict[str, Any]:
    file = archive.content(filed.site, filed.version.number, "filing.json")
    found = json.loads(file.read_bytes())
    assert isinstance(found, dict)
    return found


def test_a_version_holds_pack_records_rules_findings_photographs_and_who_filed(
    archive: Archive, site: Path, filing: Filing
) -> None:
    pack = whole_pack(site)
    filed = file_packs(archive, [pack], filing)
    held = content_of(archive, SITE, 1)
    assert held["packs/alder-yard.pdf"] == pack.read_bytes()
    for name in ("site.yaml", "openings/A-1.yaml", "openings/B-1.yaml", "rules/few.yaml", "photos/A-1.jpg"):
        assert held[name] == (site / name).read_bytes()
    assert json.loads(held["findings/alder-yard.json"])["site"] == SITE
    assert any(name.startswith("rule_sets/common-practice/") for name in held)
    assert [one.mark for one in read_facts(held["facts.json"])] == ["A-1", "B-1"]
    assert (filed.site, filed.new, filed.version.number) == (SITE, True, 1)
    assert (filed.version.user, filed.version.message) == ("Ada", "filed alder-yard.pdf")
    assert outside_says_valid(archive.path)


def test_the_filing_says_who_when_with_what_and_what_came_before(
    archive: Archive, site: Path, filing: Filing
) -> None:
    first = file_packs(archive, [whole_pack(site)], replace(filing, note="handed over"))
    assert told(archive, first) | {"packs": []} == {
        "format": "revealbook-filing-1",
        "site": SITE,
        "version": 1,
        "head_before": BEFORE_THE_FIRST,
        "filed_by": "Ada",
        "filed_at": "2026-12-01T09:00:00+01:00",
        "note": "handed over",
        "filed_with": __version__,
        "rule_set": {"id": "common-practice", "edition": "2026-12"},
        "openings": 2,
        "packs": [],
        "photos_missing": [],
    }
    assert first.version.message == "handed over"
    change(site / "openings" / "A-1.yaml", "overlap_left_mm: 82", "overlap_left_mm: 83")
    second = file_packs(archive, [whole_pack(site)], filing)
    assert (told(archive, second)["version"], told(archive, second)["head_before"]) == (2, first.version.head)


def test_the_filing_names_each_pack_with_the_fingerprint_on_its_cover(
    archive: Archive, site: Path, filing: Filing
) -> None:
    from tests.made import judged

    pack = whole_pack(site)
    filed = file_packs(archive, [pack], filing)
    (said,) = told(archive, filed)["packs"]
    cover = present(judged(site), words_in("en"))
    assert said["fingerprint"] == cover.fingerprint == fingerprint(cover.carried)
    assert (said["file"], said["openings"], said["made_with"]) == ("packs/alder-yard.pdf", 2, __version__)


def test_filing_the_same_again_changes_nothing_whoever_does_it_whenever(
    archive: Archive, site: Path, filing: Filing
) -> None:
    pack = whole_pack(site)
    first = file_packs(archive, [pack], filing)
    again = file_packs(archive, [pack], replace(filing, by="Ben", note="once more"))
    assert (again.new, again.version) == (False, first.version)


def test_a_copy_of_a_filed_pack_under_another_name_changes_nothing(
    archive: Archive, site: Path, filing: Filing
) -> None:
    pack = whole_pack(site)
    first = file_packs(archive, [pack], filing)
    copy = pack.with_name("alder-yard (1).pdf")
    copy.write_bytes(pack.read_bytes())
    again = file_packs(archive, [copy], filing)
    assert (again.new, again.version.number) == (False, 1)
    change(site / "openings" / "A-1.yaml", "overlap_left_mm: 82", "overlap_left_mm: 83")
    corrected = whole_pack(site)
    corrected.rename(other := corrected.with_name("corrected.pdf"))
    assert file_packs(archive, [other], filing).new
    assert "packs/corrected.pdf" in archive.version(SITE).state
    assert first.version.state.keys() >= {"packs/alder-yard.pdf", "findings/alder-yard.json"}


def test_a_changed_record_makes_a_new_version_and_the_old_one_stays(
    archive: Archive, site: Path, filing: Filing
) -> None:
    file_packs(archive, [whole_pack(site)], filing)
    before = content_of(archive, SITE, 1)
    change(site / "openings" / "A-1.yaml", "overlap_left_mm: 82", "overlap_left_mm: 83")
    filed = file_packs(archive, [whole_pack(site)], filing)
    assert filed.version.number == 2
    assert b"overlap_left_mm: 83" in content_of(archive, SITE, 2)["openings/A-1.yaml"]
    assert content_of(archive, SITE, 1) == before


def test_progress_is_told_after_each_pack_and_each_file(archive: Archive, site: Path, filing: Filing) -> None:
    packs: list[tuple[int, int, str]] = []
    files: list[str] = []
    filing = replace(filing, seen=lambda _done, _total, name: files.append(name))
    volumes = in_volumes(site)
    file_packs(archive, volumes, filing, lambda *one: packs.append(one))
    assert packs == [(number, 3, pack.name) for number, pack in enumerate(volumes, 1)]
    assert set(content_of(archive, SITE, 1)) <= set(files)


# --- volumes ---------------------------------------------------------------------------------------------


def test_volumes_and_their_index_are_one_version(archive: Archive, site: Path, filing: Filing) -> None:
    volumes = in_volumes(site)
    filed = file_packs(archive, volumes, filing)
    held = content_of(archive, SITE, 1)
    assert {name: raw for name, raw in held.items() if name.startswith("packs/")} == {
        f"packs/{file.name}": file.read_bytes() for file in volumes
    }
    assert {name for name in held if name.startswith("findings/")} == {
        f"findings/{file.stem}.json" for file in volumes
    }
    assert told(archive, filed)["openings"] == 2


# --- refused ---------------------------------------------------------------------------------------------


def refused(archive: Archive, packs: Sequence[Path], filing: Filing) -> str:
    """File what must be refused; the archive then holds nothing. Gives the sentence."""
    with pytest.raises(Refused) as reason:
        file_packs(archive, packs, filing)
    assert archive.sites() == ()
    return str(reason.value)


def test_a_pack_that_does_not_agree_with_itself_is_refused(
    archive: Archive, site: Path, filing: Filing, tmp_path: Path
) -> None:
    def tampered(pdf: pikepdf.Pdf) -> None:
        pdf.attachments["more.txt"] = pikepdf.AttachedFileSpec(pdf, b"x", filename="more.txt")

    pack = changed(whole_pack(site), tmp_path / "pack.pdf", tampered)
    assert "does not agree with itself.\n  carried file: more.txt" in refused(archive, [pack], filing)


def test_missing_photographs_are_all_named(archive: Archive, site: Path, filing: Filing) -> None:
    pack = whole_pack(site)
    for name in PLACES:
        (site / "photos" / f"{name}.jpg").unlink()
    said = refused(archive, [pack], filing)
    assert f"(not in {site / 'photos'}):\n  A-1.jpg\n  B-1.jpg" in said
    assert "no folder of photographs was given" in refused(archive, [pack], replace(filing, photos=None))


def test_without_photographs_is_filed_if_asked_and_the_filing_names_them(
    archive: Archive, site: Path, filing: Filing
) -> None:
    pack = whole_pack(site)
    (site / "photos" / "B-1.jpg").unlink()
    filed = file_packs(archive, [pack], replace(filing, without_photos=True))
    assert told(archive, filed)["photos_missing"] == ["B-1.jpg"]
    assert [name for name in filed.version.state if name.startswith("photos/")] == ["photos/A-1.jpg"]


def test_photographs_that_the_archive_holds_need_not_be_given_again(
    archive: Archive, site: Path, filing: Filing, tmp_path: Path
) -> None:
    pack = whole_pack(site)
    file_packs(archive, [pack], filing)
    (other,) = variants(pack, tmp_path / "again", 1)
    filed = file_packs(archive, [other], replace(filing, photos=None))
    assert (filed.version.number, told(archive, filed)["photos_missing"]) == (2, [])
    assert content_of(archive, SITE, 2)["photos/A-1.jpg"] == (site / "photos" / "A-1.jpg").read_bytes()


def test_a_photograph_that_no_record_names_is_not_filed(archive: Archive, site: Path, filing: Filing) -> None:
    (site / "photos" / "lunch.jpg").write_bytes(b"jpeg")
    file_packs(archive, [whole_pack(site)], filing)
    assert "photos/lunch.jpg" not in content_of(archive, SITE, 1)


def test_what_joined_later_is_carried_forward(archive: Archive, site: Path, filing: Filing) -> None:
    file_packs(archive, [whole_pack(site)], filing)
    later = {"afterwards/claim-1.yaml": b"kind: claim\n", "afterwards/photos/sill.jpg": b"jpeg"}
    archive.add(SITE, later, user="a", message="joined", created=WHEN, keep=("",))
    change(site / "openings" / "A-1.yaml", "overlap_left_mm: 82", "overlap_left_mm: 83")
    assert file_packs(archive, [whole_pack(site)], filing).version.number == 3
    assert later.items() <= content_of(archive, SITE, 3).items()


def test_no_pack_is_no_version(archive: Archive, filing: Filing) -> None:
    assert refused(archive, [], filing) == "There is no pack to file."
