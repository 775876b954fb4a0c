"""What a file of the archive holds, from its place in it."""

from dataclasses import replace
from pathlib import PurePosixPath

from revealbook.archive.inventory import Inventory
from revealbook.present.faults import Held
from revealbook.present.words import N_

_KINDS = {
    "packs": N_("pack {name}"),
    "openings": N_("record of opening {name}"),
    "photos": N_("photograph {name}"),
    "findings": N_("findings of pack {name}"),
    "rules": N_("the site's own rules {name}"),
    "rule_sets": N_("rules {name}"),
    "afterwards": N_("later record {name}"),
}
_FILES = {
    "site.yaml": N_("the site file"),
    "filing.json": N_("who filed what"),
    "facts.json": N_("facts for looking up"),
}
_WITHOUT_ENDING = frozenset({"openings", "findings", "afterwards"})


def holds(inventory: Inventory, content: str) -> tuple[Held, ...]:
    """Give what a content file holds, and in which versions; nothing if nothing refers to it.

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
    return tuple(replace(kind(path), versions=tuple(versions[path])) for path in sorted(versions))


def kind(path: str) -> Held:
    """Give what a file is from its logical path, as the record of opening W-2.07."""
    if path in _FILES:
        return Held(_FILES[path])
    folder, _, name = path.partition("/")
    if folder not in _KINDS:
        return Held("{name}", path)
    shown = PurePosixPath(name).with_suffix("").as_posix() if folder in _WITHOUT_ENDING else name
    return Held(_KINDS[folder], shown)
