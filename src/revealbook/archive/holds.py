"""What a file of the archive holds, in words, so that a damaged one means something to a person."""

from pathlib import PurePosixPath

from revealbook.archive.inventory import Inventory

_KINDS = {
    "packs": "pack",
    "openings": "record of opening",
    "photos": "photograph",
    "findings": "findings of pack",
    "rules": "the site's own rules",
    "rule_sets": "rules",
    "afterwards": "later record",
}
_FILES = {
    "site.yaml": "the site file",
    "filing.json": "who filed what",
    "facts.json": "facts for looking up",
}
_WITHOUT_ENDING = frozenset({"openings", "findings", "afterwards"})


def holds(inventory: Inventory, content: str) -> str:
    """Say what a content file holds, and in which versions; empty if nothing refers to it.

    Args:
        inventory: the site's inventory.
        content: the file's path below the site's folder.
    """
    digest = next((digest for digest, paths in inventory.manifest.items() if content in paths), "")
    versions: dict[str, list[int]] = {}
    for number, block in enumerate(inventory.blocks, 1):
        for path, held in block.state.items():
            if held == digest:
                versions.setdefault(path, []).append(number)
    return "; ".join(f"{kind(path)}, {_in_versions(versions[path])}" for path in sorted(versions))


def kind(path: str) -> str:
    """Say what a file is from its logical path: `record of opening W-2.07`."""
    if path in _FILES:
        return _FILES[path]
    folder, _, name = path.partition("/")
    if folder not in _KINDS:
        return path
    shown = PurePosixPath(name).with_suffix("").as_posix() if folder in _WITHOUT_ENDING else name
    return f"{_KINDS[folder]} {shown}"


def _in_versions(numbers: list[int]) -> str:
    if len(numbers) == 1:
        return f"version {numbers[0]}"
    if numbers == list(range(numbers[0], numbers[-1] + 1)):
        return f"versions {numbers[0]} to {numbers[-1]}"
    return f"versions {', '.join(map(str, numbers))}"
