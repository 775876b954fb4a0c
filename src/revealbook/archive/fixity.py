"""Whether what lies in a store is what was written there: its structure, file by file, and what to hash.

Held against OCFL 1.1, sections 3 and 4. Nothing is judged here and nothing is repaired.
"""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from pathlib import Path

from revealbook.archive import inventory as inventories
from revealbook.archive.holds import holds
from revealbook.archive.inventory import FILE, SIDECAR, Inventory
from revealbook.archive.layout import LAYOUT, OBJECT_DECLARATION, ROOT_DECLARATION, STORE
from revealbook.archive.refusal import Damaged
from revealbook.archive.site_object import is_object, read_object
from revealbook.present.faults import Held, say_held
from revealbook.present.words import N_, words_in


@dataclass(frozen=True, slots=True)
class Fault:
    """Something in an archive that is not as it was written.

    Attributes:
        site: the site; empty for the store itself.
        path: the file or folder, from the store.
        text: what is wrong with it, in English words that follow its name, as a text to be translated.
        held: what it holds; nothing if nobody knows.
        sha512: the digest that its content should have; empty if there is none to restore it by.
        facts: what is to be filled into the text.
    """

    site: str
    path: str
    text: str
    held: tuple[Held, ...] = ()
    sha512: str = ""
    facts: Mapping[str, object] = field(default_factory=dict)

    @property
    def what(self) -> str:
        """What is wrong with it, in English."""
        return words_in("en").say(self.text, **self.facts)

    @property
    def holds(self) -> str:
        """What it holds, in English; empty if nobody knows."""
        return say_held(self.held, words_in("en"))


@dataclass(frozen=True, slots=True)
class Structure:
    """What looking at a site's folder gave, before any content is read.

    Attributes:
        faults: what is wrong.
        inventory: its inventory; that of its latest version if the one at the top is damaged; None if neither
            can be read.
        present: content paths that are there, to be hashed.
    """

    faults: tuple[Fault, ...]
    inventory: Inventory | None
    present: tuple[str, ...]


def root_faults(archive: Path) -> Iterator[Fault]:
    """Give what is wrong with the store itself, sites left aside."""
    store = archive / STORE
    for path in sorted(store.iterdir()):
        if path.is_dir() and not path.is_symlink():
            if not is_object(path):
                yield Fault("", path.name, N_("is no site's folder, or has lost what says so"))
        elif path.name not in {ROOT_DECLARATION[0], LAYOUT[0]}:
            yield Fault("", path.name, N_("does not belong to the store"))
    for (name, content), what in (
        (ROOT_DECLARATION, N_("the declaration of the store")),
        (LAYOUT, N_("how sites' folders are named")),
    ):
        if _bytes(store / name) != content:
            yield Fault("", name, N_("is missing or was changed"), (Held(what),))


def structure(archive: Path, site: str) -> Structure:
    """Look at a site's folder: declaration, inventories, and whether all files are there and no others."""
    folder, faults = archive / STORE / site, []
    if _bytes(folder / OBJECT_DECLARATION[0]) != OBJECT_DECLARATION[1]:
        what = (Held(N_("the site's declaration")),)
        faults.append(Fault(site, f"{site}/{OBJECT_DECLARATION[0]}", N_("was changed"), what))
    try:
        inventory: Inventory | None = read_object(folder, site)
    except (Damaged, OSError):
        what = (Held(N_("the list of all files")),)
        faults.append(Fault(site, f"{site}/{FILE}", N_("is missing or was changed, or its digest was"), what))
        inventory = _latest_inventory(folder, site)
    if inventory is None:
        return Structure(tuple(faults), None, ())
    faults += _inventories(folder, site, inventory)
    faults += _digest_files(folder, site, len(inventory.blocks))
    listed = {path: digest for digest, paths in inventory.manifest.items() for path in paths}
    there, odd = _walk(folder)
    expected = _expected(inventory) | listed.keys()
    faults += [Fault(site, f"{site}/{path}", what) for path, what in odd]
    faults += [
        Fault(site, f"{site}/{path}", N_("is in no inventory; somebody put it there"))
        for path in sorted(there - expected)
    ]
    faults += [
        Fault(site, f"{site}/{path}", N_("is missing"), holds(inventory, path), listed.get(path, ""))
        for path in sorted(expected - there - {FILE, SIDECAR})
    ]
    return Structure(tuple(faults), inventory, tuple(sorted(there & listed.keys())))


def _expected(inventory: Inventory) -> set[str]:
    """Give the paths of all files that are not content."""
    versions = range(1, len(inventory.blocks) + 1)
    own = {f"v{number}/{name}" for number in versions for name in (FILE, SIDECAR)}
    return own | {FILE, SIDECAR, OBJECT_DECLARATION[0]}


def _walk(folder: Path) -> tuple[set[str], list[tuple[str, str]]]:
    """Give all files below a folder, and what the standard allows nowhere: links and empty folders."""
    files, odd = set(), []
    for path in sorted(folder.rglob("*")):
        inside = path.relative_to(folder).as_posix()
        if path.is_symlink():
            odd.append((inside, N_("is a link, which an archive never holds")))
        elif path.is_file():
            files.add(inside)
        elif path.is_dir() and not any(path.iterdir()):
            odd.append((inside, N_("is an empty folder")))
    return files, odd


def _latest_inventory(folder: Path, site: str) -> Inventory | None:
    """Read the newest inventory of a version, where the one at the top cannot be."""
    numbered = [one for one in folder.glob("v*") if one.name[1:].isdecimal()]
    for version in sorted(numbered, key=lambda one: int(one.name[1:]), reverse=True):
        try:
            return read_object(version, site)
        except (Damaged, OSError):
            continue
    return None


def _inventories(folder: Path, site: str, whole: Inventory) -> Iterator[Fault]:
    """Hold the inventory that each version keeps against the one at the top."""
    for number in range(1, len(whole.blocks) + 1):
        path = f"{site}/v{number}/{FILE}"
        what = (Held(N_("the list of files as of version {name}"), str(number)),)
        try:
            kept = read_object(folder / f"v{number}", site)
        except FileNotFoundError:
            continue  # told as missing
        except (Damaged, OSError):
            yield Fault(site, path, N_("was changed, or its digest was"), what)
            continue
        same = kept.blocks == whole.blocks[:number] and _within(kept.manifest, whole.manifest)
        if not same or (number == len(whole.blocks) and inventories.write(kept) != inventories.write(whole)):
            yield Fault(site, path, N_("tells earlier versions otherwise than the latest one"), what)


def _digest_files(folder: Path, site: str, versions: int) -> Iterator[Fault]:
    """Hold the files beside the inventories to the last byte; reading looks at their digest only."""
    for below in ("", *(f"v{number}/" for number in range(1, versions + 1))):
        content, beside = _bytes(folder / f"{below}{FILE}"), _bytes(folder / f"{below}{SIDECAR}")
        if content is not None and beside is not None and beside != inventories.sidecar(content):
            yield Fault(site, f"{site}/{below}{SIDECAR}", N_("is not the digest of the list beside it"))


def _within(part: Mapping[str, tuple[str, ...]], whole: Mapping[str, tuple[str, ...]]) -> bool:
    return all(set(paths) <= set(whole.get(digest, ())) for digest, paths in part.items())


def _bytes(path: Path) -> bytes | None:
    try:
        return path.read_bytes()
    except OSError:
        return None
