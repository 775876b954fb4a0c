"""`revealbook send`, with an archive and without one: what it says, and what it refuses."""

from pathlib import Path

import pytest
from tests.archive.archives import FIRST, WHEN, add
from tests.archive.plain_packs import in_volumes, whole_pack
from tests.cli.terminal import run
from tests.made import Made
from tests.site_folders import change, small_site

from revealbook.archive.file import Filing, file_packs
from revealbook.archive.store import Archive


def filed(path: Path, made: Made) -> tuple[Archive, str]:
    archive = Archive.create(path / "archive")
    told = file_packs(
        archive, [made.pdf], Filing("ada", WHEN, photos=made.site / "photos", without_photos=True)
    )
    return archive, told.site


def test_a_version_is_sent_received_and_filed_elsewhere(tmp_path: Path, conforming_pack: Made) -> None:
    archive, site = filed(tmp_path, conforming_pack)
    later = (
        f"kind: claim\nid: c-1\nsite: {site}\nmark: {mark_of(archive, site)}\nat: 2036-02-11T10:30+01:00\n"
    )
    (tmp_path / "c-1.yaml").write_text(f"{later}by: Edda Blendrahmen\nfound: damp\n", encoding="utf-8")
    joined = run("join", str(tmp_path / "c-1.yaml"), "--archive", str(archive.path), "--by", "ada")
    assert joined.status == 0, joined.err
    head = archive.versions(site)[-1].head
    told = run("send", site, "--archive", str(archive.path), "--to", str(tmp_path / "s.zip"))
    assert told.status == 0, told.err
    assert f"head {head}" in told.out
    other = tmp_path / "other"
    told = run("receive", str(tmp_path / "s.zip"), "--archive", str(other), "--by", "cleo")
    assert told.status == 0, told.err
    assert f"head {head}" in told.out
    got = Archive.open(other).versions(site)[-1].state
    sent = archive.versions(site)[-1].state
    assert "afterwards/c-1.yaml" in got
    assert {path: got.get(path) for path in sent if path != "filing.json"} == {
        path: digest for path, digest in sent.items() if path != "filing.json"
    }
    again = run("receive", str(tmp_path / "s.zip"), "--archive", str(other), "--by", "cleo")
    assert again.out.count("nothing new") == 1


def mark_of(archive: Archive, site: str) -> str:
    path = next(path for path in archive.versions(site)[-1].state if path.startswith("openings/"))
    return Path(path).stem


def test_only_checking_files_nothing(tmp_path: Path, conforming_pack: Made) -> None:
    archive, site = filed(tmp_path, conforming_pack)
    run("send", site, "--archive", str(archive.path), "--to", str(tmp_path / "s.zip"))
    before = sorted(tmp_path.rglob("*"))
    told = run("receive", str(tmp_path / "s.zip"))
    assert told.status == 0
    assert "agrees with itself" in told.out
    assert sorted(tmp_path.rglob("*")) == before


def test_what_cannot_be_sent_is_said_in_a_sentence(tmp_path: Path) -> None:
    archive = Archive.create(tmp_path / "archive")
    add(archive, FIRST)
    told = run("send", "t", "--archive", str(archive.path), "--to", str(tmp_path / "t.zip"))
    assert (told.status, told.err) == (2, "The archive holds no site 't'.\n")
    told = run("send", "s", "--archive", str(archive.path), "--to", str(tmp_path / "s.zip"))
    assert told.status == 2
    assert "do not send it" in told.err


# --- what is not filed -----------------------------------------------------------------------------------


@pytest.fixture
def site(tmp_path: Path) -> Path:
    return small_site(tmp_path / "site", {"A-1": ("A", "1"), "B-1": ("B", "1")})


def test_a_site_folder_is_sent_without_an_archive_and_filed_where_it_arrives(
    site: Path, tmp_path: Path
) -> None:
    whole_pack(site)
    told = run("send", site, "--to", tmp_path / "s.zip", "--by", "Ada", "--note", "handed over")
    assert (told.status, told.err) == (0, "")
    first, head, last = told.out.splitlines()
    assert first.startswith(f"{tmp_path / 's.zip'}: alder-yard, ")
    assert first.endswith(" files, 1 pack")
    assert last == "  not filed, only sent: `revealbook receive` files it where it arrives"
    got = run("receive", tmp_path / "s.zip", "--archive", tmp_path / "office", "--by", "Cleo")
    assert (got.status, got.err) == (0, "")
    shown, same_head, unfiled, *_ = got.out.splitlines()
    assert shown == f"{first.removesuffix(', 1 pack')}, whole"
    assert (same_head, unfiled) == (
        head, "  sent by Ada before it was filed: handed over",
    )  # fmt: skip
    (version,) = Archive.open(tmp_path / "office").versions("alder-yard")
    digits = head.removeprefix("  head ")[:16]
    assert (version.user, version.message) == ("Cleo", f"received with head {digits}, not filed before")
    assert "photos/A-1.jpg" in version.state
    again = run("receive", tmp_path / "s.zip", "--archive", tmp_path / "office")
    assert "alder-yard: nothing new; version 1 holds this already" in again.out


def test_a_pack_by_itself_is_sent_with_the_photographs_that_are_named(site: Path, tmp_path: Path) -> None:
    signed = whole_pack(site).rename(tmp_path / "signed.pdf")
    told = run("send", signed, "--to", tmp_path / "s.zip")
    assert (told.status, told.out) == (2, "")
    assert told.err == (
        "Records name photographs that lack (no folder of photographs was given):\n  A-1.jpg\n  B-1.jpg\n"
        "--photos names their folder; --without-photos goes on without them.\n"
    )
    assert not list(tmp_path.glob("s.zip*"))
    assert run("send", signed, "--to", tmp_path / "s.zip", "--photos", site / "photos").status == 0
    told = run("send", signed, "--to", tmp_path / "t.zip", "--without-photos")
    assert (told.status, told.err) == (0, "")
    assert "  photos/A-1.jpg is named by a record, but is not in it\n" in told.out


def test_an_index_and_a_folder_with_volumes_mean_all_of_them(site: Path, tmp_path: Path) -> None:
    *volumes, index = in_volumes(site)
    for given, name in ((site, "s.zip"), (index, "t.zip")):
        told = run("send", given, "--to", tmp_path / name, "--photos", site / "photos")
        assert told.status == 0, told.err
        assert f"{len(volumes) + 1} packs" in told.out


def test_the_moment_that_is_asked_for_gives_the_same_bytes(
    site: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    whole_pack(site)
    monkeypatch.setenv("SOURCE_DATE_EPOCH", "1700000000")
    for name in ("a.zip", "b.zip"):
        assert run("send", site, "--to", tmp_path / name, "--by", "Ada").status == 0
    assert (tmp_path / "a.zip").read_bytes() == (tmp_path / "b.zip").read_bytes()
    assert b"Bagging-Date: 2023-11-14\n" in (tmp_path / "a.zip").read_bytes()
    monkeypatch.setenv("SOURCE_DATE_EPOCH", "soon")
    told = run("send", site, "--to", tmp_path / "c.zip")
    assert (told.status, "SOURCE_DATE_EPOCH" in told.err) == (2, True)


def test_a_pack_older_than_its_records_is_not_sent(site: Path, tmp_path: Path) -> None:
    whole_pack(site)
    change(site / "openings" / "A-1.yaml", "overlap_left_mm: 82", "overlap_left_mm: 83")
    told = run("send", site, "--to", tmp_path / "s.zip")
    assert (told.status, told.out) == (2, "")
    assert "or name the PDF to take it as it is:\n  openings/A-1.yaml: changed since\n" in told.err


def test_a_folder_where_an_id_is_meant_and_an_id_where_a_folder_is_meant_are_told(
    site: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    whole_pack(site)
    archive = Archive.create(tmp_path / "archive").path
    told = run("send", site, "--archive", archive, "--to", tmp_path / "s.zip")
    assert told.status == 2
    assert told.err == (
        f"With --archive a site is named by its id, and {archive} holds none called {site};"
        " leave out --archive to send a pack that is not filed.\n"
    )
    told = run("send", "alder-yard", "--to", tmp_path / "s.zip")
    assert (told.status, told.err) == (
        2, "There is no folder or PDF alder-yard; to send a filed site, name its archive with --archive.\n",
    )  # fmt: skip
    run("file", site, "--archive", archive)
    (tmp_path / "alder-yard").mkdir()  # a folder of that name does not hide the filed site
    monkeypatch.chdir(tmp_path)
    assert run("send", "alder-yard", "--archive", archive, "--to", tmp_path / "s.zip").status == 0


def test_options_of_the_other_way_of_sending_are_refused(site: Path, tmp_path: Path) -> None:
    archive = Archive.create(tmp_path / "archive").path
    told = run("send", site, "--version", "1", "--to", tmp_path / "s.zip")
    assert (told.status, told.err) == (
        2, "A pack that is not filed has no versions: --version goes with --archive.\n",
    )  # fmt: skip
    filed = ("send", "alder-yard", "--archive", archive, "--to", tmp_path / "s.zip")
    told = run(*filed, "--photos", site / "photos", "--without-photos", "--by", "Ada", "--note", "late")
    assert told.status == 2
    assert told.err == (
        "With --archive a version is sent as it was filed; leave out --photos, --without-photos, --by,"
        " --note, or leave out --archive to send a pack that is not filed.\n"
    )


def test_what_could_not_be_written_is_told_before_anything_is_judged(site: Path, tmp_path: Path) -> None:
    (tmp_path / "s.zip").write_bytes(b"mine")
    for target, why in (
        (tmp_path / "s.zip", "is there already, and is not overwritten."),
        (tmp_path / "no" / "s.zip", f"cannot be written: there is no folder {tmp_path / 'no'}."),
    ):
        told = run("send", site, "--to", target)  # it has no pack, which is not even looked for
        assert (told.status, told.err) == (2, f"{target} {why}\n")
    assert (tmp_path / "s.zip").read_bytes() == b"mine"
