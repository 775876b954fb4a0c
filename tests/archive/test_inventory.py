"""The inventory: written one way, read only if it is what was written."""

import json
from collections.abc import Callable
from datetime import datetime
from hashlib import sha512
from typing import Any

import pytest

from revealbook.archive.inventory import FILE, Block, Inventory, read, sidecar, write
from revealbook.archive.refusal import Damaged

ONE, TWO = "1" * 128, "2" * 128
WHEN = datetime.fromisoformat("2026-12-01T09:00:00+01:00")
FIRST = Block(WHEN, "filed", "Ada", {"a.txt": ONE, "b.txt": ONE})
SECOND = Block(WHEN, "again", "Ben", {"a.txt": TWO})
INVENTORY = Inventory("s", {ONE: ("v1/content/a.txt",), TWO: ("v2/content/a.txt",)}, (FIRST, SECOND))


def test_what_is_written_is_read_again() -> None:
    content = write(INVENTORY)
    assert read(content, sidecar(content), "s") == INVENTORY


def test_an_inventory_is_written_as_the_standard_asks() -> None:
    said = json.loads(write(INVENTORY))
    assert {key: said[key] for key in ("id", "type", "digestAlgorithm", "head")} == {
        "id": "s", "type": "https://ocfl.io/1.1/spec/#inventory", "digestAlgorithm": "sha512", "head": "v2",
    }  # fmt: skip
    assert said["manifest"] == {ONE: ["v1/content/a.txt"], TWO: ["v2/content/a.txt"]}
    assert said["versions"]["v1"] == {
        "created": "2026-12-01T09:00:00+01:00",
        "message": "filed",
        "user": {"name": "Ada"},
        "state": {ONE: ["a.txt", "b.txt"]},
    }


def test_the_order_in_which_files_came_changes_no_byte() -> None:
    other = Block(WHEN, "filed", "Ada", {"b.txt": ONE, "a.txt": ONE})
    manifest = {TWO: ("v2/content/a.txt",), ONE: ("v1/content/a.txt",)}
    assert write(Inventory("s", manifest, (other, SECOND))) == write(INVENTORY)


def test_the_file_beside_it_is_what_sha512sum_writes() -> None:
    assert sidecar(b"x") == f"{sha512(b'x').hexdigest()}  {FILE}\n".encode()


@pytest.mark.parametrize("beside", [b"", b"\n", sidecar(b"other"), b"inventory.json"])
def test_another_digest_is_damage(beside: bytes) -> None:
    with pytest.raises(Damaged, match="The inventory of s is not the one that was written"):
        read(write(INVENTORY), beside, "s")


def test_another_sites_inventory_is_damage() -> None:
    content = write(INVENTORY)
    with pytest.raises(Damaged, match="in the folder of t is that of s"):
        read(content, sidecar(content), "t")


def without(key: str) -> Callable[[Any], object]:
    return lambda plain: plain.pop(key)


def put(*path: str, value: object) -> Callable[[Any], object]:
    def change(plain: Any) -> None:
        for key in path[:-1]:
            plain = plain[key]
        plain[path[-1]] = value

    return change


@pytest.mark.parametrize(
    "change",
    [
        *(without(key) for key in ("id", "type", "digestAlgorithm", "head", "manifest", "versions")),
        put("type", value="https://ocfl.io/1.0/spec/#inventory"),
        put("digestAlgorithm", value="md5"),
        put("head", value="v1"),
        put("versions", value={}),
        put("versions", value=[]),
        put("versions", "v3", value={}),
        put("versions", "v1", "created", value="2026-12-01T09:00:00"),
        put("versions", "v1", "created", value="yesterday"),
        put("versions", "v1", "message", value=3),
        put("versions", "v1", "state", value={"3" * 128: ["a.txt"]}),
        put("versions", "v1", "state", value=None),
        put("versions", "v1", "user", value="Ada"),
        put("manifest", value={ONE: ["v1/content/a.txt"]}),
        put("manifest", "abc", value=["v1/content/c.txt"]),
        put("manifest", ONE, value=["../../etc/passwd"]),
        put("manifest", ONE, value=["v1/../../x"]),
        put("manifest", ONE, value=["/etc/passwd"]),
    ],
)
def test_what_is_no_inventory_of_ours_is_damage_even_with_its_digest(change: Callable[[Any], object]) -> None:
    plain = json.loads(write(INVENTORY))
    change(plain)
    content = json.dumps(plain).encode()
    with pytest.raises(Damaged, match="The inventory of s cannot be read"):
        read(content, sidecar(content), "s")


@pytest.mark.parametrize("content", [b"", b"null", b"[]", b"{", b"\xff", b"[" * 100_000])
def test_what_is_no_json_is_damage(content: bytes) -> None:
    with pytest.raises(Damaged, match="The inventory of s cannot be read"):
        read(content, sidecar(content), "s")


def test_user_and_message_may_lack_as_the_standard_allows() -> None:
    plain = json.loads(write(INVENTORY))
    del plain["versions"]["v1"]["user"], plain["versions"]["v1"]["message"]
    content = json.dumps(plain).encode()
    found = read(content, sidecar(content), "s").blocks[0]
    assert (found.user, found.message, found.state) == ("", "", FIRST.state)
