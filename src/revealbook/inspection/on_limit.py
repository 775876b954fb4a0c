"""More readings exactly on a limit than a smooth scatter gives."""

from collections import Counter, defaultdict
from collections.abc import Iterator
from math import ceil, sqrt

from revealbook.inspection.chance import Tail, all_counted, heaped, worth_counting
from revealbook.inspection.practice import practice
from revealbook.inspection.question import Evidence, Question, Spot
from revealbook.measures.reading import Reading
from revealbook.rules.finding import Finding

_COUNTED = frozenset({"number", "-", "yes/no", "choice"})
_STEPS = (0.1, 0.5, 1.0, 5.0, 10.0)
"""Grids that people read on, in the unit of the reading; a limit is looked at on all that are in use."""
_NEXT, _REACH = 2, 4
"""The two steps next to the limit are held against those from the fourth to the eighth."""
_EXACT = 1e-6
_SURE = 2.5
"""A coarser grid is in use if readings off the limit lie on it by so many standard deviations too often."""


def on_limit(evidence: Evidence) -> Iterator[Question]:
    """Ask about rules whose readings heap exactly on the limit."""
    stated = practice().on_limit
    series: dict[tuple[str, float, bool], list[tuple[str, Finding, float]]] = defaultdict(list)
    for one in evidence.site.openings:
        for judgement in one.judgements:
            for finding in judgement.findings if judgement.held.rule.unit not in _COUNTED else ():
                side = _side(finding)
                if side is not None:
                    series[judgement.rule_id, *side[:2]].append((one.mark, finding, side[2]))
    tested = {
        key: (found, _tail([inside for _, _, inside in found], key[1]))
        for key, found in series.items()
        if len(found) >= stated.least_readings
    }
    counted = worth_counting([tail.least for _, tail in tested.values()], practice().false_alarm)
    for (rule, limit, _), (found, tail) in tested.items():
        on = [(mark, finding) for mark, finding, inside in found if abs(inside) < _EXACT]
        chance = all_counted(tail.chance, counted)
        if len(on) >= stated.least_on_limit and chance <= practice().false_alarm:
            marks = tuple(dict.fromkeys(mark for mark, _ in on))
            spots = tuple(Spot(mark, finding.reading.path) for mark, finding in on)
            facts = {"rule": rule, "on": len(on), "readings": len(found), "limit": limit}
            yield Question("on limit", "on_limit", marks, spots, facts, chance, counted)


def _side(finding: Finding) -> tuple[float, bool, float] | None:
    """Give the limit nearer to a reading, whether it bounds above, and how far inside the reading lies."""
    limit, reading = finding.limit, finding.reading
    if limit is None or not isinstance(reading, Reading) or isinstance(reading.value, bool | str):
        return None
    value = float(reading.value)
    sides = [(limit.low, False, value - limit.low)] if limit.low is not None else []
    if limit.high is not None:
        sides.append((limit.high, True, limit.high - value))
    return min(sides, key=lambda side: abs(side[2]), default=None)


def _tail(inside: list[float], limit: float) -> Tail:
    """Give the chance of the heap on the limit: the largest over the grids that the readings are taken on.

    Who reads on a coarser grid than others puts onto its lines what lies between them, and most limits are
    such a line. As many readings as that explains are taken off every line first.
    """
    off = [distance for distance in inside if abs(distance) >= _EXACT]
    finest = next((step for step in reversed(_STEPS) if _on(off, limit, step) == len(off)), _STEPS[0])
    read = _counted(inside, finest)
    in_use = [
        step for step in _STEPS if step > finest and _fits(limit, step) and _used(off, limit, finest, step)
    ]
    if in_use:
        read = _thinned(read, round(in_use[0] / finest), _on(off, limit, in_use[0]) / len(off))
    return max([_heap(read), *(_heap(_counted(inside, step)) for step in in_use)])


def _on(distances: list[float], limit: float, step: float) -> int:
    return sum(_fits(limit + distance, step) for distance in distances)


def _fits(value: float, step: float) -> bool:
    return abs(value / step - round(value / step)) < _EXACT


def _used(off: list[float], limit: float, finest: float, step: float) -> bool:
    """Whether more readings lie on a grid than there were by coincidence if all were taken on the finest."""
    share, number = finest / step, len(off)
    return _on(off, limit, step) > number * share + _SURE * sqrt(number * share * (1 - share))


def _counted(inside: list[float], step: float) -> Counter[int]:
    return Counter(round(distance / step) for distance in inside if _fits(distance, step))


def _thinned(read: Counter[int], apart: int, share: float) -> Counter[int]:
    """Take off every coarse line what the share of readings on such lines explains of all around it."""
    half = apart // 2
    around = {
        line: sum(read[line + near] for near in range(-half, half + 1)) for line in read if line % apart == 0
    }
    return read - Counter({line: ceil(share * number) for line, number in around.items()})


def _heap(read: Counter[int]) -> Tail:
    next_in = sum(read[at] for at in range(1, _NEXT + 1))
    further_in = sum(read[at] for at in range(_REACH, _REACH * _NEXT + 1))
    return heaped(read[0], next_in, further_in, _REACH)
