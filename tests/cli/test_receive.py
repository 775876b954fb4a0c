"""`revealbook receive`: what it refuses, what it tells, and a site that somebody else is filing."""

from dataclasses import replace
from pathlib import Path

import pytest
from tests.archive.later_records import CLAIM, written
from tests.archive.plain_packs import whole_pack
from tests.cli.terminal import run
from tests.site_folders import small_site

from revealbook.archive import locks, store
from revealbook.archive.store import Archive


def test_what_is_no_bag_is_refused_and_nothing_is_filed(tmp_path: Path) -> None:
    (tmp_path / "s.zip").write_bytes(b"no zip")
    told = run("receive", str(tmp_path / "s.zip"), "--archive", str(tmp_path / "archive"), "--by", "ada")
    assert told.status == 2
    assert told.err.startswith(f"{tmp_path / 's.zip'} cannot be unpacked whole")
    assert not (tmp_path / "archive").exists()


@pytest.fixture
def sent(tmp_path: Path) -> Path:
    """A site of two openings, sent without having been filed."""
    site = small_site(tmp_path / "site", {"A-1": ("A", "1"), "B-1": ("B", "1")})
    whole_pack(site)
    assert run("send", site, "--to", tmp_path / "s.zip", "--by", "Ada").status == 0
    return tmp_path / "s.zip"


def test_a_file_that_is_still_being_copied_is_told_as_such(sent: Path, tmp_path: Path) -> None:
    sent.write_bytes(sent.read_bytes()[:-5000])
    told = run("receive", sent, "--archive", tmp_path / "office")
    assert (told.status, told.out) == (2, "")
    assert told.err.startswith(f"{sent} is not whole, its end is missing. If it is still being copied, ")
    assert not (tmp_path / "office").exists()


def test_whoever_has_to_wait_for_another_filer_is_told_and_at_last_refused(
    sent: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    archive = Archive.create(tmp_path / "office")
    monkeypatch.setattr(locks, "_SOON_S", 0.05)
    opened = store.Archive.open
    monkeypatch.setattr(store.Archive, "open", lambda path: replace(opened(path), patience_s=0.2))
    with archive.renewing("alder-yard"):
        told = run("receive", sent, "--archive", archive.path)
    assert told.status == 2
    assert told.out.splitlines()[0].endswith(", whole")
    waited, refused = told.err.splitlines()
    assert waited.startswith("alder-yard is being filed just now by ")
    assert waited.endswith("; waiting ...")
    assert refused.endswith("; try again when that is done.")
    assert archive.sites() == ()
    assert run("receive", sent, "--archive", archive.path).status == 0


def test_a_claim_whose_opening_is_in_none_of_the_packs_is_told(sent: Path, tmp_path: Path) -> None:
    office = tmp_path / "office"
    assert run("receive", sent, "--archive", office).status == 0
    assert run("join", written(tmp_path, CLAIM), "--archive", office, "--without-photos").status == 0
    site = small_site(tmp_path / "less", {"B-1": ("B", "1")})
    whole_pack(site)
    assert run("file", site, "--archive", office).status == 0
    assert run("send", "alder-yard", "--archive", office, "--to", tmp_path / "t.zip").status == 0
    told = run("receive", tmp_path / "t.zip", "--archive", tmp_path / "other")
    assert told.status == 0
    assert "  claim claim-2036-1 is of opening A-1, which is in none of its packs\n" in told.out
    assert "  afterwards/photos/sill.jpg is named by a record, but did not come with it\n" in told.out
