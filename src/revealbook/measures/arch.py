"""An arched head: what of lengths, heights and outlines differs from a straight one.

Heights at the jambs and both diagonals are taken up to the springing, the height in the middle up to the
crown.
"""

from collections.abc import Iterator

from revealbook.measures.physics.arc import arc_length_mm
from revealbook.measures.reading import Detail, Missing, Outcome, Path, Reading
from revealbook.measures.work import Work, lacking

HEAD: Path = ("survey", "head")
RISE: Path = (*HEAD, "rise_mm")
_SURVEYED: Path = ("survey", "widths_mm", "top")


def is_arched(work: Work) -> bool:
    """Whether the opening's head is said to be an arch."""
    return work.look(*HEAD, "shape") in {"segmental arch", "semicircular arch"}


def arched_head(work: Work) -> Iterator[Outcome]:
    """Whether the opening's head is an arch."""
    yield Reading((), is_arched(work), (*HEAD, "shape"))


def rise_at(work: Work, place: str) -> float | Missing:
    """Give by how much the height at a place (left, middle, right) ends below the crown, mm."""
    if not is_arched(work) or place == "middle":
        return 0.0
    rise = work.look(*RISE)
    return Missing((place,), "rise_mm", RISE) if rise is None else float(rise)


def arch_reach(work: Work) -> Iterator[Outcome]:
    """By how much the top piece, along its lower edge, is longer than the arch of the opening, mm."""
    length_path: Path = ("frame", "pieces", "top", "length_mm")
    missing = lacking(work, ("top",), length_path, _SURVEYED, RISE)
    if missing:
        yield from missing
        return
    length = work.look(*length_path)
    try:
        arc = arc_length_mm(work.look(*_SURVEYED), work.look(*RISE))
    except ValueError:
        yield Missing(("top",), "higher_than_semicircle", RISE)
        return
    details = (Detail("length_mm", length, "mm", length_path), Detail("arc_mm", arc, "mm", RISE))
    yield Reading(("top",), length - arc, length_path, work.uncertainty("frame", "length"), details)


def head_length_mm(work: Work) -> float | None:
    """Give the length of the window's head along its outer edge, mm; None if it cannot be told.

    The window's rise stands to the opening's as their widths do.
    """
    width, clear, rise = work.look("window", "width_mm"), work.look(*_SURVEYED), work.look(*RISE)
    if not is_arched(work) or width is None:
        return None if width is None else float(width)
    if clear is None or rise is None:
        return None
    try:
        return arc_length_mm(width, rise * width / clear)
    except ValueError:
        return None
