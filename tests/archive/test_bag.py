import json
import shutil
from collections.abc import Mapping
from hashlib import sha512
from pathlib import Path

import bagit
import pytest
from tests.archive.archives import FIRST, SECOND, add

from revealbook.archive.bag import check_bag, write_bag
from revealbook.archive.refusal import Refused
from revealbook.archive.store import Archive
from revealbook.archive.zipped import unpack, write_zip


def archive_of(path: Path) -> Archive:
    archive = Archive.create(path / "archive")
    add(archive, {**FIRST, "filing.json": b'{"packs": [{"fingerprint": "ab"}]}'})
    return archive


def bag_of(path: Path) -> Path:
    write_bag(archive_of(path), "s", None, path / "s.zip")
    unpack(path / "s.zip", path / "out")
    return path / "out" / "s-v1"


def refused(bag: Path) -> str:
    with pytest.raises(Refused) as told:
        check_bag(bag)
    return str(told.value)


def retagged(bag: Path) -> None:
    """List the tag files anew, as somebody would who covers up a change."""
    rows = (bag / "tagmanifest-sha512.txt").read_text().splitlines()
    names = [row.split("  ")[1] for row in rows]
    (bag / "tagmanifest-sha512.txt").write_text(
        "".join(f"{sha512((bag / name).read_bytes()).hexdigest()}  {name}\n" for name in names)
    )


def test_a_bag_holds_every_file_of_the_version_and_says_which(tmp_path: Path) -> None:
    bag, version = check_bag(bag_of(tmp_path)), Archive.open(tmp_path / "archive").versions("s")[0]
    assert (bag.site, bag.version, bag.head, bag.fingerprints) == ("s", 1, version.head, ("ab",))
    assert bag.state == version.state
    assert (bag.folder / "data/packs/s.pdf").read_bytes() == FIRST["packs/s.pdf"]


def test_the_outside_library_finds_a_bag_of_version_1_0_valid(tmp_path: Path) -> None:
    bag = bagit.Bag(str(bag_of(tmp_path)))
    assert bag.validate()
    assert bag.version_info == (1, 0)
    assert bag.algorithms == ["sha512"]


def test_a_per_cent_sign_in_a_name_is_refused_with_the_name(tmp_path: Path) -> None:
    archive = Archive.create(tmp_path / "archive")
    add(archive, {"photos/100%.jpg": b"jpeg"})
    with pytest.raises(Refused, match=r"photos/100%\.jpg"):
        write_bag(archive, "s", None, tmp_path / "s.zip")
    assert not list(tmp_path.glob("s.zip*"))


def test_the_same_version_gives_the_same_bytes(tmp_path: Path) -> None:
    archive = archive_of(tmp_path)
    write_bag(archive, "s", 1, tmp_path / "a.zip")
    before = archive.versions("s")[0].head
    add(archive, {**SECOND, "filing.json": json.dumps({"head_before": before}).encode()})
    write_bag(archive, "s", 1, tmp_path / "b.zip")
    write_bag(archive, "s", None, tmp_path / "c.zip")
    assert (tmp_path / "a.zip").read_bytes() == (tmp_path / "b.zip").read_bytes()
    assert (tmp_path / "a.zip").read_bytes() != (tmp_path / "c.zip").read_bytes()


@pytest.mark.parametrize("number", [0, 2, -1])
def test_a_version_that_is_not_there_is_refused(tmp_path: Path, number: int) -> None:
    with pytest.raises(Refused, match="no version"):
        write_bag(archive_of(tmp_path), "s", number, tmp_path / "a.zip")


def test_damaged_content_is_not_sent(tmp_path: Path) -> None:
    archive = archive_of(tmp_path)
    archive.content("s", 1, "packs/s.pdf").write_bytes(b"%PDF 0ne")
    with pytest.raises(Refused, match=r"packs/s\.pdf .* damaged"):
        write_bag(archive, "s", None, tmp_path / "a.zip")
    assert not (tmp_path / "a.zip").exists()


def test_a_changed_file_is_named(tmp_path: Path) -> None:
    bag = bag_of(tmp_path)
    (bag / "data/packs/s.pdf").write_bytes(b"%PDF two")
    assert "data/packs/s.pdf is not the file that was sent" in refused(bag)


def test_missing_files_and_files_too_many_are_named(tmp_path: Path) -> None:
    bag = bag_of(tmp_path)
    (bag / "data/site.yaml").rename(bag / "data/sight.yaml")
    said = refused(bag)
    assert "data/site.yaml is missing" in said
    assert "data/sight.yaml is in no manifest" in said


@pytest.mark.parametrize(
    "name", ["bagit.txt", "bag-info.txt", "manifest-sha512.txt", "tagmanifest-sha512.txt"]
)
def test_a_bag_without_one_of_its_own_files_is_refused(tmp_path: Path, name: str) -> None:
    bag = bag_of(tmp_path)
    (bag / name).unlink()
    assert name in refused(bag)


def test_a_list_of_files_to_fetch_is_refused(tmp_path: Path) -> None:
    bag = bag_of(tmp_path)
    (bag / "fetch.txt").write_text("https://example.org/x 1 data/x\n")
    assert "fetch.txt is in no manifest" in refused(bag)


@pytest.mark.parametrize(
    ("old", "new"), [("Revealbook-Version: 1", "Revealbook-Version: 2"), ("Identifier: s", "Identifier: t")]
)
def test_another_version_or_site_does_not_have_that_head(tmp_path: Path, old: str, new: str) -> None:
    bag = bag_of(tmp_path)
    info = bag / "bag-info.txt"
    info.write_text(info.read_text().replace(old, new))
    retagged(bag)
    assert "head" in refused(bag)


def test_an_older_kind_of_bag_is_refused(tmp_path: Path) -> None:
    bag = bag_of(tmp_path)
    (bag / "bagit.txt").write_text("BagIt-Version: 0.97\nTag-File-Character-Encoding: UTF-8\n")
    retagged(bag)
    assert "bagit.txt does not say" in refused(bag)


def test_every_byte_of_the_tag_files_counts(tmp_path: Path) -> None:
    bag = bag_of(tmp_path)
    for name in ("bagit.txt", "bag-info.txt", "tagmanifest-sha512.txt", "manifest-sha512.txt"):
        raw = (bag / name).read_bytes()
        for place in range(0, len(raw), 7):
            (bag / name).write_bytes(raw[:place] + bytes([raw[place] ^ 0x20]) + raw[place + 1 :])
            assert refused(bag)
        (bag / name).write_bytes(raw)
    shutil.rmtree(bag / "data/packs")
    assert "data/packs/s.pdf is missing" in refused(bag)


def test_where_nothing_can_be_written_the_place_that_was_asked_for_is_told(tmp_path: Path) -> None:
    archive = archive_of(tmp_path)
    with pytest.raises(Refused, match=r"s\.zip cannot be written: No such file or directory"):
        write_bag(archive, "s", None, tmp_path / "nowhere" / "s.zip")


def test_a_file_that_is_there_is_not_overwritten(tmp_path: Path) -> None:
    (tmp_path / "a.zip").write_bytes(b"mine")
    with pytest.raises(Refused, match="not overwritten"):
        write_bag(archive_of(tmp_path), "s", None, tmp_path / "a.zip")
    assert (tmp_path / "a.zip").read_bytes() == b"mine"


def test_two_who_send_to_one_file_do_not_disturb_each_other_and_nothing_stays_beside_it(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    archive, folder = archive_of(tmp_path), tmp_path / "out"
    folder.mkdir()

    def interrupted(target: Path, files: Mapping[str, bytes | Path]) -> None:
        write_zip(target, files)
        with monkeypatch.context() as other:
            other.setattr("revealbook.archive.bag.write_zip", write_zip)
            write_bag(archive, "s", None, folder / "a.zip")

    monkeypatch.setattr("revealbook.archive.bag.write_zip", interrupted)
    write_bag(archive, "s", None, folder / "a.zip")
    assert [one.name for one in folder.iterdir()] == ["a.zip"]


def test_a_version_that_does_not_note_the_head_before_it_is_not_sent(tmp_path: Path) -> None:
    archive = archive_of(tmp_path)
    add(archive, SECOND)
    with pytest.raises(Refused, match="head"):
        write_bag(archive, "s", 2, tmp_path / "a.zip")
    assert not list(tmp_path.glob("a.zip*"))


def test_a_size_that_is_not_that_of_the_payload_is_refused_as_the_outside_library_does(
    tmp_path: Path,
) -> None:
    bag = bag_of(tmp_path)
    rows = (bag / "bag-info.txt").read_text().splitlines()
    wrong = ["Payload-Oxum: 1.1" if row.startswith("Payload-Oxum") else row for row in rows]
    (bag / "bag-info.txt").write_text("".join(f"{row}\n" for row in wrong))
    retagged(bag)
    assert refused(bag).startswith("The bag is not valid: ")
