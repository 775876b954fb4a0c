"""More readings exactly on a limit than a smooth scatter gives."""

from collections import Counter, defaultdict
from collections.abc import Iterator

from revealbook.inspection.chance import Tail, all_counted, heaped, worth_counting
from revealbook.inspection.practice import practice
from revealbook.inspection.question import Evidence, Question, Spot
from revealbook.measures.reading import Reading
from revealbook.rules.finding import Finding

_COUNTED = frozenset({"number", "-", "yes/no", "choice"})
_STEPS = (0.1, 0.5, 1.0, 5.0, 10.0)
"""Grids that people read on, in the unit of the reading; a limit is looked at on all that are in use."""
_WIDTHS = (1, 2, 3)
"""How many steps inside the limit are taken together; the smallest chance counts, times their number."""
_EXACT = 1e-6
_HEAPING = 1.5
"""A grid is in use if readings off the limit lie on it so many times as often as a finer one explains."""


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
    """Give the chance of the heap on the limit: the largest over the grids that the readings are taken on."""
    off = [distance for distance in inside if abs(distance) >= _EXACT]
    finest = next((step for step in reversed(_STEPS) if _share(off, limit, step) > 1 - _EXACT), _STEPS[0])
    coarser = (step for step in _STEPS if step > finest and _fits(limit, step))
    in_use = (step for step in coarser if _share(off, limit, step) > _HEAPING * finest / step)
    return max(_on_grid(inside, step) for step in (finest, *in_use))


def _share(distances: list[float], limit: float, step: float) -> float:
    return sum(_fits(limit + distance, step) for distance in distances) / max(len(distances), 1)


def _fits(value: float, step: float) -> bool:
    return abs(value / step - round(value / step)) < _EXACT


def _on_grid(inside: list[float], step: float) -> Tail:
    counted = Counter(round(distance / step) for distance in inside if _fits(distance, step))
    tails = [
        heaped(
            counted[0],
            sum(counted[at] for at in range(1, width + 1)),
            sum(counted[at] for at in range(width + 1, 2 * width + 1)),
        )
        for width in _WIDTHS
    ]
    number = len(_WIDTHS)
    return Tail(*(all_counted(min(each), number) for each in zip(*tails, strict=True)))
