"""Loads of the window on supports and fixings: its weight standing out from the wall, and wind suction.

The model, on the safe side where it simplifies:

* The weight G stands on the bottom piece. Its fixings, and those of supports recorded as fixed, share it
  alike: V = G / n, and T = M / (n z) for the moment M = G e. The piece presses on the wall at its lower
  edge, so z is half the profile's width. Bond, corner joints and fixings at the sides are not counted on.
* Suction pulls on all four pieces. Each carries a strip of half the window's shorter side, so that all strips
  together are more than the window; a fixing holds the strip half way to its neighbours.
* Partial factors and the interaction of tension and shear are those of the method.

Indicative only: loads defer to local codes, the supplier's written instructions and a licensed engineer.
"""

from collections.abc import Iterator
from typing import NamedTuple

from revealbook.measures.fixing_lines import Line, line_of, support_fixings
from revealbook.measures.frame import PIECES, piece_path
from revealbook.measures.physics.loads import (
    dead_load_n,
    eccentric_moment_nm,
    glass_mass_kg,
    moment_tension_n,
    shear_per_fixing_n,
    wind_tensions_n,
)
from revealbook.measures.physics.support_reactions import FEWEST_SUPPORTS, SpreadLoad, support_reactions_n
from revealbook.measures.reading import Detail, Missing, Outcome, Path, Reading
from revealbook.measures.wind import suction
from revealbook.measures.work import Work, lacking

MASS: Path = ("window", "mass_kg")
ECCENTRICITY: Path = ("window", "centre_from_wall_mm")


class Forces(NamedTuple):
    """Design forces in N on the worst fixing of a line, and on all of the line together."""

    line: Line
    tension_n: float
    shear_n: float
    total_tension_n: float
    total_shear_n: float


class Share(NamedTuple):
    """Design tension and shear in N that the window's weight puts on each fixing that bears it."""

    tension_n: float
    shear_n: float


def mass_beyond_glass(work: Work) -> Iterator[Outcome]:
    """By how many kg the recorded mass exceeds that of the recorded glass alone; negative cannot be."""
    panes, area = ("window", "glass_panes_mm"), ("window", "glass_area_m2")
    if missing := lacking(work, (), MASS, panes, area):
        yield from missing
        return
    if not work.look(*panes):
        yield Missing((), "glass_panes_mm", panes)
        return
    mass, glass = work.look(*MASS), glass_mass_kg(work.look(*panes), work.look(*area))
    details = (Detail("mass_kg", mass, "kg", MASS), Detail("glass_kg", glass, "kg", panes))
    yield Reading((), mass - glass, MASS, None, details)


def eccentric_moment(work: Work) -> Iterator[Outcome]:
    """Characteristic moment of the window's weight about the face of the wall, Nm."""
    if missing := lacking(work, (), MASS, ECCENTRICITY):
        yield from missing
        return
    weight, out = dead_load_n(work.look(*MASS)), work.look(*ECCENTRICITY)
    details = (Detail("weight_n", weight, "N", MASS), Detail("centre_from_wall_mm", out, "mm", ECCENTRICITY))
    yield Reading((), eccentric_moment_nm(weight, out), ECCENTRICITY, None, details)


def support_loads(work: Work) -> Iterator[Outcome]:
    """Characteristic load on each support, N; negative where the window's weight lifts it.

    The weight is spread evenly over the window's width, from the end of the left joint on.
    """
    over, joint = piece_path("bottom", "overlap_left_mm"), ("window", "joint_widths_mm", "left", "start")
    placed = work.look("supports", "placed")
    centres: list[Path] = [("supports", "placed", number, "centre_mm") for number in range(len(placed or ()))]
    needed: tuple[Path, ...] = (MASS, ("window", "width_mm"), over, joint, ("supports", "placed"), *centres)
    if missing := lacking(work, (), *needed):
        yield from missing
        return
    by_place = sorted((work.look(*path), path[:-1]) for path in centres)
    if len({at for at, _ in by_place}) < max(FEWEST_SUPPORTS, len(by_place)):
        yield Missing((), "two_supports", ("supports", "placed"))
        return
    start, weight = work.look(*over) + work.look(*joint), dead_load_n(work.look(*MASS))
    load = SpreadLoad(start, start + work.look("window", "width_mm"), weight)
    loads = support_reactions_n([at for at, _ in by_place], [load])
    for (at, path), force in zip(by_place, loads, strict=True):
        details = (Detail("centre_mm", at, "mm", (*path, "centre_mm")), Detail("weight_n", weight, "N", MASS))
        yield Reading((f"support {int(path[-1]) + 1}",), force, path, None, details)


def _share(work: Work, bottom: Line) -> Share | tuple[Missing, ...]:
    """Share the weight among the fixings of the bottom piece and of the supports."""
    profile = work.product("profiles", work.look(*piece_path("bottom", "profile")))
    width = getattr(profile, "width_mm", None)
    missing = lacking(work, (), MASS, ECCENTRICITY)
    if width is None:
        missing += (Missing(("bottom",), "profile_width_mm", piece_path("bottom", "profile")),)
    if missing or width is None:
        return missing
    bearing = len(bottom.positions_mm) + sum(line.number for line in support_fixings(work))
    weight = work.method.gamma_dead * dead_load_n(work.look(*MASS))
    moment = eccentric_moment_nm(weight, work.look(*ECCENTRICITY))
    return Share(moment_tension_n(moment, width / 2, bearing), shear_per_fixing_n(weight, bearing))


def forces(work: Work) -> Iterator[Forces | Missing]:
    """Design forces on the fixings of each piece and support; before them, all that is missing for them."""
    pull = suction(work)
    short = lacking(work, (), ("window", "height_mm"))
    yield from (*(() if isinstance(pull, Reading) else pull), *short)
    share: Share | None = None
    for piece in PIECES:
        line = line_of(work, piece)
        if not isinstance(line, Line):
            yield from line
            continue
        if piece == "bottom":
            found = _share(work, line)
            share = found if isinstance(found, Share) else None
            yield from () if isinstance(found, Share) else found
        if isinstance(pull, Reading) and not short and (share or piece != "bottom"):
            yield _pulled(work, line, float(pull.value), share if piece == "bottom" else None)
    if share:
        for carried in support_fixings(work):
            number, each = carried.number, share
            yield Forces(
                carried, each.tension_n, each.shear_n, number * each.tension_n, number * each.shear_n
            )


def _pulled(work: Work, line: Line, suction_pa: float, share: Share | None) -> Forces | Missing:
    strip = min(work.look("window", "width_mm"), work.look("window", "height_mm")) / 2
    design_pa = work.method.gamma_wind * suction_pa
    try:
        wind = wind_tensions_n(design_pa, strip, line.length_mm, line.positions_mm)
    except ValueError:
        return Missing(line.subject, "fixings_beyond_piece", line.path)
    tension, shear = share or Share(0.0, 0.0)
    return Forces(line, max(wind) + tension, shear, sum(wind) + line.number * tension, line.number * shear)


def fixing_tension(work: Work) -> Iterator[Outcome]:
    """Design tension on the worst fixing of each piece and support, N, from weight and suction."""
    for found in forces(work):
        yield (
            found
            if isinstance(found, Missing)
            else Reading(found.line.subject, found.tension_n, found.line.path)
        )


def fixing_shear(work: Work) -> Iterator[Outcome]:
    """Design shear on each fixing that bears the window's weight, N."""
    for found in forces(work):
        if isinstance(found, Missing):
            yield found
        elif found.shear_n:
            yield Reading(found.line.subject, found.shear_n, found.line.path)
