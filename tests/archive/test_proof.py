"""Proving an archive: every file, the chain of heads, heads from paper, and going on after a stop."""

import json
import shutil
from collections.abc import Sequence
from pathlib import Path

import pytest
from tests.archive.archives import WHEN
from tests.made import Made

from revealbook.archive.chain import BEFORE_THE_FIRST
from revealbook.archive.proof import Proof, prove
from revealbook.archive.proved import Proved
from revealbook.archive.refusal import Refused
from revealbook.archive.store import Archive, Filed

RECORD = {"site.yaml": b"id: s\n", "openings/W-1.yaml": b"mark: W-1\n"}


def filed(archive: Archive, site: str = "s", *, before: str | None = None, **more: bytes) -> Filed:
    told = {} if before is None else {"filing.json": json.dumps({"head_before": before}).encode()}
    files = {**RECORD, **told, **{f"photos/{name}.jpg": data for name, data in more.items()}}
    return archive.add(site, files, user="ada", message="filed", created=WHEN)


@pytest.fixture
def archive(tmp_path: Path) -> Archive:
    """Two sites; the first with two versions, which note the heads before them."""
    archive = Archive.create(tmp_path / "archive")
    first = filed(archive, before=BEFORE_THE_FIRST)
    filed(archive, before=first.version.head, one=b"one")
    filed(archive, "t", two=b"two")
    return archive


def proof(archive: Archive, *sites: str, heads: Sequence[tuple[str, str]] = (), jobs: int = 1) -> Proof:
    return prove(archive, sites, Proved(), heads=heads, jobs=jobs)


def told(found: Proof) -> list[tuple[str, str]]:
    return [(fault.path, fault.what) for fault in found.all_faults()]


def content(archive: Archive, path: str, site: str = "s", version: int = 1) -> Path:
    return archive.content(site, version, path)


def test_what_was_filed_is_proved(archive: Archive) -> None:
    found = proof(archive)
    assert (found.sound, told(found)) == (True, [])
    assert [(site.site, len(site.versions), site.files, site.packs) for site in found.sites] == [
        ("s", 2, 5, 0), ("t", 1, 3, 0),
    ]  # fmt: skip


def test_a_file_that_cannot_be_read_is_told_with_the_reason(
    archive: Archive, monkeypatch: pytest.MonkeyPatch
) -> None:
    def refuse(file: Path) -> str:
        raise PermissionError(13, "Permission denied", file)

    monkeypatch.setattr("revealbook.archive.proof_work.digest_of", refuse)
    (fault,) = {(one.what, one.text) for one in proof(archive, "t").all_faults()}
    assert fault == ("cannot be read: Permission denied", "cannot be read: {why}")


@pytest.mark.parametrize("jobs", [1, 2])
def test_a_changed_file_is_named_with_what_it_holds_and_its_digest(archive: Archive, jobs: int) -> None:
    digest = archive.versions("s")[0].state["openings/W-1.yaml"]
    content(archive, "openings/W-1.yaml").write_bytes(b"mark: W-2\n")
    found = proof(archive, jobs=jobs)
    (fault,) = found.all_faults()
    assert not found.sound
    assert (fault.site, fault.path, fault.what) == ("s", "s/v1/content/openings/W-1.yaml", "was changed")
    assert (fault.holds, fault.sha512) == ("record of opening W-1, versions 1 to 2", digest)


def test_only_the_named_sites_are_proved(archive: Archive) -> None:
    content(archive, "openings/W-1.yaml").write_bytes(b"x")
    assert proof(archive, "t").sound
    assert [site.site for site in proof(archive, "t").sites] == ["t"]
    assert not proof(archive, "s").sound


def test_a_site_that_was_never_there_is_refused(archive: Archive) -> None:
    with pytest.raises(Refused, match="holds no site 'u'"):
        proof(archive, "u")


def test_packs_are_judged_again(archive: Archive, conforming_pack: Made) -> None:
    archive.add("p", {"packs/p.pdf": conforming_pack.pdf}, user="a", message="", created=WHEN)
    (site,) = proof(archive, "p").sites
    assert (site.packs, site.faults) == (1, ())
    archive.add("p", {"packs/p.pdf": b"no pack"}, user="a", message="", created=WHEN)
    (fault,) = proof(archive, "p").all_faults()
    assert fault.path == "p/v2/content/packs/p.pdf"
    assert "cannot be opened as a pack" in fault.what


# --- heads -----------------------------------------------------------------------------------------------


def test_every_head_of_a_history_is_held_also_if_some_digits_are_given(archive: Archive) -> None:
    first, second = (version.head for version in archive.versions("s"))
    noted = [("s", first), ("s", second[:16]), ("s", f" {first[:8]} {first[8:16]} ".upper())]
    found = proof(archive, heads=noted)
    assert found.sound


def test_a_head_that_is_not_in_the_history_is_told(archive: Archive) -> None:
    (other,) = archive.versions("t")
    found = proof(archive, "s", heads=[("s", other.head)])
    ((path, what),) = told(found)
    assert path == "s"
    assert "its history of 2 versions was rewritten or taken back" in what


def test_a_history_that_was_taken_back_is_told_by_its_last_head(archive: Archive, tmp_path: Path) -> None:
    before = tmp_path / "before"
    shutil.copytree(archive.path, before)
    head = filed(archive, before=archive.versions("s")[-1].head, three=b"3").version.head
    assert proof(archive, heads=[("s", head)]).sound
    rolled_back = Archive.open(before)
    assert proof(rolled_back).sound  # nothing in it shows that there was more
    assert not proof(rolled_back, heads=[("s", head)]).sound


def test_a_site_taken_out_of_the_archive_is_told_by_its_head(archive: Archive) -> None:
    (version,) = archive.versions("t")
    shutil.rmtree(archive.path / "store" / "t")
    found = proof(archive, heads=[("t", version.head)])
    assert told(found) == [("t", "is not in the archive, though a head of it was noted")]


@pytest.mark.parametrize("head", ["", "abc", "0123456789abcde", "x" * 64])
def test_what_is_no_head_is_refused(archive: Archive, head: str) -> None:
    with pytest.raises(Refused, match="is no head"):
        proof(archive, heads=[("s", head)])


def test_a_history_filed_anew_with_another_beginning_is_told_by_what_filings_noted(tmp_path: Path) -> None:
    archive = Archive.create(tmp_path / "forged")
    filed(archive, before=BEFORE_THE_FIRST, instead=b"of the first")
    filed(archive, before="1" * 64, one=b"one")
    ((path, what),) = told(proof(archive))
    assert path == "s/v2/content/filing.json"
    assert what == "notes another head before version 2 than the history has now"


def test_a_head_is_told_even_if_no_inventory_can_be_read(archive: Archive) -> None:
    head = archive.versions("t")[0].head
    for file in (archive.path / "store" / "t").rglob("inventory.json"):
        file.write_bytes(b"{}")
    found = proof(archive, heads=[("t", head)])
    assert any("was rewritten or taken back" in what for _, what in told(found))


# --- going on --------------------------------------------------------------------------------------------


def test_a_proof_that_was_stopped_goes_on_where_it_was(archive: Archive, tmp_path: Path) -> None:
    class Stopped(Exception):  # noqa: N818
        pass

    def stop(done: int, total: int, name: str) -> None:
        if done == 4:
            raise Stopped

    state = tmp_path / "state.jsonl"
    with pytest.raises(Stopped):
        prove(archive, (), Proved.read(state), jobs=1, seen=stop)
    earlier = Proved.read(state)
    assert len(earlier) == 4
    steps: list[int] = []
    found = prove(archive, (), earlier, jobs=1, seen=lambda done, total, name: steps.append(done))
    assert found.sound
    assert steps == list(range(1, 9))
    assert found.since == earlier.since
    assert len(Proved.read(state)) == 8


def test_what_is_not_sound_is_not_remembered(archive: Archive, tmp_path: Path) -> None:
    content(archive, "photos/two.jpg", "t").write_bytes(b"x")
    state = tmp_path / "state.jsonl"
    assert not prove(archive, (), Proved.read(state), jobs=1).sound
    assert len(Proved.read(state)) == 7
    assert not prove(archive, (), Proved.read(state), jobs=1).sound
