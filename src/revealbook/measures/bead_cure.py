"""How far the adhesive's beads had set by their depth when the work was covered: a model beside the tables.

Where a product states only a depth after 24 hours, the front is taken to advance with the square root of time
and with the vapour pressure of the air. Indicative: the supplier's written instructions go first.
"""

from collections.abc import Callable, Iterator
from datetime import datetime
from functools import partial
from itertools import pairwise
from math import ceil

from revealbook.measures.air import air_read
from revealbook.measures.bead_width import pressed_width_mm, pressed_width_path
from revealbook.measures.bonding import Lasting, adhesive_of, adhesives, lasting
from revealbook.measures.left_out import PIECES
from revealbook.measures.physics.cure import Range
from revealbook.measures.physics.cure_depth import cure_depth_mm, cure_path_mm, vapour_speed_factor
from revealbook.measures.reading import Detail, Missing, Outcome, Path, Reading, Subject
from revealbook.measures.unread import gaps_are_limited, hours, weather
from revealbook.measures.work import Work
from revealbook.records.applications import BONDING, applications
from revealbook.records.products import Adhesive

COVERED: Path = ("covering", "at")
_OPEN_EDGES = 2
_STATED = ("cure_mm_24h", "reference_air_c", "reference_rh_pct")


def depth_stated(work: Work) -> Iterator[Outcome]:
    """Whether the data sheet of any adhesive used states a depth after 24 hours with its climate."""
    used = adhesives(work)
    unknown = next((path for adhesive, path in used if adhesive is None), None)
    if unknown is not None:
        yield Missing((), "product", unknown)
        return
    stated = [(_states_depth(adhesive), path) for adhesive, path in used if adhesive]
    yield Reading((), *next((one for one in stated if one[0]), stated[0]))


def _states_depth(adhesive: Adhesive) -> bool:
    return all(getattr(adhesive, key) is not None for key in _STATED)


def cure_reserve(work: Work) -> Iterator[Outcome]:
    """By how many mm the front had passed the middle of each piece's bead when it was covered.

    A bead pressed between wall and profile sets from its two edges, so the path is half its pressed width. It
    counts from the last application of each piece. Both the width and the weather may be known within bounds
    only: the bead counts as set if it was so with the widest bead in the slowest weather, as soft if it was
    so with the narrowest in the fastest, and is not shown in between.
    """
    if not applications(work.opening):
        yield Missing((), "pressed_at", (*BONDING, "pressed_at"))
        return
    for held in lasting(work, PIECES):
        subject = () if held.subject == ("bonding",) else held.subject
        if isinstance(held, Missing):
            yield held._replace(subject=subject)
        else:
            yield from _reserves(work, held, subject)


def _reserves(work: Work, held: Lasting, subject: Subject) -> Iterator[Outcome]:
    covered, adhesive = work.look(*COVERED), adhesive_of(work, held.applied)
    if covered is None or adhesive is None:
        lacking = COVERED if covered is None else (*held.applied.path, "product")
        yield Missing(subject, str(lacking[-1]), lacking)
        return
    if not _states_depth(adhesive):
        return
    effective = _effective_hours(work, adhesive, held.pressed_at, covered)
    if effective is None:
        yield Missing(subject, "rh_pct", (*held.applied.path, "rh_pct"))
        return
    stated = adhesive.cure_mm_24h or 0.0
    least, most = (cure_depth_mm(hours_there, stated) for hours_there in effective)
    waited = max(hours(held.pressed_at, covered), 0.0)
    for piece in held.of:
        width = pressed_width_mm(work, piece)
        if isinstance(width, Missing):
            yield width
            continue
        narrow, wide = (cure_path_mm(end, _OPEN_EDGES) for end in width)
        yield _reserve(piece, pressed_width_path(work, piece), (least, most), (narrow, wide), waited)


def _reserve(piece: str, path: Path, reached: Range, needed: Range, waited: float) -> Outcome:
    """Give the reserve by the worst bounds if it is enough, by the best if even that is not."""
    for depth, way, enough in ((reached[0], needed[1], True), (reached[1], needed[0], False)):
        if (depth >= way) is enough:
            details = (
                Detail("cured_depth_mm", depth, "mm"),
                Detail("cure_path_mm", way, "mm", path),
                Detail("waited_h", waited, "h", COVERED),
            )
            return Reading((piece,), depth - way, path, None, details)
    bounds = (
        Detail("least_depth_mm", reached[0], "mm"),
        Detail("most_depth_mm", reached[1], "mm"),
        Detail("least_path_mm", needed[0], "mm", path),
        Detail("most_path_mm", needed[1], "mm", path),
    )
    return Missing((piece,), "bead_cure_between_bounds", path, bounds)


def _effective_hours(work: Work, adhesive: Adhesive, start: datetime, end: datetime) -> Range | None:
    """Give the hours in the reference climate that set as deep as the wait did, at least and at most.

    A speed above that of the reference climate counts only as far as the data sheet states it. None if the
    humidity was not read during the wait.
    """
    reference_c, reference_pct = adhesive.reference_air_c, adhesive.reference_rh_pct
    if reference_c is None or reference_pct is None or adhesive.cure_mm_24h is None:
        return None
    speed = partial(vapour_speed_factor, reference_air_c=reference_c, reference_rh_pct=reference_pct)
    if not gaps_are_limited(work.method):
        return _by_the_slowest_air(work, speed, start, end)
    air = weather(work, start, end, with_humidity=True)
    if air is None:
        return None
    highest = 1.0 if adhesive.cure_speed_max is None else adhesive.cure_speed_max
    least = most = 0.0
    for before, after in pairwise(moment for moment in air.moments if moment <= air.waited_h):
        steps = max(1, ceil(after - before))
        for step in range(steps):
            warmth, damp = air.at(before + (after - before) * (step + 0.5) / steps)
            slow, fast = (speed(c, rh) for c, rh in zip(warmth, damp or (), strict=True))
            least += min(slow, highest) * (after - before) / steps
            most += min(fast, highest) * (after - before) / steps
    return least, most


def _by_the_slowest_air(
    work: Work, speed: Callable[[float, float], float], start: datetime, end: datetime
) -> Range | None:
    """Let the slowest air read during the wait count for all of it, as rule sets of format 1 do."""
    read = [
        speed(air.air_c, air.rh_pct)
        for air in air_read(work.opening)
        if air.rh_pct is not None and start <= air.at <= end
    ]
    waited = max(hours(start, end), 0.0)
    return (waited * min(read), waited * min(read)) if read else None
