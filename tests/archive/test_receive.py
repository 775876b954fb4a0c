from pathlib import Path

import pytest
from tests.archive.archives import FIRST, WHEN, add
from tests.made import Made

from revealbook.archive.bag import opened_bag, write_bag
from revealbook.archive.file import Filing, file_packs
from revealbook.archive.receive import received
from revealbook.archive.refusal import Refused
from revealbook.archive.store import Archive
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
