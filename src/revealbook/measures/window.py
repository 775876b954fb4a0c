"""Readings of the window as set: place, plumb, fixings, joints."""

from collections.abc import Iterator
from itertools import pairwise
from math import inf

from revealbook.measures.arch import head_length_mm, rise_at
from revealbook.measures.left_out import standing
from revealbook.measures.physics.squareness import lateral_rack_mm
from revealbook.measures.reading import Detail, Missing, Outcome, Path, Reading
from revealbook.measures.tapes import of_kind
from revealbook.measures.work import Work, each, one

SIDES = ("left", "right", "bottom", "top")
Placed = tuple[float, Path]
_LENGTH_OF = {"left": "height_mm", "right": "height_mm", "bottom": "width_mm", "top": "width_mm"}


def slope(work: Work, off_key: str, size_key: str) -> Iterator[Outcome]:
    """Deviation of the window from plumb or level in mm per metre of its height or width.

    A shorter side is reckoned as the method's least length.
    """
    path = ("window", off_key)
    off, size = work.look(*path), work.look("window", size_key)
    if off is None or size is None:
        key = off_key if off is None else size_key
        yield Missing((), key, ("window", key))
        return
    spread = work.uncertainty("window", "deviation")
    details: tuple[Detail, ...] = (
        Detail(off_key, off, "mm", path),
        Detail(size_key, size, "mm", ("window", size_key)),
    )
    per_m = 1000 / (over := work.sloping_over(size))
    details += (Detail("slope_over_mm", over, "mm"),) if over != size else ()
    yield Reading((), off * per_m, path, None if spread is None else spread * per_m, details)


def rack(work: Work) -> Iterator[Outcome]:
    """Out of square of the window as set: sideways shift of its head against its sill, mm."""
    path = ("window", "diagonals_mm")
    known = {
        "width_mm": (work.look("window", "width_mm"), ("window", "width_mm")),
        "rising": (work.look(*path, "rising"), (*path, "rising")),
        "falling": (work.look(*path, "falling"), (*path, "falling")),
    }
    for key, (value, place) in known.items():
        if value is None:
            yield Missing((), key, place)
            return
    width, rising, falling = (value for value, _ in known.values())
    try:
        shift = abs(lateral_rack_mm(rising, falling, width))
    except ValueError:
        yield Missing((), "diagonals_fit_no_window", path)
        return
    details = (
        Detail("rising_mm", rising, "mm", (*path, "rising")),
        Detail("falling_mm", falling, "mm", (*path, "falling")),
    )
    tape = work.uncertainty("window", "length", 2)
    spread = None if tape is None else tape * (rising + falling) / (4 * width)
    yield Reading((), shift, (*path, "rising"), spread, details)


def _sides(work: Work) -> Iterator[tuple[str, list[Placed]] | Missing]:
    """Positions of each side's fixings, over all its sets, in rising order, each with its place."""
    sets = each(work, "window", "fixings")
    if isinstance(sets, Missing):
        yield sets
        return
    listed = [(fixings.side, fixings.at_mm, number) for number, fixings in sets]
    aside = next((number for side, _, number in listed if side is None), None)
    if aside is not None:  # it may belong to any side
        yield Missing((f"set {aside + 1}",), "side", ("window", "fixings", aside, "side"))
        return
    for side in SIDES:
        found = [(positions, number) for at, positions, number in listed if at == side]
        if not found and not standing(work, (side,)):
            continue  # no piece of the mounting frame to fix this side to
        if not found or any(positions is None for positions, _ in found):
            yield Missing((side,), "at_mm", ("window", "fixings"))
        else:
            yield side, sorted(placed for positions, number in found for placed in _placed(positions, number))


def _placed(positions: tuple[float, ...], number: int) -> Iterator[Placed]:
    for index, at in enumerate(positions):
        yield at, ("window", "fixings", number, "at_mm", index)


def fixing_centres(work: Work) -> Iterator[Outcome]:
    """Distance between neighbouring fixings of the window on each side, mm; without any, endless."""
    for found in _sides(work):
        if isinstance(found, Missing):
            yield found
            continue
        side, placed = found
        spread = work.uncertainty("window", "length", 2)
        if not placed:
            yield Reading((side,), inf, ("window", "fixings"))
        for number, ((here, _), (there, path)) in enumerate(pairwise(placed), start=1):
            details = (Detail("from_mm", here, "mm"), Detail("to_mm", there, "mm"))
            yield Reading((side, f"fixing {number}-{number + 1}"), there - here, path, spread, details)


def side_lengths(work: Work) -> Iterator[Outcome]:
    """Outer length of each side of the window, by the subjects of its two ends, mm."""
    for side in SIDES:
        for end in ("first_end", "last_end"):
            yield one(work, (side, end), ("window", _LENGTH_OF[side]))


def fixing_corner_distances(work: Work) -> Iterator[Outcome]:
    """Distance from the window's corners to the first and last fixing of each side, mm."""
    for found in _sides(work):
        if isinstance(found, Missing):
            yield found
            continue
        side, placed = found
        if not placed:
            yield Reading((side, "first_end"), inf, ("window", "fixings"))
            continue
        (first, first_path), (last, last_path) = placed[0], placed[-1]
        yield Reading((side, "first_end"), first, first_path, work.uncertainty("window", "length"))
        size_key = _LENGTH_OF[side]
        size = _length(work, side)
        if size is None:
            yield Missing((side, "last_end"), size_key, ("window", size_key))
            continue
        details = (Detail("fixing_mm", last, "mm"), Detail(size_key, size, "mm", ("window", size_key)))
        spread = work.uncertainty("window", "length", 2)
        yield Reading((side, "last_end"), size - last, last_path, spread, details)


def _length(work: Work, side: str) -> float | None:
    """Length of a side of the window, mm: along an arched head, and up to its springing beside it."""
    if side == "top":
        return head_length_mm(work)
    size, below = work.look("window", _LENGTH_OF[side]), rise_at(work, side)
    if size is None or side == "bottom":
        return None if size is None else float(size)
    return None if isinstance(below, Missing) else float(size - below)


def per_fixing_set(work: Work, key: str) -> Iterator[Outcome]:
    """What was recorded under `key` of the window's fixings on each side; of none, nothing is shown."""
    for number, side in _sets(work):
        yield one(work, (side,), ("window", "fixings", number, key))
    if not work.look("window", "fixings"):
        yield Missing((), "fixings", ("window", "fixings"))


def _sets(work: Work) -> Iterator[tuple[int, str]]:
    for number, fixings in enumerate(work.look("window", "fixings") or ()):
        yield number, fixings.side or f"set {number + 1}"


def fixing_length_margin(work: Work) -> Iterator[Outcome]:
    """By how much the window's fixings are longer than their data sheet's, mm; negative if shorter."""
    for number, side in _sets(work):
        path: Path = ("window", "fixings", number)
        length = work.look(*path, "length_mm")
        asked = getattr(work.product("fixings", work.look(*path, "product")), "length_mm", None)
        if length is None:
            yield Missing((side,), "length_mm", (*path, "length_mm"))
        elif asked is None:
            yield Missing((side,), "data_sheet_length_mm", (*path, "product"))
        else:
            details = (
                Detail("length_mm", length, "mm", (*path, "length_mm")),
                Detail("data_sheet_length_mm", asked, "mm"),
            )
            yield Reading((side,), length - asked, (*path, "length_mm"), None, details)
    if not work.look("window", "fixings"):
        yield Missing((), "fixings", ("window", "fixings"))


def through_frame(work: Work) -> Iterator[Outcome]:
    """Whether the window is fixed by screws through its frame."""
    way = work.look("window", "fixed_by")
    path = ("window", "fixed_by")
    yield (
        Missing((), "fixed_by", path) if way is None else Reading((), way == "screws through the frame", path)
    )


def joint_margin(work: Work) -> Iterator[Outcome]:
    """By how much each joint width lies inside what every foam used may fill, mm."""
    range_mm = _joint_range(work)
    for side in SIDES:
        yield from inside_range(work, side, range_mm)


def inside_range(work: Work, side: str, range_mm: tuple[float, float] | Missing) -> Iterator[Outcome]:
    """By how much the joint's widths on a side lie inside what its filling may fill, mm.

    Args:
        work: the opening.
        side: the side.
        range_mm: the narrowest and the widest joint that may be filled, or what is missing for it.
    """
    for place in ("start", "middle", "end"):
        subject, path = (side, f"joint_{place}"), ("window", "joint_widths_mm", side, place)
        width = work.look(*path)
        if width is None:
            yield Missing(subject, place, path)
        elif isinstance(range_mm, Missing):
            yield range_mm._replace(subject=subject)
        else:
            narrow, wide = range_mm
            near = narrow if width - narrow <= wide - width else wide
            details = (
                Detail("joint_width_mm", width, "mm", path),
                Detail("joint_min_mm" if near == narrow else "joint_max_mm", near, "mm"),
            )
            margin = min(width - narrow, wide - width)
            yield Reading(subject, margin, path, work.uncertainty("window", "length"), details)


def _joint_range(work: Work) -> tuple[float, float] | Missing:
    """Give the narrowest and widest joint that all foams used may fill, mm."""
    foams = of_kind(work, "foam")
    if isinstance(foams, Missing):
        return foams
    ends: dict[str, list[float]] = {"joint_min_mm": [], "joint_max_mm": []}
    for event, path in foams:
        product = work.product("foams", event.product)
        for key, found in ends.items():
            end = getattr(product, key, None)
            if end is None:
                return Missing((), key, (*path, "product"))
            found.append(end)
    return max(ends["joint_min_mm"]), min(ends["joint_max_mm"])
