"""How the window's weight reaches the fixings below it: two models, of which the worse counts for each line.

* *Shared alike*: all fixings of the bottom piece and of the supports bear the same, V = G / n. This is the
  least that a support can get, and the most that the bottom piece gets beside supports.
* *Own reaction*: each support bears what it gets by itself (one support alone: the whole weight), and the
  bottom piece nothing beside them. With three supports or more it is the larger of the lever rule's and a
  stiff sill's. It can put twice on a fixing what sharing alike does, or more.

How a weight is split between stiff and less stiff parts is engineering judgement, so `method` states it. A
support bears only if it is recorded as fixed, tight under the bottom piece and with a known number of holes.
The moment is M = G e, with the window as far out as the record allows: its recorded distance from the wall
and the deviation from its place. A piece presses on the wall at its lower edge, so z is half of the bottom
piece's width; a support is taken to be of the same profile.

Indicative only: loads defer to local codes, the supplier's written instructions and a licensed engineer.
"""

from collections.abc import Mapping, Sequence
from typing import NamedTuple

from revealbook.measures.fixing_lines import Line
from revealbook.measures.frame import piece_path
from revealbook.measures.physics.continuous_sill import continuous_reactions_n
from revealbook.measures.physics.loads import (
    dead_load_n,
    eccentric_moment_nm,
    moment_tension_n,
    shear_per_fixing_n,
)
from revealbook.measures.physics.support_reactions import FEWEST_SUPPORTS, SpreadLoad, support_reactions_n
from revealbook.measures.reading import Missing, Path, Subject
from revealbook.measures.work import Work, lacking

MASS: Path = ("window", "mass_kg")
ECCENTRICITY: Path = ("window", "centre_from_wall_mm")
OUT_OF_PLACE: Path = ("window", "out_of_place_mm")
OVERLAP: Path = piece_path("bottom", "overlap_left_mm")
JOINT: Path = ("window", "joint_widths_mm", "left", "start")
WIDTH: Path = ("window", "width_mm")


class Share(NamedTuple):
    """Design tension and shear in N that the window's weight puts on one fixing."""

    tension_n: float
    shear_n: float


class Borne(NamedTuple):
    """What one fixing of a line bears of the weight.

    Attributes:
        share: what counts.
        models: what each model gives with the window where it is recorded, by the name of its detail; empty
            where there is one model only.
    """

    share: Share
    models: tuple[tuple[str, Share], ...] = ()


class Weight(NamedTuple):
    """The window's design weight in N; its distance from the wall as recorded and at worst, and z, in mm."""

    load_n: float
    out_mm: float
    worst_out_mm: float
    lever_mm: float

    def on_one(self, load_n: float, fixings: int, out_mm: float) -> Share:
        """Share a part of the weight among fixings."""
        moment = eccentric_moment_nm(load_n, out_mm)
        return Share(moment_tension_n(moment, self.lever_mm, fixings), shear_per_fixing_n(load_n, fixings))


def distance_paths(work: Work) -> tuple[Path, ...]:
    """Where the readings stand that tell how far out from the wall the window may be.

    The first edition of the computations took the recorded distance alone.
    """
    return (ECCENTRICITY,) if work.method.computations == 1 else (ECCENTRICITY, OUT_OF_PLACE)


def weight_of(work: Work) -> Weight | tuple[Missing, ...]:
    """Give the window's design weight and its arms; or all that is missing for them."""
    profile = work.product("profiles", work.look(*piece_path("bottom", "profile")))
    width = getattr(profile, "width_mm", None)
    paths = distance_paths(work)
    missing = lacking(work, (), MASS, *paths)
    if width is None:
        missing += (Missing(("bottom",), "profile_width_mm", piece_path("bottom", "profile")),)
    if missing or width is None:
        return missing
    load = work.method.gamma_dead * dead_load_n(work.look(*MASS))
    worst = sum(work.look(*path) for path in paths)
    return Weight(load, work.look(*ECCENTRICITY), worst, width / 2)


def span_of(work: Work) -> SpreadLoad | tuple[Missing, ...]:
    """Give the window's characteristic weight, spread evenly over its width, along the bottom piece."""
    if missing := lacking(work, (), MASS, WIDTH, OVERLAP, JOINT):
        return missing
    start = work.look(*OVERLAP) + work.look(*JOINT)
    return SpreadLoad(start, start + work.look(*WIDTH), dead_load_n(work.look(*MASS)))


def borne(
    work: Work, weight: Weight, bottom: Line, supports: Sequence[Line]
) -> tuple[Mapping[Subject, Borne], tuple[Missing, ...]]:
    """Give what one fixing of each line bears of the weight, and what is missing for some of the lines.

    Args:
        work: the opening.
        weight: its design weight.
        bottom: the fixings of the bottom piece.
        supports: those of every support that is counted on.
    """
    lines, fixings = (bottom, *supports), bottom.number + sum(line.number for line in supports)
    alike = weight.on_one(weight.load_n, fixings, weight.worst_out_mm)
    if work.method.weight_split == "shared alike" or not supports:
        return {line.subject: Borne(alike) for line in lines}, ()
    parts, missing = _reactions(work, supports)
    shared = ("shared_use", weight.on_one(weight.load_n, fixings, weight.out_mm))
    found = {bottom.subject: Borne(alike, (shared, ("own_reaction_use", Share(0.0, 0.0))))}
    for line, part in zip(supports, parts, strict=False):
        load = part * weight.load_n
        own = weight.on_one(load, line.number, weight.worst_out_mm)
        recorded = ("own_reaction_use", weight.on_one(load, line.number, weight.out_mm))
        found[line.subject] = Borne(max(alike, own, key=lambda share: share.shear_n), (shared, recorded))
    return found, missing


def _reactions(work: Work, supports: Sequence[Line]) -> tuple[tuple[float, ...], tuple[Missing, ...]]:
    """Give the part of the weight that each support bears by itself; a support that is lifted bears none."""
    if len(supports) < FEWEST_SUPPORTS:
        return (1.0,), ()
    centres: list[Path] = [(*line.path[:-1], "centre_mm") for line in supports]
    load = span_of(work)
    missing = lacking(work, (), *centres) + (load if not isinstance(load, SpreadLoad) else ())
    if missing or not isinstance(load, SpreadLoad):
        return (), missing
    places = [work.look(*path) for path in centres]
    if len(set(places)) < len(places):
        return (), (Missing((), "two_supports", ("supports", "placed")),)
    in_order = sorted(range(len(places)), key=places.__getitem__)
    sorted_places, whole = [places[index] for index in in_order], load._replace(load_n=1.0)
    hinged = support_reactions_n(sorted_places, [whole])
    loads = map(max, hinged, continuous_reactions_n(sorted_places, whole))
    by_index = dict(zip(in_order, loads, strict=True))
    return tuple(max(by_index[index], 0.0) for index in range(len(places))), ()
