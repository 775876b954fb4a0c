"""Loads of the window on supports and fixings: its weight standing out from the wall, and wind suction.

* The weight stands on the bottom piece and on the supports; module `weight` says how it is split.
  Bond, corner joints and fixings at the sides are not counted on.
* Suction pulls on all four pieces. Each carries a strip of half the window's shorter side, so that all strips
  together are more than the window; a fixing holds the strip half way to its neighbours.
* Partial factors and the interaction of tension and shear are those of the method.

Indicative only: loads defer to local codes, the supplier's written instructions and a licensed engineer.
"""

from collections.abc import Iterator
from typing import NamedTuple

from revealbook.measures.fixing_lines import Line, line_of, support_fixings
from revealbook.measures.left_out import PIECES, standing
from revealbook.measures.physics.loads import dead_load_n, eccentric_moment_nm, glass_mass_kg, wind_tensions_n
from revealbook.measures.physics.support_reactions import FEWEST_SUPPORTS, SpreadLoad, support_reactions_n
from revealbook.measures.reading import Detail, Missing, Outcome, Path, Reading
from revealbook.measures.weight import MASS, Borne, Share, Weight, borne, distance_paths, span_of, weight_of
from revealbook.measures.wind import suction
from revealbook.measures.work import Work, lacking


class Forces(NamedTuple):
    """Design forces in N on the worst fixing of a line, and on all of the line together.

    Attributes:
        line: the fixings.
        tension_n: on the worst one.
        shear_n: on the worst one.
        total_tension_n: on all of them.
        total_shear_n: on all of them.
        models: tension and shear on the worst one by each model of how the weight is split, by detail.
        worst_out_mm: how far out the window was taken to be, where weight counts.
    """

    line: Line
    tension_n: float
    shear_n: float
    total_tension_n: float
    total_shear_n: float
    models: tuple[tuple[str, Share], ...] = ()
    worst_out_mm: float | None = None


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
    paths = distance_paths(work)
    if missing := lacking(work, (), MASS, *paths):
        yield from missing
        return
    weight, out = dead_load_n(work.look(*MASS)), sum(work.look(*path) for path in paths)
    distances = (Detail(str(path[-1]), work.look(*path), "mm", path) for path in paths)
    details = (Detail("weight_n", weight, "N", MASS), *distances)
    yield Reading((), eccentric_moment_nm(weight, out), paths[0], None, details)


def support_loads(work: Work) -> Iterator[Outcome]:
    """Characteristic load on each support, N; negative where the window's weight lifts it.

    The weight is spread evenly over the window's width, from the end of the left joint on.
    """
    load, placed = span_of(work), work.look("supports", "placed")
    centres: list[Path] = [("supports", "placed", number, "centre_mm") for number in range(len(placed or ()))]
    missing = lacking(work, (), ("supports", "placed"), *centres)
    if missing or not isinstance(load, SpreadLoad):
        yield from (*(() if isinstance(load, SpreadLoad) else load), *missing)
        return
    by_place = sorted((work.look(*path), path[:-1]) for path in centres)
    if len({at for at, _ in by_place}) < max(FEWEST_SUPPORTS, len(by_place)):
        yield Missing((), "two_supports", ("supports", "placed"))
        return
    loads = support_reactions_n([at for at, _ in by_place], [load])
    for (at, path), force in zip(by_place, loads, strict=True):
        details = (
            Detail("centre_mm", at, "mm", (*path, "centre_mm")),
            Detail("weight_n", load.load_n, "N", MASS),
        )
        yield Reading((f"support {int(path[-1]) + 1}",), force, path, None, details)


def forces(work: Work) -> Iterator[Forces | Missing]:
    """Design forces on the fixings of each piece and support; before them, all that is missing for them."""
    pull = suction(work)
    short = lacking(work, (), ("window", "height_mm"))
    yield from (*(() if isinstance(pull, Reading) else pull), *short)
    below: list[Forces | Missing] = []
    # what carries the weight is asked for even where no bottom piece is: nothing is safe because it is absent
    for piece in (piece for piece in PIECES if piece == "bottom" or piece in standing(work)):
        line = line_of(work, piece)
        if not isinstance(line, Line):
            yield from line
            continue
        on_it: Borne | None = None
        weight: Weight | tuple[Missing, ...] = ()
        if piece == "bottom":
            weight = weight_of(work)
            yield from () if isinstance(weight, Weight) else weight
            if isinstance(weight, Weight):
                on_it, below = _below(work, weight, line)
        if isinstance(pull, Reading) and not short and (on_it or piece != "bottom"):
            yield _pulled(work, line, float(pull.value), on_it, weight)
    yield from below


def _below(work: Work, weight: Weight, bottom: Line) -> tuple[Borne, list[Forces | Missing]]:
    """Give what a fixing of the bottom piece bears of the weight, and the forces on the supports below it."""
    carried = list(support_fixings(work))
    lines = [line for line in carried if isinstance(line, Line)]
    by_line, missing = borne(work, weight, bottom, lines)
    found: list[Forces | Missing] = [*(one for one in carried if isinstance(one, Missing)), *missing]
    for line in lines:
        if line.subject in by_line:
            on_it = by_line[line.subject]
            tension, shear = on_it.share
            totals = line.number * tension, line.number * shear
            found.append(Forces(line, tension, shear, *totals, on_it.models, weight.worst_out_mm))
    return by_line[bottom.subject], found


def _pulled(
    work: Work, line: Line, suction_pa: float, on_it: Borne | None, weight: Weight | tuple[Missing, ...]
) -> Forces | Missing:
    strip = min(work.look("window", "width_mm"), work.look("window", "height_mm")) / 2
    design_pa = work.method.gamma_wind * suction_pa
    try:
        wind = wind_tensions_n(design_pa, strip, line.length_mm, line.positions_mm)
    except ValueError:
        return Missing(line.subject, "fixings_beyond_piece", line.path)
    (tension, shear), models = on_it or Borne(Share(0.0, 0.0))
    with_wind = tuple((name, Share(max(wind) + one.tension_n, one.shear_n)) for name, one in models)
    totals = sum(wind) + line.number * tension, line.number * shear
    out = weight.worst_out_mm if isinstance(weight, Weight) else None
    return Forces(line, max(wind) + tension, shear, *totals, with_wind, out)


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
