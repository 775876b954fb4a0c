"""The fixings of each frame piece and support as a line of points, and what each of them can bear."""

from collections.abc import Iterator
from typing import NamedTuple

from revealbook.measures.frame import piece_path
from revealbook.measures.pull_out import Tension, tension_of
from revealbook.measures.reading import Missing, Path, Subject
from revealbook.measures.work import Work, lacking


class Line(NamedTuple):
    """Fixings into the wall that act together.

    Attributes:
        subject: the piece or support.
        path: where its fixings stand in the record.
        products: of its fixings, with the path of each set.
        length_mm: of the piece; 0 for a support.
        positions_mm: along the piece, rising; empty for a support.
        number: how many fixings.
    """

    subject: Subject
    path: Path
    products: tuple[tuple[str | None, Path], ...]
    length_mm: float
    positions_mm: tuple[float, ...]
    number: int


class Resistance(NamedTuple):
    """Least design resistance in N among a line's fixings, and how many trials that to tension rests on."""

    tension_n: float
    shear_n: float
    trials: int = 0


def line_of(work: Work, piece: str) -> Line | tuple[Missing, ...]:
    """Give the fixings of a frame piece; or all that is missing for it."""
    length, path = piece_path(piece, "length_mm"), piece_path(piece, "fixings")
    sets = work.look(*path)
    places: list[Path] = [(*path, number, "at_mm") for number in range(len(sets or ()))]
    missing = lacking(work, (piece,), length, path, *places)
    if missing:
        return missing
    positions = tuple(sorted({at for one in sets for at in one.at_mm}))
    if not positions:
        return (Missing((piece,), "at_mm", path),)
    products = tuple((one.product, (*path, number)) for number, one in enumerate(sets))
    return Line((piece,), path, products, work.look(*length), positions, len(positions))


def support_fixings(work: Work) -> Iterator[Line | Missing]:
    """Give the fixings of supports that bear: fixed to the wall, tight under the bottom piece, holes counted.

    What is not recorded is missing, and such a support takes no weight off the others. The first edition of
    the computations left it out in silence and did not look at the gap.
    """
    first_edition = work.method.computations == 1
    keys = ("fixed_to_wall", "holes") if first_edition else ("fixed_to_wall", "holes", "gap_mm")
    placed = work.look("supports", "placed")
    if placed is None and not first_edition and work.look("supports", "called_for") is not False:
        yield Missing((), "placed", ("supports", "placed"))
    for number, support in enumerate(placed or ()):
        path: Path = ("supports", "placed", number)
        missing = lacking(work, (f"support {number + 1}",), *((*path, key) for key in keys))
        if missing:
            yield from () if first_edition else missing
        elif support.fixed_to_wall and support.holes and (first_edition or support.gap_mm <= 0):
            product = support.fixings.product if support.fixings else None
            products = ((product, (*path, "fixings")),)
            yield Line((f"support {number + 1}",), products[0][1], products, 0.0, (), support.holes)


def resistance(work: Work, line: Line) -> Resistance | tuple[Missing, ...]:
    """Give the least design resistances of a line's fixings, by data sheet and trials; or what is missing."""
    tensions: list[Tension] = []
    shears: list[float] = []
    missing: list[Missing] = []
    for name, path in line.products:
        product = work.product("fixings", name)
        if product is None:
            missing.append(Missing(line.subject, "product", (*path, "product")))
            continue
        tension, shear = tension_of(product, work.method), product.shear_design_n
        if isinstance(tension, Tension):
            tensions.append(tension)
        else:
            missing.append(Missing(line.subject, tension, (*path, "product")))
        if shear is None:
            missing.append(Missing(line.subject, "shear_design_n", (*path, "product")))
        else:
            shears.append(shear)
    if missing:
        return tuple(missing)
    weakest = min(tensions)
    return Resistance(weakest.design_n, min(shears), weakest.trials)
