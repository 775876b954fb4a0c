"""Where the files of earlier versions lie, and copies of them to work on."""

import shutil
from pathlib import Path

KEPT = Path(__file__).parent / "0.2.0"
PACKS = (*sorted(KEPT.rglob("*.pdf")),)
"""Every pack that was kept, filed or bare."""


def copied(name: str, to: Path) -> Path:
    """Copy a folder of the kept files, so that nothing is written beside them."""
    return Path(shutil.copytree(KEPT / name, to / name))
