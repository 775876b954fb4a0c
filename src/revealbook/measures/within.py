"""What must lie inside something else: supports inside the piece, glass and foam inside the window."""

from collections.abc import Iterator
from math import hypot

from revealbook.measures.reading import Detail, Missing, Outcome, Path, Reading
from revealbook.measures.tapes import of_kind
from revealbook.measures.work import Work, each, lacking

BOTTOM: Path = ("frame", "pieces", "bottom", "length_mm")
DEPTH: Path = ("window", "frame_depth_mm")
_MM2_IN_M2 = 1e6


def support_end_margin(work: Work) -> Iterator[Outcome]:
    """From each end of each support to the end of the bottom piece, mm; negative if it stands out past it."""
    placed = each(work, "supports", "placed")
    if isinstance(placed, Missing):
        yield placed
        return
    for number, support in placed:
        subject, path = (f"support {number + 1}",), ("supports", "placed", number)
        if missing := lacking(work, subject, (*path, "centre_mm"), (*path, "length_mm"), BOTTOM):
            yield from missing
            continue
        half, whole, place = support.length_mm / 2, work.look(*BOTTOM), (*path, "centre_mm")
        details = (
            Detail("centre_mm", support.centre_mm, "mm", place),
            Detail("length_mm", support.length_mm, "mm", (*path, "length_mm")),
            Detail("bottom_mm", whole, "mm", BOTTOM),
        )
        own, frame = work.uncertainty("supports", "length", 1), work.uncertainty("frame", "length")
        near = None if own is None else hypot(own, own / 2)
        far = None if near is None or frame is None else hypot(near, frame)
        yield Reading((*subject, "first_end"), support.centre_mm - half, place, near, details)
        yield Reading((*subject, "last_end"), whole - support.centre_mm - half, place, far, details)


def glass_share(work: Work) -> Iterator[Outcome]:
    """Area of the glass as a share of the window's outer area, -; above 1 it is larger than the window."""
    paths: list[Path] = [("window", key) for key in ("glass_area_m2", "width_mm", "height_mm")]
    if missing := lacking(work, (), *paths):
        yield from missing
        return
    glass, width, height = (work.look(*path) for path in paths)
    details = (
        Detail("glass_area_m2", glass, "m2", paths[0]),
        Detail("width_mm", width, "mm", paths[1]),
        Detail("height_mm", height, "mm", paths[2]),
    )
    yield Reading((), glass * _MM2_IN_M2 / (width * height), paths[0], None, details)


def foam_depth_shortfall(work: Work) -> Iterator[Outcome]:
    """Depth of the window's frame less that of each filling with foam, mm; negative if the foam is deeper."""
    foams = of_kind(work, "foam")
    if isinstance(foams, Missing):
        yield foams
        return
    for _, path in foams:
        here = (*path, "joint_depth_mm")
        if missing := lacking(work, ("foam",), here, DEPTH):
            yield from missing
            continue
        filled, depth = work.look(*here), work.look(*DEPTH)
        details = (
            Detail("joint_depth_mm", filled, "mm", here),
            Detail("frame_depth_mm", depth, "mm", DEPTH),
        )
        foam, frame = work.uncertainty("seals", "length"), work.uncertainty("window", "length")
        spread = None if foam is None or frame is None else hypot(foam, frame)
        yield Reading(("foam",), depth - filled, here, spread, details)
