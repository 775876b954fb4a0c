"""`revealbook file`: what it says, what it refuses, and with which status it leaves."""

from dataclasses import replace
from pathlib import Path

import pytest
from tests.archive.archives import content_of
from tests.archive.plain_packs import in_volumes, variants, whole_pack
from tests.cli.terminal import run
from tests.site_folders import change, small_site

from revealbook.archive import locks, store
from revealbook.archive.store import Archive

PLACES = {"A-1": ("A", "1"), "B-1": ("B", "1")}


@pytest.fixture
def site(tmp_path: Path) -> Path:
    return small_site(tmp_path / "site", PLACES)


@pytest.fixture
def archive(tmp_path: Path) -> Path:
    return tmp_path / "archive"


def head(archive: Path, site: str = "alder-yard") -> str:
    return Archive.open(archive).versions(site)[-1].head


def test_a_site_folder_means_its_pack_and_a_new_archive_is_told(site: Path, archive: Path) -> None:
    whole_pack(site)
    found = run("file", site, "--archive", archive, "--by", "Ada", "--note", "handed over")
    assert found.status == 0
    assert found.err == (
        f"{archive}: a new archive; its READ-ME.txt says how to read it without this program\n"
    )
    (version,) = Archive.open(archive).versions("alder-yard")
    lines = found.out.splitlines()
    assert lines[:2] == [
        f"alder-yard: version 1 filed, {len(version.state)} files", f"  head {version.head}",
    ]  # fmt: skip
    assert lines[2].startswith("  new: facts.json, filing.json, findings/alder-yard.json,")
    assert lines[-1].endswith(f"and {len(version.state) - 6} more")
    assert max(map(len, lines)) <= 80
    assert (version.user, version.message) == ("Ada", "handed over")


def test_filing_the_same_again_says_so_and_leaves_with_0(site: Path, archive: Path) -> None:
    whole_pack(site)
    run("file", site, "--archive", archive)
    found = run("file", site, "--archive", archive)
    assert found == (
        0, f"alder-yard: nothing new; version 1 holds this already\n  head {head(archive)}\n", "",
    )  # fmt: skip


def test_a_second_version_names_what_is_new_what_changed_and_what_is_gone(site: Path, archive: Path) -> None:
    whole_pack(site)
    run("file", site, "--archive", archive)
    (site / "openings" / "B-1.yaml").unlink()
    change(site / "openings" / "A-1.yaml", "overlap_left_mm: 82", "overlap_left_mm: 83")
    whole_pack(site)
    (version, *said) = run("file", site, "--archive", archive).out.splitlines()
    assert version.startswith("alder-yard: version 2 filed, ")
    assert said == [
        f"  head {head(archive)}",
        "  changed: facts.json, filing.json, findings/alder-yard.json,",
        "    openings/A-1.yaml, packs/alder-yard.pdf",
        "  no longer in it: openings/B-1.yaml, photos/B-1.jpg",
    ]


def test_a_site_folder_with_volumes_means_all_of_them(site: Path, archive: Path) -> None:
    volumes = in_volumes(site)
    assert run("file", site, "--archive", archive).status == 0
    held = content_of(Archive.open(archive), "alder-yard", 1)
    assert {name for name in held if name.startswith("packs/")} == {f"packs/{one.name}" for one in volumes}


def test_an_index_means_the_volumes_beside_it(site: Path, archive: Path) -> None:
    *volumes, index = in_volumes(site)
    assert run("file", index, "--photos", site / "photos", "--archive", archive).status == 0
    volumes[0].unlink()
    found = run("file", index, "--photos", site / "photos", "--archive", archive)
    assert (found.status, found.out) == (2, "")
    assert found.err == f"{index.name} names the volume {volumes[0].name}, which was not given.\n"


def test_a_pack_and_volumes_in_one_folder_leave_the_choice_to_the_user(site: Path, archive: Path) -> None:
    whole, *_, index = whole_pack(site), *in_volumes(site)
    found = run("file", site, "--archive", archive)
    assert (found.status, found.err) == (
        2,
        f"There are both {whole} and {index}; name the one to be filed.\n",
    )
    assert not archive.exists()


def test_a_site_without_a_pack_is_told_how_to_make_one(site: Path, archive: Path) -> None:
    found = run("file", site, "--archive", archive)
    assert found.status == 2
    assert found.err == (
        f"{site} has no pack at {site}/pack/alder-yard.pdf; `revealbook pack {site}` makes it.\n"
    )


def test_what_is_no_site_folder_is_refused(tmp_path: Path, archive: Path) -> None:
    found = run("file", tmp_path, "--archive", archive)
    assert found.status == 2
    assert "There is no site.yaml in this folder" in found.err


@pytest.mark.parametrize("volumes", [False, True])
def test_records_that_changed_since_the_pack_was_made_are_named(
    site: Path, archive: Path, volumes: bool
) -> None:
    if volumes:
        in_volumes(site)
    else:
        whole_pack(site)
    change(site / "openings" / "A-1.yaml", "overlap_left_mm: 82", "overlap_left_mm: 83")
    found = run("file", site, "--archive", archive)
    assert (found.status, found.out) == (2, "")
    first, *named = found.err.splitlines()
    assert first.startswith(f"The pack of {site} is not of the records as they are now; make it again")
    assert named == ["  openings/A-1.yaml: changed since"]
    assert not archive.exists()


def test_a_pack_by_itself_needs_its_photographs(site: Path, archive: Path) -> None:
    pack = whole_pack(site)
    found = run("file", pack, "--archive", archive)
    assert found.status == 2
    assert found.err.endswith(
        "Records name photographs that lack (no folder of photographs was given):\n  A-1.jpg\n  B-1.jpg\n"
        "--photos names their folder; --without-photos goes on without them.\n"
    )
    assert run("file", pack, "--archive", archive, "--without-photos").status == 0
    assert run("file", pack, "--archive", archive, "--photos", site / "photos").status == 0
    assert [one.number for one in Archive.open(archive).versions("alder-yard")] == [1, 2]


def test_packs_of_several_sites_are_each_filed_as_a_version_of_their_own(site: Path, archive: Path) -> None:
    first = whole_pack(site)
    change(site / "site.yaml", "id: alder-yard", "id: acer-yard")
    second = whole_pack(site)
    found = run("file", first, second, "--archive", archive, "--photos", site / "photos")
    assert found.status == 0
    assert [line.split(":")[0] for line in found.out.splitlines() if "filed" in line] == [
        "acer-yard", "alder-yard",
    ]  # fmt: skip


def test_a_pack_that_does_not_agree_with_itself_leaves_with_2(tmp_path: Path, archive: Path) -> None:
    (tmp_path / "p.pdf").write_bytes(b"no PDF")
    found = run("file", tmp_path / "p.pdf", "--archive", archive)
    assert (found.status, found.out) == (2, "")
    assert found.err.startswith(f"{tmp_path / 'p.pdf'} cannot be opened as a PDF")
    assert not archive.exists()


def test_a_folder_that_is_something_else_is_no_archive_and_told_at_once(site: Path, tmp_path: Path) -> None:
    found = run("file", tmp_path / "no-such.pdf", "--archive", site)
    assert (found.status, found.err) == (
        2, f"{site} is no archive and not empty; name an empty or new folder.\n",
    )  # fmt: skip


def test_source_date_epoch_is_when_it_was_filed(
    site: Path, archive: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    whole_pack(site)
    monkeypatch.setenv("SOURCE_DATE_EPOCH", "1700000000")
    assert run("file", site, "--archive", archive).status == 0
    assert Archive.open(archive).versions("alder-yard")[0].created.isoformat() == "2023-11-14T22:13:20+00:00"
    monkeypatch.setenv("SOURCE_DATE_EPOCH", "soon")
    found = run("file", site, "--archive", archive)
    assert (found.status, "SOURCE_DATE_EPOCH" in found.err) == (2, True)


def test_without_a_name_it_is_the_users(site: Path, archive: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    whole_pack(site)
    monkeypatch.setenv("LOGNAME", "ada")
    assert run("file", site, "--archive", archive).status == 0
    assert Archive.open(archive).versions("alder-yard")[0].user == "ada"


def test_whoever_has_to_wait_is_told_and_at_last_refused(
    site: Path, archive: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    pack = whole_pack(site)
    run("file", site, "--archive", archive)
    (other,) = variants(pack, tmp_path / "other", 1)
    monkeypatch.setattr(locks, "_SOON_S", 0.05)
    opened = store.Archive.open
    monkeypatch.setattr(store.Archive, "open", lambda path: replace(opened(path), patience_s=0.2))
    with Archive(archive).renewing("alder-yard"):
        found = run("file", other, "--archive", archive)
    assert (found.status, found.out) == (2, "")
    waited, refused = found.err.splitlines()
    assert waited.startswith("alder-yard is being filed just now by ")
    assert waited.endswith("; waiting ...")
    assert refused.endswith("; try again when that is done.")
