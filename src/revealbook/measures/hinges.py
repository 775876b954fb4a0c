"""The pull of an open sash on its upper hinge, and what it leaves of the fixing at that corner.

A sash opened square to its frame hangs on two hinges: the upper one is pulled away from the wall with
G (b / 2) / a, the lower one pressed against it. The fixing of the window's frame beside the upper hinge is
taken to hold the whole pull alone, with the lesser of its design resistances: a screw through a jamb holds
it in shear, a bracket in tension. Where sashes are not listed one by one, the window as a whole is taken for
its sash, which is heavier and wider.

Indicative only: hinges and fixings defer to the hardware maker's tables, the supplier's written instructions,
local codes and a licensed engineer.
"""

from collections.abc import Iterator
from typing import NamedTuple

from revealbook.measures.fixing_lines import Line, Resistance, resistance
from revealbook.measures.physics.loads import hinge_pull_n
from revealbook.measures.reading import Detail, Missing, Outcome, Path, Reading, Subject
from revealbook.measures.work import Work, each, lacking

HUNG = ("side hung", "tilt and turn")
"""Ways of opening in which the sash hangs out on hinges at its side."""
SASHES: Path = ("window", "sashes")
DISTANCE: Path = ("window", "hinge_distance_mm")
FIXINGS: Path = ("window", "fixings")


class Hung(NamedTuple):
    """A sash on hinges at its side: its subject, and where its mass and width stand in the record."""

    subject: Subject
    mass: Path
    width: Path


def hangs_at_its_side(work: Work) -> Iterator[Outcome]:
    """Whether a sash of the window opens on hinges at its side."""
    paths = _kinds(work)
    if any(work.look(*path) in HUNG for path in paths):
        yield Reading((), True, paths[0])
        return
    missing = lacking(work, (), *paths)
    yield from missing or (Reading((), False, paths[0]),)


def hinge_pull(work: Work) -> Iterator[Outcome]:
    """Characteristic pull on the upper hinge of each open sash, N."""
    for hung in _hung(work):
        if isinstance(hung, Missing):
            yield hung
            continue
        missing = lacking(work, hung.subject, hung.mass, hung.width, DISTANCE)
        if missing:
            yield from missing
            continue
        mass, width, apart = work.look(*hung.mass), work.look(*hung.width), work.look(*DISTANCE)
        details = (
            Detail("sash_kg", mass, "kg", hung.mass),
            Detail("sash_width_mm", width, "mm", hung.width),
            Detail("hinge_distance_mm", apart, "mm", DISTANCE),
        )
        yield Reading(hung.subject, hinge_pull_n(mass, width, apart), DISTANCE, None, details)


def hinge_corner_use(work: Work) -> Iterator[Outcome]:
    """Use of the fixing beside the upper hinge by each open sash's design pull; 1 is all it can bear."""
    bears = _least_resistance(work)
    yield from () if isinstance(bears, float) else bears
    for pull in hinge_pull(work):
        if isinstance(pull, Missing):
            yield pull
        elif isinstance(bears, float):
            design = work.method.gamma_dead * float(pull.value)
            parts = (Detail("pull_n", design, "N"), Detail("least_design_n", bears, "N"))
            yield pull._replace(value=design / bears, details=(*parts, *pull.details))


def _kinds(work: Work) -> list[Path]:
    sashes = work.look(*SASHES)
    if sashes:
        return [(*SASHES, number, "kind") for number in range(len(sashes))]
    return [("window", "opening_kind")]


def _hung(work: Work) -> Iterator[Hung | Missing]:
    for path in _kinds(work):
        subject = () if path[-1] == "opening_kind" else (f"sash {int(path[2]) + 1}",)
        kind = work.look(*path)
        if kind is None:
            yield Missing(subject, str(path[-1]), path)
        elif kind in HUNG:
            yield Hung(subject, (*path[:-1], "mass_kg"), (*path[:-1], "width_mm"))


def _least_resistance(work: Work) -> float | tuple[Missing, ...]:
    """Give the least design resistance among the window's fixings, N; or all that is missing for it."""
    sets = each(work, *FIXINGS)
    if isinstance(sets, Missing):
        return (sets,)
    products = tuple((one.product, (*FIXINGS, number)) for number, one in sets)
    if not products:
        return (Missing(("window",), "fixings", FIXINGS),)
    bears = resistance(work, Line(("window",), FIXINGS, products, 0.0, (), len(products)))
    return min(bears.tension_n, bears.shear_n) if isinstance(bears, Resistance) else bears
