"""Copies of the conforming site, changed as text, as somebody at the scaffold would change them."""

import shutil
from pathlib import Path

CONFORMING = Path(__file__).parent / "conforming"
RECORD = Path("openings") / "W-1.01.yaml"


def conforming(to: Path) -> Path:
    """Copy the conforming site to a folder."""
    return Path(shutil.copytree(CONFORMING, to))


def change(file: Path, old: str, new: str) -> None:
    """Replace a text in a file that holds it once."""
    text = file.read_text(encoding="utf-8")
    assert text.count(old) == 1, f"{old!r} stands {text.count(old)} times in {file.name}"
    file.write_text(text.replace(old, new), encoding="utf-8")


def opening(site: Path, mark: str, *changes: tuple[str, str]) -> Path:
    """Add an opening: the conforming record under another mark, with texts replaced."""
    file = site / "openings" / f"{mark}.yaml"
    shutil.copy(CONFORMING / RECORD, file)
    for old, new in (("mark: W-1.01\n", f"mark: {mark}\n"), *changes):
        change(file, old, new)
    return file


SHORT_OVERLAP = (
    "length_mm: 2565\n      overlap_left_mm: 82\n",
    "length_mm: 2565\n      overlap_left_mm: 62\n",
)
"""The bottom piece's left end runs 62 mm past the opening."""
EARLY_TRIM = ("at: 2026-11-20T15:30+01:00, by: ada}", "at: 2026-11-20T12:00+01:00, by: ada}")
"""The foam is trimmed an hour after it was filled in."""
NOT_SOUND = ("  sound: true\n", "  sound:\n")
"""Nobody says whether the substrate is sound."""
