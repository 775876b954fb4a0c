"""Work that was faster than hands are."""

from collections import defaultdict
from collections.abc import Iterator
from itertools import pairwise

from revealbook.inspection.practice import practice
from revealbook.inspection.question import Evidence, Question, Spot
from revealbook.inspection.walk import Stay, minutes, stays


def pace(evidence: Evidence) -> Iterator[Question]:
    """Ask about bonding and setting that took hardly any time, and about frames or windows close together."""
    stated = practice().pace
    least = {"bonding": stated.least_bonding_min, "setting": stated.least_setting_min}
    between = {"bonding": stated.least_between_frames_min, "setting": stated.least_between_windows_min}
    following: dict[tuple[str, str], list[Stay]] = defaultdict(list)
    for one in evidence.site.openings:
        for stay in stays(one.record.opening):
            work = {"frame": "bonding", "window": "setting"}.get(str(stay.path[0]))
            if work is None:
                continue
            following[stay.person, work].append(stay)
            taken = minutes(stay.start, stay.end)
            if 0 < taken < least[work]:
                facts = {"minutes": taken, "least": least[work], "person": stay.person}
                yield Question("pace", f"short_{work}", (one.mark,), (Spot(one.mark, stay.path),), facts)
    for (person, work), those in following.items():
        for before, after in pairwise(sorted(those, key=lambda stay: stay.start)):
            apart = minutes(before.start, after.start)
            if apart < between[work]:
                spots = (Spot(before.mark, before.path), Spot(after.mark, after.path))
                facts = {"minutes": apart, "least": between[work], "person": person}
                yield Question("pace", f"close_{work}", (before.mark, after.mark), spots, facts)
