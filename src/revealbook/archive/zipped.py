"""Zip files: written so that the same content gives the same bytes, and looked through before unpacking."""

import stat
from collections.abc import Mapping
from pathlib import Path
from shutil import copyfileobj
from unicodedata import normalize
from zipfile import ZIP_DEFLATED, ZIP_STORED, BadZipFile, ZipFile, ZipInfo, is_zipfile

from revealbook.archive.names import check_paths
from revealbook.archive.refusal import Refused

MOST_FILES = 200_000
MOST_BYTES = 16 << 30
MOST_RATIO = 200
"""Unpacked against packed size: records and PDFs pack to a twentieth at most, one letter over and over to
a thousandth."""
_SMALL = 1 << 20
"""Below this a file's ratio does not matter, bytes."""
_ENCRYPTED = 0x1
_BEGINS = b"PK\x03\x04"
_LONG_AGO = (1980, 1, 1, 0, 0, 0)
_UNREADABLE = (BadZipFile, OSError, EOFError, ValueError, NotImplementedError, RuntimeError)


def write_zip(target: Path, files: Mapping[str, bytes | Path]) -> None:
    """Write a zip in order of path, without times and without compression, which differs between libraries.

    Args:
        target: the file; it must not exist.
        files: content by path.

    Raises:
        Refused: the file exists.
    """
    try:
        with ZipFile(target, "x", ZIP_STORED) as packed:
            for path in sorted(files):
                info, source = ZipInfo(path, _LONG_AGO), files[path]
                info.external_attr, info.create_system = (stat.S_IFREG | 0o644) << 16, 3
                if isinstance(source, bytes):
                    packed.writestr(info, source)
                    continue
                info.file_size = source.stat().st_size
                with source.open("rb") as read, packed.open(info, "w") as written:
                    copyfileobj(read, written)
    except FileExistsError:
        raise Refused(f"{target} is there already, and is not overwritten.") from None


def unpack(file: Path, folder: Path) -> None:
    """Look through a zip, and only if nothing is wrong unpack it into an empty folder.

    Raises:
        Refused: it is not whole, or holds what could do harm: a path that leads out, a link, two files under
            one name, something encrypted, or far more than its size lets expect.
    """
    try:
        with ZipFile(file) as packed:
            infos = packed.infolist()
            _check(file, infos)
            for info in infos:
                if not info.is_dir():
                    target = folder / info.filename
                    target.parent.mkdir(parents=True, exist_ok=True)
                    with packed.open(info) as read, target.open("xb") as written:
                        copyfileobj(read, written)
    except _UNREADABLE as error:
        if isinstance(error, BadZipFile) and _cut_off(file):
            raise Refused(
                f"{file} is not whole, its end is missing. If it is still being copied, try again when"
                " that is done; if not, ask for it once more."
            ) from error
        why = error.strerror if isinstance(error, OSError) and error.strerror else error
        raise Refused(f"{file} cannot be unpacked whole: {why}.") from error


def _cut_off(file: Path) -> bool:
    """Whether a file begins as a zip, or is empty, but has no end: the list of all files, written last."""
    if is_zipfile(file):
        return False
    with file.open("rb") as opened:
        return opened.read(len(_BEGINS)) in {_BEGINS, b""}


def _check(file: Path, infos: list[ZipInfo]) -> None:
    paths = [info.filename.removesuffix("/") for info in infos]
    check_paths([path for path, info in zip(paths, infos, strict=True) if not info.is_dir()])
    seen: set[str] = set()
    for path, info in zip(paths, infos, strict=True):
        if why := _harm(path, info, seen):
            raise Refused(f"{file} was not unpacked: {path!r} {why}.")
        seen.add(_same(path))
    size = sum(info.file_size for info in infos)
    if size > max(_SMALL, MOST_RATIO * file.stat().st_size):
        raise Refused(f"{file} was not unpacked: it would be far more than its packed size lets expect.")
    if len(infos) > MOST_FILES or size > MOST_BYTES:
        raise Refused(
            f"{file} was not unpacked: it holds more than {MOST_FILES} files or {MOST_BYTES >> 30} GiB."
        )


def _harm(path: str, info: ZipInfo, seen: set[str]) -> str:
    """Say why an entry must not be unpacked; nothing if it may be."""
    kind = stat.S_IFMT(info.external_attr >> 16)
    strange_kind = kind not in {0, stat.S_IFREG, stat.S_IFDIR}
    unusual = info.flag_bits & _ENCRYPTED or info.compress_type not in {ZIP_STORED, ZIP_DEFLATED}
    reasons = {
        "leads out of the folder": any(
            part in {"", ".", ".."} or ":" in part or "\\" in part for part in path.split("/")
        ),
        "has a name that is not what it seems": info.orig_filename != info.filename,
        "is a link or no plain file": strange_kind,
        "is in it twice, or under names that some systems take for one": _same(path) in seen,
        "is encrypted, or packed in an unusual way": unusual,
        "would be unpacked to far more than its packed size lets expect": info.file_size
        > max(_SMALL, MOST_RATIO * info.compress_size),
    }
    return next((why for why, holds in reasons.items() if holds), "")


def _same(path: str) -> str:
    return normalize("NFC", path).casefold()
