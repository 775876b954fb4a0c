"""Readings of all fixings against their data sheet: of frame, supports and brackets, and of the window."""

from collections.abc import Iterable, Iterator

from revealbook.measures.frame import piece_path
from revealbook.measures.left_out import standing
from revealbook.measures.reading import Detail, Missing, Outcome, Path, Reading, Subject
from revealbook.measures.work import Work, each
from revealbook.records.fixing import FixingSet

Placed = tuple[Subject, Path, FixingSet]


def fixing_sets(work: Work) -> Iterator[Placed | Missing]:
    """Every set of fixings that goes into the wall: of the four pieces, the supports and the brackets."""
    for piece in standing(work):
        sets = each(work, *piece_path(piece, "fixings"))
        if isinstance(sets, Missing):
            yield sets._replace(subject=(piece,))
            continue
        for number, fixings in sets:
            yield (piece, f"set {number + 1}"), piece_path(piece, "fixings", number), fixings
    for path, name in ((("supports", "placed"), "support"), (("plinth", "brackets"), "bracket")):
        yield from _unlisted(work, path, name)
        for number, carrier in enumerate(work.look(*path) or ()):
            here: Path = (*path, number, "fixings")
            if carrier.fixings is None:
                yield Missing((f"{name} {number + 1}",), "fixings", here)
            else:
                yield (f"{name} {number + 1}",), here, carrier.fixings


def _window_sets(work: Work) -> Iterator[Placed | Missing]:
    """Every set of the window's own fixings; what carries them is the mounting frame, not the wall."""
    sets = each(work, "window", "fixings")
    if isinstance(sets, Missing):
        yield sets._replace(subject=("window",))
        return
    for number, fixings in sets:
        yield ("window", fixings.side or f"set {number + 1}"), ("window", "fixings", number), fixings


def every_fixing_set(work: Work) -> Iterator[Placed | Missing]:
    """Every set of fixings there is; the first edition left the window's own fixings out."""
    yield from fixing_sets(work)
    if work.method.computations > 1:
        yield from _window_sets(work)


def _unlisted(work: Work, path: Path, name: str) -> Iterator[Missing]:
    """Tell that supports or brackets are not listed, unless the record says that there are none."""
    used = work.look(path[0], "called_for" if name == "support" else "used")
    if work.look(*path) is None and used is not False and work.method.computations > 1:
        yield Missing((name,), str(path[-1]), path)


def margin_to_data_sheet(work: Work, key: str, least: str) -> Iterator[Outcome]:
    """By how much a dimension of each set exceeds the least that its data sheet states, mm."""
    for placed in every_fixing_set(work):
        if isinstance(placed, Missing):
            yield placed
            continue
        subject, path, fixings = placed
        value = getattr(fixings, key)
        asked = getattr(work.product("fixings", fixings.product), least, None)
        if value is None:
            yield Missing(subject, key, (*path, key))
        elif asked is None:
            yield Missing(subject, least, (*path, "product"))
        else:
            details = (Detail(key, value, "mm", (*path, key)), Detail(least, asked, "mm"))
            spread = work.uncertainty(str(path[0]), "length")
            yield Reading(subject, value - asked, (*path, key), spread, details)


def embedment_margin(work: Work) -> Iterator[Outcome]:
    """By how much the embedment of fixings exceeds the least of their data sheet, mm."""
    return margin_to_data_sheet(work, "embedment_mm", "embedment_min_mm")


def edge_distance_margin(work: Work) -> Iterator[Outcome]:
    """By how much the edge distance of fixings exceeds the least of their data sheet, mm."""
    return margin_to_data_sheet(work, "edge_distance_mm", "edge_distance_min_mm")


def holes_cleaned(work: Work) -> Iterator[Outcome]:
    """Whether the drilled holes of each set were cleaned."""
    for placed in fixing_sets(work):
        if isinstance(placed, Missing):
            yield placed
            continue
        subject, path, fixings = placed
        here = (*path, "holes_cleaned")
        value = fixings.holes_cleaned
        yield Missing(subject, "holes_cleaned", here) if value is None else Reading(subject, value, here)


def torque_deviation(work: Work) -> Iterator[Outcome]:
    """Difference between the torque used and the torque of the data sheet, Nm, without sign.

    Fixings whose data sheet states that no torque is asked for give no reading.
    """
    for placed in fixing_sets(work):
        if isinstance(placed, Missing):
            yield placed
            continue
        subject, path, fixings = placed
        product = work.product("fixings", fixings.product)
        if getattr(product, "needs_torque", None) is False:
            continue
        asked, here = getattr(product, "torque_nm", None), (*path, "torque_nm")
        if fixings.torque_nm is None:
            yield Missing(subject, "torque_nm", here)
        elif asked is None:
            yield Missing(subject, "data_sheet_torque_nm", (*path, "product"))
        else:
            details = (
                Detail("torque_nm", fixings.torque_nm, "Nm", here),
                Detail("data_sheet_torque_nm", asked, "Nm"),
            )
            yield Reading(subject, abs(fixings.torque_nm - asked), here, None, details)


def empty_holes(work: Work) -> Iterator[Outcome]:
    """How many holes of each piece have no fixing of their own.

    A fixing stands in a hole if its position lies inside it: not farther from its middle than half its
    diameter. Without a recorded diameter, the two positions must be the same.
    """
    for piece in standing(work):
        holes, path = work.look(*piece_path(piece, "holes_mm")), piece_path(piece, "fixings")
        sets = work.look(*path)
        if holes is None or sets is None:
            key = "holes_mm" if holes is None else "fixings"
            yield Missing((piece,), key, piece_path(piece, key))
            continue
        unplaced = next((number for number, fixings in enumerate(sets) if fixings.at_mm is None), None)
        if unplaced is not None:
            yield Missing((piece,), "at_mm", (*path, unplaced, "at_mm"))
            continue
        reach = (work.look(*piece_path(piece, "hole_diameter_mm")) or 0) / 2
        empty = _empty(holes, [position for fixings in sets for position in fixings.at_mm], reach)
        details = tuple(Detail("hole_mm", hole, "mm") for hole in empty)
        yield Reading((piece,), len(empty), path, None, details)


def _empty(holes: Iterable[float], positions: Iterable[float], reach: float) -> list[float]:
    """Give the holes left over once every fixing fills at most one, going along the piece."""
    empty, left = [], sorted(positions)
    for hole in sorted(holes):
        inside = next((position for position in left if abs(position - hole) <= reach), None)
        if inside is None:
            empty.append(hole)
        else:
            left.remove(inside)
    return empty
