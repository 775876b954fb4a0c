"""The inventory of a site's versions, as the standard asks for it (OCFL 1.1, section 3.5)."""

import json
import re
from collections.abc import Mapping
from dataclasses import dataclass
from datetime import datetime
from hashlib import sha512
from typing import Any

from revealbook.archive.refusal import Damaged

FILE = "inventory.json"
SIDECAR = "inventory.json.sha512"
TYPE = "https://ocfl.io/1.1/spec/#inventory"
_DIGEST = re.compile(r"[0-9a-f]{128}")


@dataclass(frozen=True, slots=True)
class Block:
    """One version as the inventory tells it.

    Attributes:
        created: when, with its zone.
        message: why.
        user: who.
        state: SHA-512 of each file by logical path.
    """

    created: datetime
    message: str
    user: str
    state: Mapping[str, str]


@dataclass(frozen=True, slots=True)
class Inventory:
    """All versions of one site.

    Attributes:
        site: its id.
        manifest: content paths by SHA-512; the first is the one to read.
        blocks: its versions, the first one first.
    """

    site: str
    manifest: Mapping[str, tuple[str, ...]]
    blocks: tuple[Block, ...]


def write(inventory: Inventory) -> bytes:
    """Give an inventory as JSON; the same inventory gives the same bytes."""
    plain = {
        "id": inventory.site,
        "type": TYPE,
        "digestAlgorithm": "sha512",
        "head": f"v{len(inventory.blocks)}",
        "manifest": {digest: list(paths) for digest, paths in inventory.manifest.items()},
        "versions": {f"v{number}": _block(block) for number, block in enumerate(inventory.blocks, 1)},
    }
    return (json.dumps(plain, ensure_ascii=False, indent=1, sort_keys=True) + "\n").encode()


def _block(block: Block) -> dict[str, object]:
    state: dict[str, list[str]] = {}
    for path in sorted(block.state):
        state.setdefault(block.state[path], []).append(path)
    created = block.created.isoformat(timespec="seconds")
    return {"created": created, "message": block.message, "user": {"name": block.user}, "state": state}


def sidecar(content: bytes) -> bytes:
    """Give the file that holds an inventory's digest, as `sha512sum` writes and checks it."""
    return f"{sha512(content).hexdigest()}  {FILE}\n".encode()


def read(content: bytes, beside: bytes, site: str) -> Inventory:
    """Read an inventory.

    Args:
        content: inventory.json.
        beside: the file that holds its digest.
        site: the site whose it should be.

    Raises:
        Damaged: the digest is another, it is no inventory, or it is another site's.
    """
    if beside.split()[:1] != [sha512(content).hexdigest().encode()]:
        raise Damaged(f"The inventory of {site} is not the one that was written: its digest is another.")
    try:
        found = _read(json.loads(content))
    except (ValueError, KeyError, TypeError, AttributeError, RecursionError) as error:
        raise Damaged(f"The inventory of {site} cannot be read: {error}.") from error
    if found.site != site:
        raise Damaged(f"The inventory in the folder of {site} is that of {found.site}.")
    return found


def _read(plain: Any) -> Inventory:
    """Read parsed JSON, or fail."""
    if plain["type"] != TYPE or plain["digestAlgorithm"] != "sha512":
        raise ValueError("it is of another version of the standard, or has other digests")
    number = len(plain["versions"])
    if plain["head"] != f"v{number}":
        raise ValueError("its versions are not numbered from 1 to its head")
    manifest = {digest: tuple(paths) for digest, paths in plain["manifest"].items()}
    blocks = tuple(_read_block(plain["versions"][f"v{one}"]) for one in range(1, number + 1))
    used = {digest for block in blocks for digest in block.state.values()}
    if not used or not used <= manifest.keys() or not all(map(_DIGEST.fullmatch, manifest)):
        raise ValueError("it names a file that it does not list")
    if not all(map(_lies_inside, (path for paths in manifest.values() for path in paths))):
        raise ValueError("it lists a file outside the site's folder")
    return Inventory(plain["id"], manifest, blocks)


def _read_block(plain: Any) -> Block:
    created = datetime.fromisoformat(plain["created"])
    if created.tzinfo is None:
        raise ValueError("a version was made at a time without a zone")
    state = {path: digest for digest, paths in plain["state"].items() for path in paths}
    message, user = plain.get("message", ""), plain.get("user", {}).get("name", "")
    if not all(isinstance(text, str) for text in (message, user, *state)):
        raise ValueError("a version is not told in text")
    return Block(created, message, user, state)


def _lies_inside(path: str) -> bool:
    parts = path.split("/")
    return re.fullmatch(r"v[0-9]+", parts[0]) is not None and not {"", ".", ".."} & set(parts)
