"""Readings of the mounting frame's pieces: lengths, holes, fixings, joints."""

from collections.abc import Iterator
from itertools import pairwise
from math import inf, sqrt

from revealbook.measures.left_out import PIECES, standing, standing_corner
from revealbook.measures.reading import Detail, Missing, Outcome, Path, Reading
from revealbook.measures.work import Work, each, one

HORIZONTAL = ("bottom", "top")
SIDES = ("left", "right")
CORNERS = ("bottom_left", "bottom_right", "top_left", "top_right")


def piece_path(piece: str, *rest: str | int) -> Path:
    """Give the path of something in a piece."""
    return ("frame", "pieces", piece, *rest)


def overlaps(work: Work) -> Iterator[Outcome]:
    """How far the bottom piece runs past the opening on each side, mm."""
    for side in SIDES if standing(work, ("bottom",)) else ():
        yield one(work, ("bottom", side), piece_path("bottom", f"overlap_{side}_mm"), "length")


def _length_against(work: Work, piece: str, size_path: Path, added: float = 0) -> Outcome:
    """Give by how much a piece is longer than the surveyed clear size (plus what is `added`), mm.

    The nominal size is no stand-in for a size that was not surveyed.
    """
    path = piece_path(piece, "length_mm")
    length, clear = work.look(*path), work.look(*size_path)
    if length is None or clear is None:
        absent = path if length is None else size_path
        return Missing((piece,), str(absent[-1]), absent)
    details = [Detail("length_mm", length, "mm", path), Detail("clear_size_mm", clear, "mm", size_path)]
    if added:
        details.append(Detail("side_pieces_mm", added, "mm"))
    spread = _two_readings(work.uncertainty("frame", "length"), work.uncertainty("survey", "length"))
    return Reading((piece,), length - clear - added, path, spread, tuple(details))


def _two_readings(first: float | None, second: float | None) -> float | None:
    known = [value for value in (first, second) if value is not None]
    return sqrt(sum(value * value for value in known)) if known else None


def bottom_surplus(work: Work) -> Iterator[Outcome]:
    """By how much the bottom piece is longer than the opening is wide at its sill, mm."""
    if standing(work, ("bottom",)):
        yield _length_against(work, "bottom", ("survey", "widths_mm", "bottom"))


def top_reach(work: Work) -> Iterator[Outcome]:
    """By how much the top piece is longer than from outer edge to outer edge of the side pieces, mm.

    The span is measured: side pieces that stand off the jambs span more than the opening and their widths.
    """
    if work.method.computations == 1:
        yield _top_reach_of_edition_1(work)
        return
    length_path, span_path = piece_path("top", "length_mm"), ("frame", "span_over_sides_mm")
    length, span = work.look(*length_path), work.look(*span_path)
    if length is None or span is None:
        absent = length_path if length is None else span_path
        yield Missing(("top",), str(absent[-1]), absent)
        return
    details = (Detail("length_mm", length, "mm", length_path), Detail("span_mm", span, "mm", span_path))
    yield Reading(("top",), length - span, length_path, work.uncertainty("frame", "length", 2), details)


def _top_reach_of_edition_1(work: Work) -> Outcome:
    """Give it against the clear width and both profiles' widths: pieces that lie against the jambs."""
    widths = [_profile_width(work, side) for side in SIDES]
    missing = next((side for side, width in zip(SIDES, widths, strict=True) if width is None), None)
    if missing is not None:
        return Missing(("top",), "profile_width_mm", piece_path(missing, "profile"))
    sides = sum(width for width in widths if width is not None)
    return _length_against(work, "top", ("survey", "widths_mm", "top"), sides)


def _profile_width(work: Work, piece: str) -> float | None:
    profile = work.product("profiles", work.look(*piece_path(piece, "profile")))
    width: float | None = getattr(profile, "width_mm", None)
    return width


def side_length_difference(work: Work) -> Iterator[Outcome]:
    """By how much each side piece is longer (or shorter) than the opening is high on its side, mm."""
    for side in standing(work, SIDES):
        yield _length_against(work, side, ("survey", "heights_mm", side))


def _holes(work: Work, piece: str) -> tuple[float, ...] | Missing:
    path = piece_path(piece, "holes_mm")
    holes = work.look(*path)
    return Missing((piece,), "holes_mm", path) if holes is None else tuple(holes)


def piece_lengths(work: Work) -> Iterator[Outcome]:
    """Length of each piece, also by the subjects of its two ends, mm: the size that limits of holes go by."""
    for piece in standing(work):
        for subject in ((piece,), (piece, "first_end"), (piece, "last_end")):
            yield one(work, subject, piece_path(piece, "length_mm"))


def hole_numbers(work: Work) -> Iterator[Outcome]:
    """How many holes each piece has."""
    for piece in standing(work):
        holes = _holes(work, piece)
        yield (
            holes
            if isinstance(holes, Missing)
            else Reading((piece,), len(holes), piece_path(piece, "holes_mm"))
        )


def hole_end_distances(work: Work) -> Iterator[Outcome]:
    """Distance of the first and last hole from the ends of each piece, mm."""
    for piece in standing(work):
        holes, path = _holes(work, piece), piece_path(piece, "holes_mm")
        length = work.look(*piece_path(piece, "length_mm"))
        if isinstance(holes, Missing):
            yield holes
            continue
        if not holes:
            yield Reading((piece, "first_end"), inf, path)
            continue
        first, last = min(holes), max(holes)
        spread = work.uncertainty("frame", "length")
        yield Reading((piece, "first_end"), first, (*path, holes.index(first)), spread)
        if length is None:
            yield Missing((piece, "last_end"), "length_mm", piece_path(piece, "length_mm"))
            continue
        details = (
            Detail("hole_mm", last, "mm"),
            Detail("length_mm", length, "mm", piece_path(piece, "length_mm")),
        )
        spread = work.uncertainty("frame", "length", 2)
        yield Reading((piece, "last_end"), length - last, (*path, holes.index(last)), spread, details)


def hole_centres(work: Work) -> Iterator[Outcome]:
    """Distance between neighbouring holes of each piece, mm; without holes, endless."""
    for piece in standing(work):
        holes, path = _holes(work, piece), piece_path(piece, "holes_mm")
        if isinstance(holes, Missing):
            yield holes
            continue
        if not holes:
            yield Reading((piece,), inf, path)
        in_order = sorted(range(len(holes)), key=lambda index: holes[index])
        for number, (here, there) in enumerate(pairwise(in_order), start=1):
            subject = (piece, f"hole {number}-{number + 1}")
            details = (Detail("from_mm", holes[here], "mm"), Detail("to_mm", holes[there], "mm"))
            spread = work.uncertainty("frame", "length", 2)
            yield Reading(subject, holes[there] - holes[here], (*path, there), spread, details)


def joint_fixing_distances(work: Work) -> Iterator[Outcome]:
    """Distance from each lengthwise joint to the nearest hole on each side, mm; without one, endless."""
    for piece in standing(work):
        joints = each(work, *piece_path(piece, "lengthwise_joints"))
        holes = _holes(work, piece)
        if isinstance(joints, Missing):
            yield joints._replace(subject=(piece,))
            continue
        for number, joint in joints:
            subject, path = (
                (piece, f"joint {number + 1}"),
                piece_path(piece, "lengthwise_joints", number, "at_mm"),
            )
            if joint.at_mm is None:
                yield Missing(subject, "at_mm", path)
            elif isinstance(holes, Missing):
                yield holes._replace(subject=subject)
            else:
                before = min((joint.at_mm - hole for hole in holes if hole < joint.at_mm), default=inf)
                after = min((hole - joint.at_mm for hole in holes if hole > joint.at_mm), default=inf)
                spread = work.uncertainty("frame", "length", 2)
                for where, distance in (("before", before), ("after", after)):
                    yield Reading((*subject, where), distance, path, spread if distance < inf else None)


def per_joint(work: Work, key: str) -> Iterator[Outcome]:
    """What was recorded of each lengthwise joint under `key`."""
    for piece in standing(work):
        joints = each(work, *piece_path(piece, "lengthwise_joints"))
        if isinstance(joints, Missing):
            yield joints._replace(subject=(piece,))
            continue
        for number, _ in joints:
            yield one(
                work, (piece, f"joint {number + 1}"), piece_path(piece, "lengthwise_joints", number, key)
            )


def per_piece(
    work: Work, *rest: str, of: tuple[str, ...] = PIECES, measures: str | None = None
) -> Iterator[Outcome]:
    """What was recorded of each piece at `rest`."""
    for piece in standing(work, of):
        yield one(work, (piece,), piece_path(piece, *rest), measures)


def slopes(work: Work, of: tuple[str, ...]) -> Iterator[Outcome]:
    """Out of level or plumb of each piece in mm per metre of its length, or of the method's least length."""
    for piece in standing(work, of):
        off, length = (
            work.look(*piece_path(piece, "out_of_line_mm")),
            work.look(*piece_path(piece, "length_mm")),
        )
        path = piece_path(piece, "out_of_line_mm")
        if off is None or length is None:
            key = "out_of_line_mm" if off is None else "length_mm"
            yield Missing((piece,), key, piece_path(piece, key))
            continue
        spread = work.uncertainty("frame", "deviation")
        details: tuple[Detail, ...] = (
            Detail("out_of_line_mm", off, "mm", path),
            Detail("length_mm", length, "mm"),
        )
        per_m = 1000 / (over := work.sloping_over(length))
        details += (Detail("slope_over_mm", over, "mm"),) if over != length else ()
        yield Reading((piece,), off * per_m, path, None if spread is None else spread * per_m, details)


def per_corner(work: Work, where: str, key: str, measures: str | None = None) -> Iterator[Outcome]:
    """What was recorded of each corner joint or each end (`where`) under `key`."""
    there = (corner for corner in CORNERS if standing_corner(work, corner, joint=where == "corners"))
    for corner in there:
        yield one(work, (corner,), ("frame", where, corner, key), measures)
