"""`revealbook join`: a later record, its photographs, and what is refused."""

from pathlib import Path

import pytest
from tests.archive.archives import content_of
from tests.archive.later_records import CLAIM, REMEASUREMENT, written
from tests.archive.plain_packs import whole_pack
from tests.cli.terminal import run
from tests.site_folders import small_site

from revealbook.archive.store import Archive


@pytest.fixture
def archive(tmp_path: Path) -> Path:
    """An archive with one filed site."""
    site = small_site(tmp_path / "site", {"A-1": ("A", "1")})
    whole_pack(site)
    assert run("file", site, "--archive", tmp_path / "archive").status == 0
    return tmp_path / "archive"


@pytest.fixture
def claim(tmp_path: Path) -> Path:
    """A claim with its photograph beside it."""
    (tmp_path / "later" / "photos").mkdir(parents=True)
    (tmp_path / "later" / "photos" / "sill.jpg").write_bytes(b"jpeg")
    return written(tmp_path / "later", CLAIM)


def test_a_claim_joins_as_a_new_version_with_the_photographs_beside_it(archive: Path, claim: Path) -> None:
    found = run("join", claim, "--archive", archive, "--by", "Edda")
    version = Archive.open(archive).versions("alder-yard")[-1]
    assert (found.status, found.err) == (0, "")
    assert found.out == (
        f"alder-yard: version 2 filed, {len(version.state)} files\n"
        f"  head {version.head}\n"
        "  new: afterwards/claim-2036-1.yaml, afterwards/photos/sill.jpg\n"
        "  changed: filing.json\n"
    )
    assert version.user == "Edda"


def test_the_same_again_is_nothing_new(archive: Path, claim: Path) -> None:
    run("join", claim, "--archive", archive)
    found = run("join", claim, "--archive", archive)
    assert found.status == 0
    assert found.out.startswith("alder-yard: nothing new; version 2 holds this already\n")


def test_photographs_may_lie_elsewhere_or_be_left_out_if_asked(
    archive: Path, claim: Path, tmp_path: Path
) -> None:
    (tmp_path / "later" / "photos").rename(tmp_path / "pictures")
    found = run("join", claim, "--archive", archive)
    assert (found.status, found.out) == (2, "")
    assert found.err.startswith("The record names the photograph sill.jpg, which cannot be filed (not in ")
    assert run("join", claim, "--archive", archive, "--without-photos").status == 0
    assert run("join", claim, "--archive", archive, "--photos", tmp_path / "pictures").status == 0
    held = content_of(Archive.open(archive), "alder-yard", 3)
    assert held["afterwards/photos/sill.jpg"] == b"jpeg"


def test_a_re_measurement_joins_too(archive: Path, tmp_path: Path) -> None:
    file = written(tmp_path, REMEASUREMENT)
    assert run("join", file, "--archive", archive, "--without-photos", "--note", "spot check").status == 0
    version = Archive.open(archive).versions("alder-yard")[-1]
    assert version.message == "spot check"
    assert "afterwards/remeasured-A-1-20261124T0900Z.yaml" in version.state


def test_what_cannot_be_read_or_is_no_archive_leaves_with_2(
    archive: Path, claim: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    wrong = written(tmp_path, CLAIM, ("mark: A-1\n", ""), name="wrong.yaml")
    found = run("join", wrong, "--archive", archive)
    assert (found.status, found.out) == (2, "")
    assert found.err.splitlines()[0].startswith(f"{wrong}:")
    found = run("join", claim, "--archive", tmp_path / "nowhere")
    assert (found.status, found.err) == (2, f"There is no archive at {tmp_path / 'nowhere'}.\n")
    monkeypatch.setenv("SOURCE_DATE_EPOCH", "soon")
    assert run("join", claim, "--archive", archive).status == 2
