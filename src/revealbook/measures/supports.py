"""Readings of the supports under load points and of the plinth profile."""

from collections.abc import Iterator
from math import inf

from revealbook.measures.reading import Detail, Missing, Outcome, Path, Reading
from revealbook.measures.waits import hours_between
from revealbook.measures.work import Work, each, one


def called_for(work: Work) -> Iterator[Outcome]:
    """Whether the window's drawing calls for supports."""
    yield one(work, (), ("supports", "called_for"))


def distance_to_load_points(work: Work) -> Iterator[Outcome]:
    """Distance from each load point to the middle of the nearest support, mm; without one, endless.

    Supports exist for load points, so an empty list of load points is a missing one. Where one support has no
    position, nobody can tell which is nearest.
    """
    points = each(work, "supports", "load_points_mm")
    placed = each(work, "supports", "placed")
    if isinstance(points, Missing) or isinstance(placed, Missing):
        yield points if isinstance(points, Missing) else placed  # type: ignore[misc]
        return
    if not work.look("supports", "load_points_mm"):
        yield Missing((), "load_points_mm", ("supports", "load_points_mm"))
        return
    centres = [(support.centre_mm, number) for number, support in placed]
    unplaced = next((number for centre, number in centres if centre is None), None)
    for number, point in points:
        if unplaced is not None:
            nowhere: Path = ("supports", "placed", unplaced, "centre_mm")
            yield Missing((f"load point {number + 1}",), "centre_mm", nowhere)
            continue
        distance, support = min(((abs(centre - point), index) for centre, index in centres), default=(inf, 0))
        path = ("supports", "placed", support, "centre_mm") if centres else ("supports", "placed")
        details = (Detail("load_point_mm", point, "mm", ("supports", "load_points_mm", number)),)
        spread = work.uncertainty("supports", "length", 2) if centres else None
        yield Reading((f"load point {number + 1}",), distance, path, spread, details)


def per_support(work: Work, *rest: str, measures: str | None = None) -> Iterator[Outcome]:
    """What was recorded of each support at `rest`; with none placed, there is nothing to read."""
    placed = each(work, "supports", "placed")
    if isinstance(placed, Missing):
        yield placed
        return
    for number, _ in placed:
        yield one(work, (f"support {number + 1}",), ("supports", "placed", number, *rest), measures)


def support_lengths(work: Work) -> Iterator[Outcome]:
    """Length of each support, mm: the length it was ordered in, which nobody measures again."""
    yield from per_support(work, "length_mm", measures="length" if work.method.computations == 1 else None)


def plinth_used(work: Work) -> Iterator[Outcome]:
    """Whether the window has a plinth profile."""
    yield one(work, (), ("plinth", "used"))


def plinth_before_window(work: Work) -> Iterator[Outcome]:
    """Hours from fitting the plinth profile to setting the window."""
    yield hours_between(work, ("plinth", "fitted_at"), ("window", "set_at"))


def per_plinth_joint(work: Work) -> Iterator[Outcome]:
    """Whether each lengthwise joint of the plinth profile is bonded."""
    joints = each(work, "plinth", "lengthwise_joints")
    if isinstance(joints, Missing):
        yield joints
        return
    for number, _ in joints:
        yield one(work, (f"joint {number + 1}",), ("plinth", "lengthwise_joints", number, "bonded"))


def bracket_count(work: Work) -> Iterator[Outcome]:
    """How many brackets carry the plinth profile to the wall."""
    path = ("plinth", "brackets")
    brackets = work.look(*path)
    yield Missing((), "brackets", path) if brackets is None else Reading((), len(brackets), path)


def bracket_screwed(work: Work) -> Iterator[Outcome]:
    """Whether each bracket is screwed, to the plinth profile or to the mounting frame."""
    return _bracket(work, "screwed_to", "plinth profile", "screwed_to_profile")


def bracket_fixed(work: Work) -> Iterator[Outcome]:
    """Whether each bracket is fixed, into the wall or into the foundation."""
    return _bracket(work, "fixed_into", "wall", "fixed_to_wall")


def _bracket(work: Work, choice: str, usual: str, usual_key: str) -> Iterator[Outcome]:
    """Give what was recorded of each bracket: where it is held, or whether it is in the ordinary place.

    A bracket that names the ordinary place but is said not to be held there is not held: the worse counts.
    """
    brackets = each(work, "plinth", "brackets")
    if isinstance(brackets, Missing):
        yield brackets
        return
    for number, bracket in brackets:
        path: Path = ("plinth", "brackets", number)
        held = getattr(bracket, choice)
        if held is None or (held == usual and getattr(bracket, usual_key) is False):
            yield one(work, (f"bracket {number + 1}",), (*path, usual_key))
        else:
            yield Reading((f"bracket {number + 1}",), value=True, path=(*path, choice))


def packer_shortfall(work: Work) -> Iterator[Outcome]:
    """Height still missing (or too much) after packing under the plinth profile, mm, without sign."""
    path = ("plinth", "packers")
    needed, packed = work.look(*path, "height_needed_mm"), work.look(*path, "height_mm")
    if needed is None or (packed is None and needed > 0):
        key = "height_needed_mm" if needed is None else "height_mm"
        yield Missing((), key, (*path, key))
        return
    details = (
        Detail("height_needed_mm", needed, "mm", (*path, "height_needed_mm")),
        Detail("height_mm", packed or 0.0, "mm", (*path, "height_mm")),
    )
    # packers come in heights that nobody measures again
    measured = 2 if work.method.computations == 1 else 1
    spread = work.uncertainty("plinth", "length", measured)
    yield Reading((), abs(needed - (packed or 0)), path, spread, details)


def height_is_made_up(work: Work) -> Iterator[Outcome]:
    """Whether there is height to make up under the plinth profile."""
    path = ("plinth", "packers", "height_needed_mm")
    needed = work.look(*path)
    yield Missing((), "height_needed_mm", path) if needed is None else Reading((), needed > 0, path)
