"""One site's folder in the store: an OCFL object, read as it lies there, and built with one more version."""

from collections.abc import Callable, Mapping
from pathlib import Path

from revealbook.archive import inventory as inventories
from revealbook.archive.disk import Digested, flush, link_tree, store_file
from revealbook.archive.inventory import FILE, SIDECAR, Block, Inventory
from revealbook.archive.layout import OBJECT_DECLARATION
from revealbook.archive.names import ContentNames

Source = bytes | Path | Digested
"""What a file is stored from."""
Progress = Callable[[int, int, str], None]
"""Told of each thing done: how many, of how many, and its name."""


def is_object(folder: Path) -> bool:
    """Whether a folder says of itself that it is a site's."""
    return (folder / OBJECT_DECLARATION[0]).is_file()


def read_object(folder: Path, site: str) -> Inventory:
    """Read a site's inventory.

    Raises:
        Damaged: it is not the one that was written.
        FileNotFoundError: there is none.
    """
    content = (folder / FILE).read_bytes()
    return inventories.read(content, (folder / SIDECAR).read_bytes(), site)


def build_next(
    old: Path,
    new: Path,
    before: Inventory,
    block: Block,
    sources: Mapping[str, Source],
    *,
    seen: Progress,
) -> Inventory:
    """Build a site's complete folder with one more version, and bring it to the disk.

    Content that is there already, under whatever name, is not stored again.

    Args:
        old: the site's folder as it is.
        new: the folder to make.
        before: its inventory; without versions if there is no folder yet.
        block: the new version.
        sources: what its files are stored from, by logical path; those carried forward need none.
        seen: told of each file.

    Raises:
        Refused: a file changed since its digest was taken.
    """
    written = link_tree(old, new, (FILE, SIDECAR)) if before.blocks else _begin(new)
    manifest, blocks = dict(before.manifest), (*before.blocks, block)
    names = ContentNames(path for paths in manifest.values() for path in paths)
    version = f"v{len(blocks)}"
    for number, path in enumerate(sorted(sources), 1):
        digest = block.state[path]
        if digest not in manifest:
            place = names.give(f"{version}/content", path)
            store_file(sources[path], digest, new / place)
            manifest[digest] = (place,)
            written.append(new / place)
        seen(number, len(sources), path)
    inventory = Inventory(before.site, manifest, blocks)
    flush(new, [*written, *_write_inventory(new, version, inventory)])
    return inventory


def _begin(new: Path) -> list[Path]:
    new.mkdir()
    declaration = new / OBJECT_DECLARATION[0]
    declaration.write_bytes(OBJECT_DECLARATION[1])
    return [declaration]


def _write_inventory(new: Path, version: str, inventory: Inventory) -> list[Path]:
    """Write the inventory and its digest at the top and into the version's own folder."""
    content = inventories.write(inventory)
    written = []
    for folder in (new / version, new):
        folder.mkdir(exist_ok=True)
        for name, data in ((FILE, content), (SIDECAR, inventories.sidecar(content))):
            (folder / name).write_bytes(data)
            written.append(folder / name)
    return written
