"""Photographs whose camera names another time than the work that they stand for."""

from collections.abc import Iterator
from datetime import datetime, timedelta

from revealbook.inspection.practice import practice
from revealbook.inspection.question import Evidence, Question, Spot
from revealbook.inspection.values import WORK
from revealbook.records.opening import Opening
from revealbook.records.part import parts, photos_named


def capture(evidence: Evidence) -> Iterator[Question]:
    """Ask about pictures taken far from the work that they show, or after it was covered."""
    away = timedelta(hours=practice().photos.away_h)
    for one in evidence.site.openings:
        opening = one.record.opening
        times = _times(opening)
        for path, photo in photos_named(opening):
            known = evidence.photos.get(photo.file)
            if known is None or known.taken is None or not times:
                continue
            taken = known.taken if known.taken.tzinfo else known.taken.replace(tzinfo=times[0].tzinfo)
            nearest = min(times, key=lambda at, taken=taken: abs(at - taken))  # type: ignore[misc]
            covered = opening.covering.at if opening.covering else None
            facts = {"file": photo.file, "taken": taken, "work": nearest, "covered": covered}
            spots = (Spot(one.mark, path),)
            if covered is not None and taken > covered and path[0] != "tests":
                yield Question("capture", "taken_after_covering", (one.mark,), spots, facts)
            elif abs(nearest - taken) > away:
                yield Question("capture", "taken_away", (one.mark,), spots, facts)


def _times(opening: Opening) -> list[datetime]:
    """Give the moments of the work at an opening: a picture may stand a section before its step."""
    held = [getattr(opening, section) for section in (*WORK, "tests")]
    held += [*(opening.hold_points or ()), *opening.nonconformities]
    return [
        value
        for section in held
        if section is not None
        for _, inner in parts(section)
        for value in inner.__dict__.values()
        if isinstance(value, datetime)
    ]
