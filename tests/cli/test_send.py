from pathlib import Path

from tests.archive.archives import FIRST, WHEN, add
from tests.cli.terminal import run
from tests.made import Made

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
