"""Readings of the opening and its substrate."""

from collections.abc import Iterator
from typing import Literal

from revealbook.measures.arch import rise_at
from revealbook.measures.bonding import adhesives
from revealbook.measures.physics.squareness import lateral_rack_mm
from revealbook.measures.physics.tolerances import interpolated_flatness_mm
from revealbook.measures.reading import Detail, Missing, Outcome, Reading
from revealbook.measures.work import Work, one
from revealbook.records.products import Adhesive

Direction = Literal["widths_mm", "heights_mm"]
FINISHED_WALLS = 6
"""Line of DIN 18202 table 3."""
_NOMINAL = {"widths_mm": "width_mm", "heights_mm": "height_mm"}
_PLACES = {"widths_mm": ("top", "middle", "bottom"), "heights_mm": ("left", "middle", "right")}


def size_deviation(work: Work, direction: Direction) -> Iterator[Outcome]:
    """How far each measured width or height is from the nominal size, mm, without sign."""
    nominal = work.look("opening", _NOMINAL[direction])
    for place in _PLACES[direction]:
        subject, path = (place,), ("survey", direction, place)
        measured = work.look(*path)
        below_crown = rise_at(work, place) if direction == "heights_mm" else 0.0
        if isinstance(below_crown, Missing):
            yield below_crown
        elif nominal is None:
            yield Missing(subject, _NOMINAL[direction], ("opening", _NOMINAL[direction]))
        elif measured is None:
            yield Missing(subject, place, path)
        else:
            details = (
                Detail("measured_mm", measured, "mm", path),
                Detail("nominal_mm", nominal - below_crown, "mm", ("opening", _NOMINAL[direction])),
            )
            deviation = abs(measured - nominal + below_crown)
            yield Reading(subject, deviation, path, work.uncertainty("survey", "length"), details)


def width_deviation(work: Work) -> Iterator[Outcome]:
    """Deviation of the opening's width at three heights from its nominal width, mm."""
    return size_deviation(work, "widths_mm")


def height_deviation(work: Work) -> Iterator[Outcome]:
    """Deviation of the opening's height at three places from its nominal height, mm."""
    return size_deviation(work, "heights_mm")


def height_difference(work: Work) -> Iterator[Outcome]:
    """Difference between the opening's height at its left and its right side, mm."""
    paths = (("survey", "heights_mm", "left"), ("survey", "heights_mm", "right"))
    left, right = (work.look(*path) for path in paths)
    if left is None or right is None:
        yield Missing((), "left" if left is None else "right", paths[0] if left is None else paths[1])
        return
    details = (Detail("left_mm", left, "mm", paths[0]), Detail("right_mm", right, "mm", paths[1]))
    yield Reading((), abs(left - right), paths[1], work.uncertainty("survey", "length", 2), details)


def opening_rack(work: Work) -> Iterator[Outcome]:
    """Out of square of the opening: sideways shift of its head against its sill, mm, from both diagonals."""
    path = ("survey", "diagonals_mm")
    width, rising = work.look("opening", "width_mm"), work.look(*path, "rising")
    falling = work.look(*path, "falling")
    known = {"width_mm": width, "rising": rising, "falling": falling}
    for key, value in known.items():
        if value is None:
            yield Missing((), key, ("opening", key) if key == "width_mm" else (*path, key))
            return
    try:
        rack = abs(lateral_rack_mm(rising, falling, width))
    except ValueError:
        yield Missing((), "diagonals_fit_no_opening", path)
        return
    details = (
        Detail("rising_mm", rising, "mm", (*path, "rising")),
        Detail("falling_mm", falling, "mm", (*path, "falling")),
    )
    each = work.uncertainty("survey", "length", 2)
    # s = (d1^2 - d2^2) / (4 w): both diagonals enter with the weight d / (2 w)
    spread = None if each is None else each * (rising + falling) / (4 * width)
    yield Reading((), rack, (*path, "rising"), spread, details)


def flatness(work: Work) -> Iterator[Outcome]:
    """Largest gap under the straightedge along the bonding area, mm."""
    yield one(work, (), ("survey", "out_of_flat_mm"), "length")


def flatness_reserve(work: Work) -> Iterator[Outcome]:
    """By how much the gap stays inside DIN 18202 table 3 line 6, read between its columns, mm."""
    gap, length = work.look("survey", "out_of_flat_mm"), work.look("survey", "straightedge_mm")
    if gap is None or length is None:
        key = "out_of_flat_mm" if gap is None else "straightedge_mm"
        yield Missing((), key, ("survey", key))
        return
    allowed = interpolated_flatness_mm(FINISHED_WALLS, length)
    path = ("survey", "out_of_flat_mm")
    if allowed is None:
        yield Missing((), "beyond_last_step", ("survey", "straightedge_mm"))
        return
    details = (Detail("gap_mm", gap, "mm", path), Detail("tolerance_mm", allowed, "mm"))
    yield Reading((), allowed - gap, path, work.uncertainty("survey", "length"), details)


def straightedge(work: Work) -> Iterator[Outcome]:
    """Length of the straightedge that flatness was read with, mm."""
    yield one(work, (), ("survey", "straightedge_mm"))


def wall_plumb(work: Work) -> Iterator[Outcome]:
    """Largest deviation of the wall face from plumb over the opening's height, mm."""
    yield one(work, (), ("survey", "out_of_plumb_mm"), "deviation")


def nominal_width(work: Work) -> Iterator[Outcome]:
    """Nominal clear width, mm."""
    yield one(work, (), ("opening", "width_mm"))


def nominal_height(work: Work) -> Iterator[Outcome]:
    """Nominal clear height, mm."""
    yield one(work, (), ("opening", "height_mm"))


_MINERAL = ("concrete", "solid masonry", "hollow masonry", "aerated concrete")
"""Substrates that an adhesive's plain moisture limit is about."""


def moisture_margin(work: Work) -> Iterator[Outcome]:
    """By how much the substrate is drier than the maker of each adhesive used asks, % by mass.

    A limit stated for the substrate goes first; the plain one is that of mineral substrates. Steel takes up
    no moisture and has no reading.
    """
    path = ("survey", "moisture_pct")
    moisture = work.look(*path)
    if work.method.computations > 1 and work.look("survey", "substrate") == "steel":
        return
    used = adhesives(work)
    for adhesive, product in used:
        subject = () if len(used) == 1 else (str(work.look(*product) or ""),)
        allowed = moisture_limit(work, adhesive)
        if moisture is None:
            yield Missing(subject, "moisture_pct", path)
        elif isinstance(allowed, str):
            yield Missing(subject, allowed, ("survey", allowed) if allowed == "substrate" else product)
        else:
            details = (Detail("moisture_pct", moisture, "%", path), Detail("moisture_max_pct", allowed, "%"))
            yield Reading(subject, allowed - moisture, path, None, details)


def moisture_limit(work: Work, adhesive: Adhesive | None) -> float | str:
    """Give the highest moisture that an adhesive allows on this substrate, or what is missing for it."""
    plain = adhesive.moisture_max_pct if adhesive else None
    if work.method.computations == 1:
        return "moisture_max_pct" if plain is None else plain
    substrate = work.look("survey", "substrate")
    if substrate is None:
        return "substrate"
    stated = (adhesive.moisture_limits if adhesive else None) or ()
    own = [limit.max_pct for limit in stated if limit.substrate == substrate]
    if own:
        return min(own)
    if substrate not in _MINERAL:
        return "moisture_limit_of_substrate"
    return "moisture_max_pct" if plain is None else plain


def brushed_as_asked(work: Work) -> Iterator[Outcome]:
    """Whether the bonding area was brushed dry, where the data sheet of any adhesive used asks for that.

    Brushing dry or damp is a choice otherwise, and has no reading.
    """
    brushed, place = work.look("survey", "brushed"), ("survey", "brushed")
    used = adhesives(work)
    unknown = next((product for adhesive, product in used if adhesive is None), None)
    if unknown is not None:
        yield Missing((), "product", unknown)
    elif any(adhesive.needs_dry_brushing for adhesive, _ in used if adhesive):
        yield Missing((), "brushed", place) if brushed is None else Reading((), brushed == "dry", place)


def primer_asked_for(work: Work) -> Iterator[Outcome]:
    """Whether the maker of any adhesive used asks for a primer."""
    asked = [(getattr(adhesive, "needs_primer", None), path) for adhesive, path in adhesives(work)]
    value, path = next((one for wanted in (True, None) for one in asked if one[0] is wanted), asked[0])
    yield Missing((), "needs_primer", path) if value is None else Reading((), value, path)
