import json
from pathlib import Path
from typing import Any

import pytest
from tests.archive.archives import FIRST, WHEN, add, outside_says_valid
from tests.archive.later_records import written
from tests.archive.plain_packs import whole_pack
from tests.made import Made
from tests.site_folders import change, small_site

from revealbook.archive.bag import opened_bag, write_bag
from revealbook.archive.file import Filing, file_packs
from revealbook.archive.join import join
from revealbook.archive.later import LaterRecord, read_later
from revealbook.archive.receive import file_received, received
from revealbook.archive.refusal import Refused
from revealbook.archive.store import Archive, Filed
from revealbook.archive.zipped import write_zip


def sent(path: Path, made: Made) -> Path:
    archive = Archive.create(path / "archive")
    filed = file_packs(
        archive, [made.pdf], Filing("ada", WHEN, photos=made.site / "photos", without_photos=True)
    )
    write_bag(archive, filed.site, None, path / "sent.zip")
    return path / "sent.zip"


def test_a_pack_that_was_sent_is_received_and_judged_again(tmp_path: Path, conforming_pack: Made) -> None:
    with received(sent(tmp_path, conforming_pack)) as got:
        assert [pack.name for pack in got.packs] == [conforming_pack.pdf.name]
        assert got.bag.fingerprints == (got.packs[0].fingerprint,)
        folder = got.bag.folder
    assert not folder.exists()


def test_a_pack_that_does_not_agree_with_itself_is_refused_though_every_digest_holds(tmp_path: Path) -> None:
    archive = Archive.create(tmp_path / "archive")
    add(archive, FIRST)
    write_bag(archive, "s", None, tmp_path / "s.zip")
    with opened_bag(tmp_path / "s.zip") as bag:
        assert bag.site == "s"
    with pytest.raises(Refused, match=r"s\.pdf cannot be opened"), received(tmp_path / "s.zip"):
        pass


def test_a_bag_without_a_pack_is_refused(tmp_path: Path) -> None:
    archive = Archive.create(tmp_path / "archive")
    add(archive, {"site.yaml": b"id: s\n"})
    write_bag(archive, "s", None, tmp_path / "s.zip")
    with pytest.raises(Refused, match="holds no pack"), received(tmp_path / "s.zip"):
        pass


def test_a_zip_that_holds_no_bag_or_two_is_refused(tmp_path: Path) -> None:
    write_zip(tmp_path / "two.zip", {"a/x": b"", "b/x": b""})
    write_zip(tmp_path / "none.zip", {"a/x": b""})
    with pytest.raises(Refused, match="not one bag"), opened_bag(tmp_path / "two.zip"):
        pass
    with pytest.raises(Refused, match="tagmanifest"), opened_bag(tmp_path / "none.zip"):
        pass


CLAIM = """\
kind: claim
id: c-1
site: alder-yard
mark: A-1
at: 2036-02-11T10:30+01:00
by: Edda Blendrahmen
found: damp
photos: [{file: damp.jpg}]
"""
SITE = "alder-yard"


@pytest.fixture
def filed(tmp_path: Path) -> Archive:
    """An archive with a small site and a claim that joined it."""
    site = small_site(tmp_path / "site", {"A-1": ("A", "1")})
    archive = Archive.create(tmp_path / "filed")
    file_packs(archive, [whole_pack(site)], Filing("ada", WHEN, photos=site / "photos"))
    (tmp_path / "c-1.yaml").write_text(CLAIM, encoding="utf-8")
    (tmp_path / "damp.jpg").write_bytes(b"jpeg")
    join(archive, read_later(tmp_path / "c-1.yaml"), Filing("ada", WHEN, photos=tmp_path))
    return archive


def sent_from(archive: Archive, path: Path, number: int | None = None) -> Path:
    path.unlink(missing_ok=True)
    write_bag(archive, SITE, number, path)
    return path


def filed_elsewhere(file: Path, archive: Archive) -> Filed:
    with received(file) as got:
        return file_received(archive, got, Filing("cleo", WHEN))


def without_filing(archive: Archive) -> dict[str, str]:
    state = archive.versions(SITE)[-1].state
    return {path: digest for path, digest in state.items() if path != "filing.json"}


def test_packs_photographs_and_later_records_are_filed_elsewhere_and_nothing_is_doubled(
    tmp_path: Path, filed: Archive
) -> None:
    other = Archive.create(tmp_path / "other")
    got = filed_elsewhere(sent_from(filed, tmp_path / "s.zip"), other)
    assert (got.new, got.version.number, got.before) == (True, 1, None)
    assert without_filing(other) == without_filing(filed)
    head = filed.versions(SITE)[-1].head
    assert [version.message for version in other.versions(SITE)] == [
        f"received version 2 with head {head[:16]}, claim c-1"
    ]
    assert told(other) == {
        "head": head,
        "version": 2,
        "filed_by": "ada",
        "filed_at": WHEN.isoformat(),
        "note": "",
        "later_records": ["afterwards/c-1.yaml"],
        "photos_missing": [],
    }
    assert outside_says_valid(other.path)
    assert not filed_elsewhere(tmp_path / "s.zip", other).new
    assert len(other.versions(SITE)) == 1


def test_what_was_received_is_not_told_of_a_version_that_came_from_elsewhere(
    tmp_path: Path, filed: Archive
) -> None:
    other = Archive.create(tmp_path / "other")
    filed_elsewhere(sent_from(filed, tmp_path / "s.zip"), other)
    join(other, claimed(tmp_path, "c-2"), Filing("cleo", WHEN, photos=tmp_path))
    assert told(other) is None


def told(archive: Archive) -> Any:
    """Give what the filing of the latest version tells of what was received."""
    last = archive.version(SITE)
    return json.loads(archive.content(SITE, last.number, "filing.json").read_bytes()).get("received")


def claimed(path: Path, name: str, *changes: tuple[str, str]) -> LaterRecord:
    """Write another claim about the same opening."""
    return read_later(written(path, CLAIM, ("id: c-1", f"id: {name}"), *changes, name=f"{name}.yaml"))


def test_only_what_is_new_of_later_records_joins_packs_that_are_there(tmp_path: Path, filed: Archive) -> None:
    """Packs were received first; since then one claim was made here and two at the sender's."""
    other = Archive.create(tmp_path / "other")
    filed_elsewhere(sent_from(filed, tmp_path / "s.zip", 1), other)
    join(other, claimed(tmp_path, "mine"), Filing("cleo", WHEN, photos=tmp_path))
    join(filed, claimed(tmp_path, "c-2"), Filing("ada", WHEN, photos=tmp_path))
    got = filed_elsewhere(sent_from(filed, tmp_path / "s.zip"), other)
    assert (got.new, got.version.number) == (True, 3)
    assert got.version.message.endswith(", claim c-1, claim c-2")
    assert {path for path in got.version.state if path.startswith("afterwards/")} == {
        "afterwards/c-1.yaml",
        "afterwards/c-2.yaml",
        "afterwards/mine.yaml",
        "afterwards/photos/damp.jpg",
    }
    assert not filed_elsewhere(tmp_path / "s.zip", other).new
    assert outside_says_valid(other.path)


def test_a_claim_that_came_with_older_packs_joins_the_newer_ones_and_does_not_bring_the_old_ones_back(
    tmp_path: Path, filed: Archive
) -> None:
    other = Archive.create(tmp_path / "other")
    filed_elsewhere(sent_from(filed, tmp_path / "s.zip", 1), other)
    change(tmp_path / "site" / "openings" / "A-1.yaml", "overlap_left_mm: 82", "overlap_left_mm: 83")
    newer = file_packs(
        other, [whole_pack(tmp_path / "site")], Filing("ben", WHEN, photos=tmp_path / "site" / "photos")
    )
    got = filed_elsewhere(sent_from(filed, tmp_path / "s.zip"), other)
    assert (newer.version.number, got.version.number) == (2, 3)
    held = dict(without_filing(other))
    assert held.pop("afterwards/c-1.yaml")
    assert held.pop("afterwards/photos/damp.jpg")
    assert held == {path: digest for path, digest in newer.version.state.items() if path != "filing.json"}


def test_what_came_is_told_as_held_by_its_own_version_though_a_newer_one_follows(
    tmp_path: Path, filed: Archive
) -> None:
    other = Archive.create(tmp_path / "other")
    filed_elsewhere(sent_from(filed, tmp_path / "s.zip"), other)
    join(other, claimed(tmp_path, "c-2"), Filing("cleo", WHEN, photos=tmp_path))
    again = filed_elsewhere(tmp_path / "s.zip", other)
    assert (again.new, again.version.number) == (False, 1)
    assert len(other.versions(SITE)) == 2


def test_another_claim_under_the_same_id_is_refused_and_nothing_of_the_bag_is_filed(
    tmp_path: Path, filed: Archive
) -> None:
    other = Archive.create(tmp_path / "other")
    filed_elsewhere(sent_from(filed, tmp_path / "s.zip"), other)
    wet = tmp_path / "wet"
    site = small_site(wet / "site", {"A-1": ("A", "1"), "B-1": ("B", "1")})
    archive = Archive.create(wet / "archive")
    file_packs(archive, [whole_pack(site)], Filing("ada", WHEN, photos=site / "photos"))
    join(archive, claimed(wet, "c-1", ("found: damp", "found: wet")), Filing("ada", WHEN, photos=tmp_path))
    with pytest.raises(Refused, match=r"afterwards/c-1\.yaml is in the archive with other content"):
        filed_elsewhere(sent_from(archive, wet / "s.zip"), other)
    assert len(other.versions(SITE)) == 1


def test_a_claim_stays_though_its_opening_is_no_longer_in_the_packs_and_that_is_told(
    tmp_path: Path, filed: Archive
) -> None:
    site = small_site(tmp_path / "less", {"B-1": ("B", "1")})
    file_packs(filed, [whole_pack(site)], Filing("ada", WHEN, photos=site / "photos"))
    with received(sent_from(filed, tmp_path / "s.zip")) as got:
        assert [record.id for record in got.elsewhere] == ["c-1"]
        other = Archive.create(tmp_path / "other")
        assert "afterwards/c-1.yaml" in file_received(other, got, Filing("cleo", WHEN)).version.state


def test_many_later_records_are_counted_in_the_note(tmp_path: Path, filed: Archive) -> None:
    for number in range(2, 5):
        join(filed, claimed(tmp_path, f"c-{number}"), Filing("ada", WHEN, photos=tmp_path))
    got = filed_elsewhere(sent_from(filed, tmp_path / "s.zip"), Archive.create(tmp_path / "other"))
    assert got.version.message.endswith(", 4 later records")


def test_an_earlier_version_that_the_archive_holds_is_not_filed_once_more(
    tmp_path: Path, filed: Archive
) -> None:
    got = filed_elsewhere(sent_from(filed, tmp_path / "s.zip", 1), filed)
    assert (got.new, got.version.number) == (False, 1)
    assert len(filed.versions(SITE)) == 2


def changed_and_sent(archive: Archive, path: Path, files: dict[str, bytes]) -> Path:
    """Send a site with other files beside its packs, as somebody could make with every digest right."""
    last = archive.versions(SITE)[-1]
    filing = json.loads(archive.content(SITE, last.number, "filing.json").read_bytes())
    told = {"filing.json": json.dumps({**filing, "head_before": last.head}).encode()}
    add(archive, {**told, **files}, SITE, keep=("",))
    return sent_from(archive, path)


@pytest.mark.parametrize(
    ("path", "why"),
    [
        ("openings/A-1.yaml", "openings/A-1.yaml is another than in its pack"),
        ("openings/A-2.yaml", "openings/A-2.yaml is in no pack"),
        ("notes.txt", "notes.txt is in no pack"),
        ("photos/other.jpg", "photos/other.jpg is in no pack"),
        ("afterwards/photos/other.jpg", "afterwards/photos/other.jpg is in no pack"),
        ("findings/alder-yard.json", "findings/alder-yard.json is another than in its pack"),
    ],
)
def test_a_record_beside_the_packs_that_is_not_inside_them_is_refused(
    tmp_path: Path, filed: Archive, path: str, why: str
) -> None:
    file = changed_and_sent(filed, tmp_path / "s.zip", {path: b"opening: {mark: A-1}\n"})
    with pytest.raises(Refused, match=why), received(file):
        pass


def test_a_later_record_of_another_site_is_refused(tmp_path: Path, filed: Archive) -> None:
    other = CLAIM.replace("alder-yard", "birch-row").encode()
    file = changed_and_sent(filed, tmp_path / "s.zip", {"afterwards/c-2.yaml": other})
    with pytest.raises(Refused, match=r"afterwards/c-2\.yaml in the bag is of birch-row"), received(file):
        pass


def test_a_pack_of_another_site_is_refused(tmp_path: Path, filed: Archive) -> None:
    site = small_site(tmp_path / "birch", {"A-1": ("A", "1")})
    change(site / "site.yaml", "id: alder-yard", "id: birch-row")
    files = {"packs/alder-yard.pdf": whole_pack(site).read_bytes()}
    file = changed_and_sent(filed, tmp_path / "s.zip", files)
    with pytest.raises(Refused, match="other fingerprints"), received(file):
        pass


def moved(archive: Archive, path: Path, site: str, without: str = "") -> Path:
    """Send what an archive holds from another archive, under another site's id or without one file."""
    state = archive.versions(SITE)[0].state
    files = {one: archive.content(SITE, 1, one) for one in state if one != without}
    other = Archive.create(path / "moved")
    add(other, dict(files), site)
    write_bag(other, site, None, path / "s.zip")
    return path / "s.zip"


def test_packs_of_another_site_than_the_bag_says_are_refused(tmp_path: Path, filed: Archive) -> None:
    why = "says that it is of birch-row, but its packs are of alder-yard"
    with pytest.raises(Refused, match=why), received(moved(filed, tmp_path, "birch-row")):
        pass


def test_a_record_of_a_pack_that_is_missing_beside_it_is_refused(tmp_path: Path, filed: Archive) -> None:
    file = moved(filed, tmp_path, SITE, without="openings/A-1.yaml")
    why = "openings/A-1.yaml is missing beside the packs"
    with pytest.raises(Refused, match=why), received(file):
        pass


def test_photographs_that_did_not_come_are_named_and_filed_without_only_if_asked(
    tmp_path: Path, filed: Archive
) -> None:
    file = moved(filed, tmp_path, SITE, without="photos/A-1.jpg")
    with received(file) as got:
        assert got.lacking == ("photos/A-1.jpg",)
        other = Archive.create(tmp_path / "other")
        with pytest.raises(Refused, match=r"A-1\.jpg"):
            file_received(other, got, Filing("cleo", WHEN))
        assert file_received(other, got, Filing("cleo", WHEN, without_photos=True)).new


def test_photographs_of_later_records_that_did_not_come_are_filed_without_only_if_asked(
    tmp_path: Path, filed: Archive
) -> None:
    (tmp_path / "damp.jpg").unlink()
    lacking = claimed(tmp_path, "c-2", ("damp.jpg", "wet.jpg"))
    join(filed, lacking, Filing("ada", WHEN, without_photos=True))
    with received(sent_from(filed, tmp_path / "s.zip")) as got:
        other = Archive.create(tmp_path / "other")
        with pytest.raises(Refused, match=r"afterwards/photos/wet\.jpg"):
            file_received(other, got, Filing("cleo", WHEN))
        assert other.sites() == ()
        assert file_received(other, got, Filing("cleo", WHEN, without_photos=True)).new
        assert told(other)["photos_missing"] == ["afterwards/photos/wet.jpg"]
