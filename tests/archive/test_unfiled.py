"""A pack that nobody filed is sent with everything it refers to, and received like any other."""

import json
from pathlib import Path

import bagit
import pytest
from tests.archive.archives import WHEN, outside_says_valid
from tests.archive.later_records import CLAIM, written
from tests.archive.plain_packs import in_volumes, whole_pack
from tests.site_folders import change, small_site

from revealbook.archive.bag import opened_bag
from revealbook.archive.file import SAME, Filing, file_packs
from revealbook.archive.given import read_packs
from revealbook.archive.join import join
from revealbook.archive.later import read_later
from revealbook.archive.receive import file_received, received
from revealbook.archive.refusal import Refused
from revealbook.archive.store import Archive, Filed, Version
from revealbook.archive.unfiled import send_unfiled
from revealbook.archive.zipped import unpack

PLACES = {"A-1": ("A", "1"), "B-1": ("B", "1")}
SITE = "alder-yard"


@pytest.fixture
def site(tmp_path: Path) -> Path:
    return small_site(tmp_path / "site", PLACES)


def filing(site: Path) -> Filing:
    return Filing("Ada", WHEN, "handed over", photos=site / "photos")


def sent(site: Path, target: Path) -> Path:
    """Make the pack of a site as it is now and send it without filing it."""
    target.unlink(missing_ok=True)
    send_unfiled(read_packs([whole_pack(site)]), filing(site), target)
    return target


def filed(archive: Archive, file: Path) -> Filed:
    with received(file) as got:
        return file_received(archive, got, Filing("cleo", WHEN))


def held(version: Version) -> dict[str, str]:
    return {path: digest for path, digest in version.state.items() if path not in SAME}


def test_it_is_what_filing_into_an_empty_archive_makes_and_says_that_it_was_only_sent(
    tmp_path: Path, site: Path
) -> None:
    version = send_unfiled(read_packs([whole_pack(site)]), filing(site), tmp_path / "s.zip")
    alone = file_packs(Archive.create(tmp_path / "a"), [whole_pack(site)], filing(site)).version
    with opened_bag(tmp_path / "s.zip") as bag:
        assert (bag.site, bag.version, bag.head) == (SITE, 1, version.head)
        assert bag.only_sent
        kept = {"filed_by": "Ada", "filed_at": WHEN.isoformat(), "note": "handed over"}
        assert kept.items() <= bag.filing.items()
        assert {path: digest for path, digest in bag.state.items() if path not in SAME} == held(alone)
        assert {"photos/A-1.jpg", "openings/B-1.yaml", "findings/alder-yard.json"} <= bag.state.keys()


def test_the_outside_library_finds_the_bag_valid_and_reads_that_it_was_not_filed(
    tmp_path: Path, site: Path
) -> None:
    unpack(sent(site, tmp_path / "s.zip"), tmp_path / "out")
    bag = bagit.Bag(str(tmp_path / "out" / f"{SITE}-v1"))
    assert bag.validate()
    assert bag.info["External-Description"].endswith(": one site, sent before it was filed.")


def test_the_same_pack_at_the_same_moment_gives_the_same_bytes(tmp_path: Path, site: Path) -> None:
    assert sent(site, tmp_path / "a.zip").read_bytes() == sent(site, tmp_path / "b.zip").read_bytes()


def test_nothing_stays_behind_but_the_file(
    tmp_path: Path, site: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    packs, scratch = read_packs([whole_pack(site)]), tmp_path / "scratch"
    scratch.mkdir()
    monkeypatch.setattr("tempfile.tempdir", str(scratch))
    send_unfiled(packs, filing(site), tmp_path / "s.zip")
    assert list(scratch.iterdir()) == []


def test_all_volumes_are_sent_together(tmp_path: Path, site: Path) -> None:
    volumes = in_volumes(site)
    send_unfiled(read_packs(volumes), filing(site), tmp_path / "s.zip")
    with received(tmp_path / "s.zip") as got:
        assert sorted(pack.name for pack in got.packs) == sorted(one.name for one in volumes)
    with pytest.raises(Refused, match="which was not given"):
        send_unfiled(read_packs(volumes[1:]), filing(site), tmp_path / "t.zip")


def test_photographs_that_lack_are_named_and_left_out_only_if_asked(tmp_path: Path, site: Path) -> None:
    packs = read_packs([whole_pack(site)])
    (site / "photos" / "A-1.jpg").unlink()
    with pytest.raises(Refused, match=r"A-1\.jpg"):
        send_unfiled(packs, filing(site), tmp_path / "s.zip")
    assert not list(tmp_path.glob("s.zip*"))
    asked = Filing("Ada", WHEN, photos=site / "photos", without_photos=True)
    send_unfiled(packs, asked, tmp_path / "s.zip")
    with received(tmp_path / "s.zip") as got:
        assert got.lacking == ("photos/A-1.jpg",)


# --- where it arrives ------------------------------------------------------------------------------------


def test_an_empty_archive_holds_it_as_its_first_version(tmp_path: Path, site: Path) -> None:
    archive = Archive.create(tmp_path / "office")
    got = filed(archive, sent(site, tmp_path / "s.zip"))
    with opened_bag(tmp_path / "s.zip") as bag:
        head = bag.head
    assert (got.new, got.version.number) == (True, 1)
    assert got.version.message == f"received with head {head[:16]}, not filed before"
    told = json.loads(archive.content(SITE, 1, "filing.json").read_bytes())
    assert "only_sent" not in told
    assert told["received"]["version"] is None
    assert (told["received"]["filed_by"], told["received"]["note"]) == ("Ada", "handed over")
    assert outside_says_valid(archive.path)


def test_an_archive_with_other_versions_of_the_site_gets_it_as_its_next_one(
    tmp_path: Path, site: Path
) -> None:
    """The office filed the site twice and joined a claim; then the installer sends a corrected pack."""
    archive = Archive.create(tmp_path / "office")
    file_packs(archive, [whole_pack(site)], filing(site))
    (site / "photos" / "sill.jpg").write_bytes(b"jpeg")
    join(archive, read_later(written(tmp_path, CLAIM)), filing(site))
    change(site / "openings" / "A-1.yaml", "overlap_left_mm: 82", "overlap_left_mm: 83")
    got = filed(archive, sent(site, tmp_path / "s.zip"))
    assert (got.new, got.version.number) == (True, 3)
    assert "afterwards/claim-2036-1.yaml" in got.version.state
    told = json.loads(archive.content(SITE, 3, "filing.json").read_bytes())
    assert told["head_before"] == archive.version(SITE, 2).head
    assert outside_says_valid(archive.path)


def test_an_archive_that_holds_the_same_already_sees_it(tmp_path: Path, site: Path) -> None:
    """Filed there from the folder, corrected since; sent once more, late, and at another moment."""
    archive = Archive.create(tmp_path / "office")
    file_packs(archive, [whole_pack(site)], Filing("bob", WHEN, photos=site / "photos"))
    file = sent(site, tmp_path / "s.zip")
    assert not filed(archive, file).new
    change(site / "openings" / "A-1.yaml", "overlap_left_mm: 82", "overlap_left_mm: 83")
    assert filed(archive, sent(site, tmp_path / "t.zip")).version.number == 2
    late = filed(archive, file)
    assert (late.new, late.version.number) == (False, 1)
    assert len(archive.versions(SITE)) == 2


def test_photographs_that_lacked_in_what_was_sent_first_come_with_the_second(
    tmp_path: Path, site: Path
) -> None:
    archive, packs = Archive.create(tmp_path / "office"), read_packs([whole_pack(site)])
    send_unfiled(packs, Filing("Ada", WHEN, without_photos=True), tmp_path / "s.zip")
    with received(tmp_path / "s.zip") as got:
        file_received(archive, got, Filing("cleo", WHEN, without_photos=True))
    assert filed(archive, sent(site, tmp_path / "t.zip")).version.number == 2
    with received(tmp_path / "s.zip") as got:
        again = file_received(archive, got, Filing("cleo", WHEN, without_photos=True))
    assert (again.new, len(archive.versions(SITE))) == (False, 2)
