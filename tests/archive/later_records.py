"""Later records as somebody would write them years after the handover."""

from pathlib import Path

CLAIM = """\
kind: claim
id: claim-2036-1
site: alder-yard
mark: A-1
at: 2036-02-11T10:30+01:00
by: Edda Blendrahmen, caretaker
found: water on the sill board at the left
photos: [{file: sill.jpg, shows: stain}]
"""
REPAIR = """\
kind: repair
id: repair-2036-1
site: alder-yard
mark: B-1
at: 2036-03-01T08:00+01:00
by: Ben, Reveal & Sons (invented)
done: outer tape replaced
"""
REMEASUREMENT = """\
site: alder-yard
mark: A-1
by: cleo
at: 2026-11-24T10:00+01:00
readings:
  survey: {widths_mm: {top: 902}, photos: [{file: top.jpg}, {file: again/left.jpg}]}
"""


def written(folder: Path, text: str, *changes: tuple[str, str], name: str = "later.yaml") -> Path:
    """Write a later record with texts replaced."""
    for old, new in changes:
        assert text.count(old) == 1
        text = text.replace(old, new)
    folder.mkdir(parents=True, exist_ok=True)
    (folder / name).write_text(text, encoding="utf-8")
    return folder / name
