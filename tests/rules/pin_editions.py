"""Digests of the shipped editions, so that none can change in silence.

An edition that is finished is pinned, once and for all, by

    PYTHONPATH=src python -m tests.rules.pin_editions

which adds those that are not pinned yet and never touches a line that is there.
"""

from hashlib import sha256
from pathlib import Path

from revealbook.rules.read import set_files, shipped_sets

PINNED = Path(__file__).with_name("editions.txt")


def digest(folder: Path) -> str:
    """SHA-256 over digests and names of an edition's files."""
    lines = (f"{sha256(file.raw).hexdigest()}  {file.name}\n" for file in set_files(folder))
    return sha256("".join(sorted(lines)).encode()).hexdigest()


def pinned() -> dict[str, str]:
    """The pinned digests by SET/EDITION."""
    lines = (line.split() for line in PINNED.read_text(encoding="utf-8").splitlines())
    return {name: pin for pin, name in lines}


def shipped() -> dict[str, Path]:
    """The folders of all shipped editions by SET/EDITION."""
    return {
        f"{name}/{edition}": folder
        for name, editions in shipped_sets().items()
        for edition, folder in editions.items()
    }


if __name__ == "__main__":
    new = {name: digest(folder) for name, folder in shipped().items() if name not in pinned()}
    with PINNED.open("a", encoding="utf-8") as file:
        file.writelines(f"{pin}  {name}\n" for name, pin in new.items())
    print("\n".join(f"pinned: {name}" for name in new) or "every shipped edition is pinned")
