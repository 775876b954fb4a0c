"""One person at two openings at once."""

from collections import defaultdict
from collections.abc import Iterator
from itertools import takewhile

from revealbook.inspection.practice import practice
from revealbook.inspection.question import Evidence, Question, Spot
from revealbook.inspection.walk import Stay, minutes, stays


def two_places(evidence: Evidence) -> Iterator[Question]:
    """Ask where somebody was whose times at two openings overlap by more than times are noted to."""
    by_person: dict[str, list[Stay]] = defaultdict(list)
    for one in evidence.site.openings:
        for stay in stays(one.record.opening):
            by_person[stay.person].append(stay)
    for person, those in by_person.items():
        ordered = sorted(those, key=lambda stay: stay.start)
        for number, first in enumerate(ordered):
            during = takewhile(lambda stay, end=first.end: stay.start < end, ordered[number + 1 :])  # type: ignore[misc]
            for second in during:
                if first.mark != second.mark and _clash(first, second):
                    spots = (Spot(first.mark, first.path), Spot(second.mark, second.path))
                    facts = {"person": person, "first": first.start, "second": second.start}
                    yield Question("two places", "two_places", (first.mark, second.mark), spots, facts)


def _clash(first: Stay, second: Stay) -> bool:
    """Whether two stays clash of which the second begins before the first ends."""
    tolerance = practice().places.tolerance_min
    left = minutes(second.start, first.end)
    if second.end == second.start:  # an event without length, deep inside a stay elsewhere
        return min(left, minutes(first.start, second.start)) > tolerance
    return min(left, minutes(second.start, second.end)) > tolerance
