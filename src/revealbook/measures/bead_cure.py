"""How far the adhesive's beads had set by their depth when the work was covered: a model beside the tables.

Where a product states only a depth after 24 hours, the front is taken to advance with the square root of time
and with the vapour pressure of the air. Indicative: the supplier's written instructions go first.
"""

from collections.abc import Iterator
from datetime import datetime

from revealbook.measures.frame import PIECES, piece_path
from revealbook.measures.physics.cure_depth import cure_depth_mm, cure_path_mm, vapour_speed_factor
from revealbook.measures.reading import Detail, Missing, Outcome, Path, Reading
from revealbook.measures.waits import climate, hours
from revealbook.measures.work import Work
from revealbook.records.products import Adhesive

BONDING: Path = ("frame", "bonding")
PRESSED: Path = (*BONDING, "pressed_at")
COVERED: Path = ("covering", "at")
_OPEN_EDGES = 2
_STATED = ("cure_mm_24h", "reference_air_c", "reference_rh_pct")


def depth_stated(work: Work) -> Iterator[Outcome]:
    """Whether the adhesive's data sheet states a depth after 24 hours with its climate."""
    adhesive = _adhesive(work)
    path = (*BONDING, "product")
    if adhesive is None:
        yield Missing((), "product", path)
        return
    yield Reading((), all(getattr(adhesive, key) is not None for key in _STATED), path)


def cure_reserve(work: Work) -> Iterator[Outcome]:
    """By how many mm the front had passed the middle of each piece's bead when it was covered.

    A bead pressed between wall and profile sets from its two edges, so the path is half its width. The
    slowest air read during the wait counts for all of it, which errs on the long side.
    """
    pressed, covered = work.look(*PRESSED), work.look(*COVERED)
    adhesive = _adhesive(work)
    if pressed is None or covered is None or adhesive is None:
        lacking = PRESSED if pressed is None else COVERED if covered is None else (*BONDING, "product")
        yield Missing((), str(lacking[-1]), lacking)
        return
    speed = _slowest(work, adhesive, pressed, covered)
    if speed is None:
        yield Missing((), "rh_pct", (*BONDING, "rh_pct"))
        return
    waited = max(hours(pressed, covered), 0.0)
    reached = cure_depth_mm(waited * speed, adhesive.cure_mm_24h or 0.0)
    for piece in PIECES:
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


def _adhesive(work: Work) -> Adhesive | None:
    found = work.product("adhesives", work.look(*BONDING, "product"))
    return found if isinstance(found, Adhesive) else None


def _slowest(work: Work, adhesive: Adhesive, start: datetime, end: datetime) -> float | None:
    """Give the least speed against the reference climate of all air read during the wait, if any was."""
    reference_c, reference_pct = adhesive.reference_air_c, adhesive.reference_rh_pct
    if reference_c is None or reference_pct is None or adhesive.cure_mm_24h is None:
        return None
    speeds = [
        vapour_speed_factor(
            air.air_c, air.rh_pct, reference_air_c=reference_c, reference_rh_pct=reference_pct
        )
        for air in climate(work)
        if air.rh_pct is not None and start <= air.at <= end
    ]
    return min(speeds, default=None)
