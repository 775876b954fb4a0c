import os
import stat
from collections.abc import Callable
from pathlib import Path
from zipfile import ZIP_BZIP2, ZIP_DEFLATED, ZipFile, ZipInfo

import pytest

from revealbook.archive import zipped
from revealbook.archive.refusal import Refused
from revealbook.archive.zipped import unpack, write_zip


def zip_of(path: Path, *entries: tuple[str, bytes], packing: int = ZIP_DEFLATED) -> Path:
    file = path / "given.zip"
    with ZipFile(file, "w", packing) as packed:
        for name, content in entries:
            packed.writestr(ZipInfo(name), content, packing)
    return file


def refused(path: Path, file: Path) -> str:
    folder = path / "into" / "it"
    folder.mkdir(parents=True)
    with pytest.raises(Refused) as told:
        unpack(file, folder)
    assert not [one for one in path.rglob("*") if one.is_file() and one != file], "something was unpacked"
    return str(told.value)


def test_what_was_written_is_unpacked_again(tmp_path: Path) -> None:
    (tmp_path / "big").write_bytes(b"x" * 70_000)
    write_zip(tmp_path / "a.zip", {"top/b": b"two", "top/a/ä": b"one", "top/c": tmp_path / "big"})
    unpack(tmp_path / "a.zip", tmp_path / "out")
    assert (tmp_path / "out/top/a/ä").read_bytes() == b"one"
    assert (tmp_path / "out/top/c").read_bytes() == b"x" * 70_000


def test_the_same_files_give_the_same_bytes_whenever_they_were_made(tmp_path: Path) -> None:
    source = tmp_path / "s"
    source.write_bytes(b"one")
    write_zip(tmp_path / "a.zip", {"a": source, "b": b"two"})
    os.utime(source, (0, 1_000_000_000))
    source.chmod(0o600)
    write_zip(tmp_path / "b.zip", {"b": b"two", "a": source})
    assert (tmp_path / "a.zip").read_bytes() == (tmp_path / "b.zip").read_bytes()


def test_a_file_that_is_there_is_not_overwritten(tmp_path: Path) -> None:
    (tmp_path / "a.zip").write_bytes(b"mine")
    with pytest.raises(Refused, match="not overwritten"):
        write_zip(tmp_path / "a.zip", {"a": b"one"})
    assert (tmp_path / "a.zip").read_bytes() == b"mine"


@pytest.mark.parametrize(
    "name", ["../up", "a/../../up", "/etc/passwd", "a//b", "./a", "C:/up", "C:up", "a\\..\\up"]
)
def test_a_path_that_leads_out_is_refused(tmp_path: Path, name: str) -> None:
    assert repr(name.replace("/", "/"))[1:-1] in refused(tmp_path, zip_of(tmp_path, (name, b"x")))


def test_a_folder_that_leads_out_is_refused(tmp_path: Path) -> None:
    assert "leads out" in refused(tmp_path, zip_of(tmp_path, ("../up/", b""), ("a", b"")))


@pytest.mark.filterwarnings("ignore:Duplicate name")
@pytest.mark.parametrize("second", ["a/B.txt", "a/b.TXT"])
def test_two_files_under_one_name_are_refused(tmp_path: Path, second: str) -> None:
    file = zip_of(tmp_path, ("a/B.txt", b"one"), (second, b"two"))
    assert "in it twice" in refused(tmp_path, file)


def test_two_spellings_of_one_sign_are_one_name(tmp_path: Path) -> None:
    assert "in it twice" in refused(tmp_path, zip_of(tmp_path, ("\u00e4", b"one"), ("a\u0308", b"two")))


def test_a_file_below_a_file_is_refused(tmp_path: Path) -> None:
    assert "file and a folder" in refused(tmp_path, zip_of(tmp_path, ("a", b"one"), ("a/b", b"two")))


def test_a_link_is_refused(tmp_path: Path) -> None:
    file, info = tmp_path / "given.zip", ZipInfo("a")
    info.external_attr = (stat.S_IFLNK | 0o777) << 16
    with ZipFile(file, "w") as packed:
        packed.writestr(info, b"/etc/passwd")
    assert "link" in refused(tmp_path, file)


def test_a_bomb_is_refused(tmp_path: Path) -> None:
    assert "'b' would be unpacked to far more" in refused(
        tmp_path, zip_of(tmp_path, ("a", b"x"), ("b", bytes(3_000_000)))
    )


def test_too_many_files_or_bytes_are_refused(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(zipped, "MOST_FILES", 1)
    assert "more than 1 files" in refused(tmp_path, zip_of(tmp_path, ("a", b"x"), ("b", b"y")))


def test_an_unusual_packing_is_refused(tmp_path: Path) -> None:
    assert "unusual" in refused(tmp_path, zip_of(tmp_path, ("a", b"x"), packing=ZIP_BZIP2))


CUT: list[Callable[[bytes], bytes]] = [
    lambda raw: raw[:-1],
    lambda raw: raw[: len(raw) // 2],
    lambda raw: raw[: len(raw) // 2].ljust(len(raw), b"\0"),  # some programs take the room before they copy
    lambda raw: raw[:4],
    lambda raw: b"",
]


@pytest.mark.parametrize("cut", CUT)
def test_a_zip_without_its_end_is_told_as_one_that_is_perhaps_being_copied(
    tmp_path: Path, cut: Callable[[bytes], bytes]
) -> None:
    file = zip_of(tmp_path, ("a", b"x" * 100), ("b", b"y"))
    file.write_bytes(cut(file.read_bytes()))
    assert refused(tmp_path, file) == (
        f"{file} is not whole, its end is missing. If it is still being copied, try again when that is done;"
        " if not, ask for it once more."
    )


@pytest.mark.parametrize(
    "spoil", [lambda raw: b"no zip", lambda raw: raw.replace(b"PK\x01\x02", b"PK\x01\x03", 1)]
)
def test_what_is_no_zip_or_a_damaged_one_is_not_told_as_being_copied(
    tmp_path: Path, spoil: Callable[[bytes], bytes]
) -> None:
    file = zip_of(tmp_path, ("a", b"x" * 100), ("b", b"y"))
    file.write_bytes(spoil(file.read_bytes()))
    assert refused(tmp_path, file).startswith(f"{file} cannot be unpacked whole: ")


def test_a_zip_that_is_not_there_is_told_without_numbers_of_the_system(tmp_path: Path) -> None:
    said = refused(tmp_path, tmp_path / "a.zip")
    assert said == f"{tmp_path / 'a.zip'} cannot be unpacked whole: No such file or directory."


def test_many_files_that_are_small_but_packed_far_too_well_are_refused(tmp_path: Path) -> None:
    file = zip_of(tmp_path, *((f"{number}", bytes(900_000)) for number in range(3)))
    assert "it would be far more" in refused(tmp_path, file)


def test_more_bytes_than_an_archive_could_hold_are_refused(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(zipped, "MOST_BYTES", 1)
    assert "GiB" in refused(tmp_path, zip_of(tmp_path, ("a", b"xy")))


def test_a_name_that_ends_in_another_way_than_shown_is_refused(tmp_path: Path) -> None:
    file = zip_of(tmp_path, ("a.pdf#.exe", b"x"))
    file.write_bytes(file.read_bytes().replace(b"a.pdf#.exe", b"a.pdf\0.exe"))
    assert "not what it seems" in refused(tmp_path, file)


def test_an_encrypted_file_is_refused(tmp_path: Path) -> None:
    file = zip_of(tmp_path, ("a", b"x"))
    raw = bytearray(file.read_bytes())
    raw[raw.index(b"PK\x01\x02") + 8] |= 1  # the flag in the list at the end (APPNOTE 4.4.4)
    file.write_bytes(raw)
    assert "was not unpacked: 'a' is encrypted" in refused(tmp_path, file)
