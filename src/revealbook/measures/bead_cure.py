"""How far the adhesive's beads had set by their depth when the work was covered: a model beside the tables.

Where a product states only a depth after 24 hours, the front is taken to advance with the square root of time
and with the vapour pressure of the air. Indicative: the supplier's written instructions go first.
"""

from collections.abc import Iterator
from datetime import datetime

from revealbook.measures.air import air_read
from revealbook.measures.bonding import Lasting, adhesive_of, adhesives, lasting
from revealbook.measures.frame import PIECES, piece_path
from revealbook.measures.physics.cure_depth import cure_depth_mm, cure_path_mm, vapour_speed_factor
from revealbook.measures.reading import Detail, Missing, Outcome, Path, Reading, Subject
from revealbook.measures.unread import hours
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

    A bead pressed between wall and profile sets from its two edges, so the path is half its width. It counts
    from the last application of each piece. The slowest air read during the wait counts for all of it, which
    errs on the long side.
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
    speed = _slowest(work, adhesive, held.pressed_at, covered)
    if speed is None:
        yield Missing(subject, "rh_pct", (*held.applied.path, "rh_pct"))
        return
    waited = max(hours(held.pressed_at, covered), 0.0)
    reached = cure_depth_mm(waited * speed, adhesive.cure_mm_24h or 0.0)
    for piece in held.of:
        path = piece_path(piece, "beads", "width_mm")
        width = work.look(*path)
        if not width:
            yield Missing((piece,), "width_mm", path)
            continue
        needed = cure_path_mm(width, _OPEN_EDGES)
        details = (
            Detail("cured_depth_mm", reached, "mm"),
            Detail("cure_path_mm", needed, "mm", path),
            Detail("waited_h", waited, "h", COVERED),
        )
        yield Reading((piece,), reached - needed, path, None, details)


def _slowest(work: Work, adhesive: Adhesive, start: datetime, end: datetime) -> float | None:
    """Give the least speed against the reference climate of all air read during the wait, if any was."""
    reference_c, reference_pct = adhesive.reference_air_c, adhesive.reference_rh_pct
    if reference_c is None or reference_pct is None or adhesive.cure_mm_24h is None:
        return None
    speeds = [
        vapour_speed_factor(
            air.air_c, air.rh_pct, reference_air_c=reference_c, reference_rh_pct=reference_pct
        )
        for air in air_read(work.opening)
        if air.rh_pct is not None and start <= air.at <= end
    ]
    return min(speeds, default=None)
