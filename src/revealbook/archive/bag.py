"""SEND: one version of a site as a BagIt bag (RFC 8493, version 1.0), zipped; and a bag's own check."""

import json
import logging
import re
from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from dataclasses import dataclass
from hashlib import sha512
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Any

import bagit

from revealbook import __version__
from revealbook.archive.chain import BEFORE_THE_FIRST, head
from revealbook.archive.disk import digest_of
from revealbook.archive.file import FILING, ONLY_SENT
from revealbook.archive.refusal import Refused, refuse_existing
from revealbook.archive.store import Archive, Version
from revealbook.archive.zipped import unpack, write_zip

DECLARATION = b"BagIt-Version: 1.0\nTag-File-Character-Encoding: UTF-8\n"
PAYLOAD = "data/"
MANIFEST, TAG_MANIFEST = "manifest-sha512.txt", "tagmanifest-sha512.txt"
INFO = "bag-info.txt"
_ROW = re.compile(r"([0-9a-f]{128})  ([^\r\n%]+)")
logging.getLogger("bagit").addHandler(logging.NullHandler())  # what it finds is in its exception as well


@dataclass(frozen=True, slots=True)
class Bag:
    """A bag that is whole.

    Attributes:
        folder: its folder.
        site: the site.
        version: the number of the version it holds.
        head: the head of that version.
        state: SHA-512 of each file by logical path.
        fingerprints: those of the packs.
        filing: what its filing.json tells of who filed it, when and why; empty if it has none.
    """

    folder: Path
    site: str
    version: int
    head: str
    state: Mapping[str, str]
    fingerprints: tuple[str, ...]
    filing: Mapping[str, Any]

    @property
    def only_sent(self) -> bool:
        """Whether the sender had not filed it; its head then stands in no archive."""
        return self.filing.get(ONLY_SENT) is True


def write_bag(archive: Archive, site: str, number: int | None, target: Path) -> Version:
    """Write one version of a site as a zipped bag, and check what was written.

    The same version, written by the same version of this program, gives the same bytes.

    Args:
        archive: where it is.
        site: the site.
        number: the version; the latest if None.
        target: the zip; it must not exist.

    Raises:
        Refused: there is no such site or version, the target exists, a file is damaged, or a path holds a
            `%`, which RFC 8493 and programs for bags write in different ways.
    """
    version = archive.version(site, number)
    refuse_existing(target)
    try:
        with TemporaryDirectory(prefix=".revealbook-", dir=target.parent) as beside:
            part = Path(beside, target.name)
            write_zip(part, _files(version, site, _payload(archive, site, version)))
            with opened_bag(part):
                part.rename(target)
    except OSError as error:
        raise Refused(f"{target} cannot be written: {error.strerror or error}.") from error
    return version


def _payload(archive: Archive, site: str, version: Version) -> dict[str, Path]:
    payload = archive.contents(site, version.number)
    for path, file in payload.items():
        if "%" in path:
            raise Refused(f"{path} cannot be sent: programs for bags write a % in a name in different ways.")
        if not file.is_file() or digest_of(file) != version.state[path]:
            raise Refused(f"{path} in version {version.number} of {site} is damaged; nothing was sent.")
    return payload


def _files(version: Version, site: str, payload: Mapping[str, Path]) -> dict[str, bytes | Path]:
    """Give all files of a bag by their path in the zip."""
    size = sum(file.stat().st_size for file in payload.values())
    filing = json.loads(payload[FILING].read_bytes()) if FILING in payload else {}
    tags = _tags(site, version, f"{size}.{len(payload)}", filing)
    top = f"{site}-v{version.number}/"
    files: dict[str, bytes | Path] = {f"{top}{name}": content for name, content in tags.items()}
    return files | {f"{top}{PAYLOAD}{path}": file for path, file in payload.items()}


def _tags(site: str, version: Version, oxum: str, filing: Mapping[str, Any]) -> dict[str, bytes]:
    packs = filing.get("packs", ())
    fingerprints = [str(pack["fingerprint"]) for pack in packs] if isinstance(packs, list) else []
    what = "one site, sent before it was filed" if filing.get(ONLY_SENT) else "one filed version of one site"
    info = [
        ("External-Identifier", site),
        ("External-Description", f"Installation quality record of windows: {what}."),
        ("Bagging-Date", version.created.date().isoformat()),
        ("Bag-Software-Agent", f"revealbook {__version__}"),
        ("Payload-Oxum", oxum),
        ("Revealbook-Version", str(version.number)),
        ("Revealbook-Head", version.head),
        *(("Revealbook-Pack-Fingerprint", one) for one in fingerprints),
    ]
    tags = {
        "bagit.txt": DECLARATION,
        INFO: "".join(f"{name}: {value}\n" for name, value in info).encode(),
        MANIFEST: _manifest({f"{PAYLOAD}{path}": digest for path, digest in version.state.items()}),
    }
    return tags | {TAG_MANIFEST: _manifest({name: sha512(raw).hexdigest() for name, raw in tags.items()})}


def _manifest(digests: Mapping[str, str]) -> bytes:
    return "".join(f"{digests[path]}  {path}\n" for path in sorted(digests)).encode()


@contextmanager
def opened_bag(file: Path) -> Iterator[Bag]:
    """Unpack a zipped bag and hold it against its manifests, without judging anything.

    It lies in a temporary folder while it is used.

    Raises:
        Refused: the zip or the bag is not what was sent.
    """
    with TemporaryDirectory(prefix="revealbook-bag-") as name:
        unpack(file, Path(name))
        tops = list(Path(name).iterdir())
        if len(tops) != 1 or not tops[0].is_dir():
            raise Refused(f"{file} is not one bag: it should hold one folder and nothing beside it.")
        yield check_bag(tops[0])


def check_bag(folder: Path) -> Bag:
    """Hold an unpacked bag against its manifests: ours strictly, then as the BagIt library does.

    Raises:
        Refused: anything is missing, too much, or not what its digest says; each file is named.
    """
    listed = {**_read_manifest(folder, TAG_MANIFEST), **_read_manifest(folder, MANIFEST)}
    if wrong := list(_wrong(folder, listed)):
        raise Refused("\n".join(["The bag is not what was sent:", *(f"  {one}" for one in wrong)]))
    try:
        bag = bagit.Bag(str(folder))
        bag.validate()
    except (bagit.BagError, OSError, ValueError) as error:
        raise Refused(f"The bag is not valid: {error}.") from error
    return _of_site(folder, bag.info, listed)


def _wrong(folder: Path, listed: Mapping[str, str]) -> Iterator[str]:
    there = {file.relative_to(folder).as_posix(): file for file in folder.rglob("*") if not file.is_dir()}
    if (folder / "bagit.txt").is_file() and (folder / "bagit.txt").read_bytes() != DECLARATION:
        yield "bagit.txt does not say that this is a bag of version 1.0"
    for path in sorted({"bagit.txt", INFO, MANIFEST} - listed.keys()):
        yield f"{path} is not listed in {TAG_MANIFEST}"
    for path in sorted(listed.keys() - there.keys()):
        yield f"{path} is missing"
    for path in sorted(there.keys() - listed.keys() - {TAG_MANIFEST}):
        yield f"{path} is in no manifest"
    for path in sorted(listed.keys() & there.keys()):
        if digest_of(there[path]) != listed[path]:
            yield f"{path} is not the file that was sent: its digest is another"


def _read_manifest(folder: Path, name: str) -> dict[str, str]:
    try:
        text = (folder / name).read_bytes().decode()
    except (OSError, UnicodeError):
        raise Refused(f"The bag has no {name} that can be read.") from None
    rows = [_ROW.fullmatch(row) for row in text.split("\n")[:-1]]
    found = {row[2]: row[1] for row in rows if row}
    if not text.endswith("\n") or None in rows or len(found) != len(rows):
        raise Refused(f"{name} in the bag is not a list of digests and files.")
    strange = [path for path in found if path.startswith(PAYLOAD) != (name == MANIFEST)]
    if strange:
        raise Refused(f"{name} in the bag lists {strange[0]}, which is not its business.")
    return found


def _of_site(folder: Path, info: Mapping[str, str | list[str]], listed: Mapping[str, str]) -> Bag:
    """Read what a bag says of itself, and recompute the head of its version."""
    state = {
        path.removeprefix(PAYLOAD): digest for path, digest in listed.items() if path.startswith(PAYLOAD)
    }
    marks = info.get("Revealbook-Pack-Fingerprint", [])
    try:
        site, number = str(info["External-Identifier"]), int(str(info["Revealbook-Version"]))
        filing = json.loads((folder / PAYLOAD / FILING).read_bytes()) if FILING in state else {}
        computed = head(filing.get("head_before", BEFORE_THE_FIRST), site, number, state)
        stated = str(info["Revealbook-Head"])
    except (KeyError, ValueError, AttributeError, TypeError) as error:
        raise Refused(f"{INFO} does not say which version of which site this is: {error}.") from error
    if computed != stated:
        raise Refused(f"The head in {INFO} is not that of version {number} of {site} with these files.")
    fingerprints = tuple([marks] if isinstance(marks, str) else marks)
    return Bag(folder, site, number, stated, state, fingerprints, filing)
